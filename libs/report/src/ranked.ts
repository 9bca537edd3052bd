// The ranked list with one line a purchase: the best-ranked setup stands for all settings of the same parts.

import { amountOf, bare, clock, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import type { Block, GridColumn, RankedRow } from './letter.js'
import { partsLine, settingsLine } from './setup-words.js'

export const mostPurchases = 12

/** The best-ranked member of each purchase, best first. */
export function leaders(front: readonly Member[]): Member[] {
  const seen = new Set<number>()
  const ranked = [...front].sort((a, b) => a.rank - b.rank)
  return ranked.filter((member) => !seen.has(member.purchase) && seen.add(member.purchase)).slice(0, mostPurchases)
}

function headings(result: Result): GridColumn[] {
  const titles = [
    'rank',
    'km/h',
    'as asked',
    'min',
    inert(result.catalogue.currency, 8),
    'below design load',
    'free to nearest limit',
  ]
  return titles.map((title) => ({ title, align: 'right' }))
}

function row(member: Member, names: Result['names']): RankedRow {
  const { raw } = member
  const below = `${partsLine(member.setup, names)} — ${settingsLine(member.setup, member.figures)}`
  const cells = [bare('count', member.rank), bare('speed', raw.speed_km_h), member.score.reaches ? 'yes' : 'no']
  return {
    cells: [
      ...cells,
      clock(raw.flight_time_s),
      amountOf(raw.cost),
      reserve(raw.margin),
      reserve(member.figures.headroom),
    ],
    below,
  }
}

export function rankedBlock(result: Result): Block {
  return {
    kind: 'ranked',
    columns: headings(result),
    rows: leaders(result.front).map((member) => row(member, result.names)),
  }
}

/** How much of the whole the list shows. */
export function rankedFooter(result: Result): string {
  const shown = leaders(result.front).length
  const { purchases, front } = result.counts
  return `${bare('count', shown)} of ${bare('count', purchases)} purchases, ${bare('count', front)} setups; all in the file.`
}
