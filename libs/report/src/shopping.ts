// The shopping list as a grid: what the setup needs, what is there, what is left to buy and what it costs.

import { amountOf, bare, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { PurchaseLine } from '@ductwright/contract/result'
import type { Block } from './letter.js'
import { roleName } from './setup-words.js'

export function shoppingGrid(shopping: readonly PurchaseLine[], currency: string): Block {
  const unit = inert(currency, 8)
  return {
    kind: 'grid',
    columns: [
      { title: 'Part', align: 'left' },
      { title: 'own', align: 'right' },
      { title: 'buy', align: 'right' },
      { title: `${unit} each`, align: 'right' },
      { title: `${unit} in all`, align: 'right' },
    ],
    rows: shopping.map(row),
  }
}

function row(line: PurchaseLine): string[] {
  const needs = line.count > 1 ? ` (${bare('count', line.count)} needed)` : ''
  const name = inert(line.name, 60)
  const role = roleName(line.role)
  return [
    `${name}${name.toLowerCase().includes(role) ? '' : `, ${role}`}${needs}`,
    bare('count', line.owned),
    bare('count', line.buy),
    amountOf(line.price_each),
    amountOf(line.price),
  ]
}

/** What is to be paid, and what the same parts would cost someone who owns none of them. */
export function costSentence(cost: number, replacement: number, currency: string): string {
  const pay = `To pay: ${money(cost, currency)}.`
  // Sums of prices may differ in what binary numbers cannot hold.
  return replacement >= cost + 0.005 ? `${pay} If you owned none of it: ${money(replacement, currency)}.` : pay
}
