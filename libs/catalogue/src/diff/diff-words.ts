// The differences of two catalogues in plain sentences, always in the same order: what the catalogue says of itself, then
// parts new, gone, dearer, cheaper and changed, each in the order of the tables and ids. Two parts of one name are told
// apart by their ids.
import { LIST_NOUNS } from '../lists.js'
import type { CatalogueDiff, ChangeKind, PartChange } from './catalogue-diff.js'
import { columnWords } from './column-words.js'
import { amountWords } from './number-words.js'

const ORDER: readonly ChangeKind[] = ['new', 'gone', 'dearer', 'cheaper', 'changed']

/** One sentence without a full stop a difference; none when nothing differs. `currency`: ISO 4217 code of the prices. */
export function diffWords(diff: CatalogueDiff, currency: string): string[] {
  const naming = namesOf(diff.parts)
  const head = diff.head.map((change) => `the catalogue: ${columnWords(change)}`)
  const parts = ORDER.flatMap((kind) => diff.parts.filter((change) => change.kind === kind))
  return [...head, ...parts.map((change) => sentence(change, naming(change), currency))]
}

/** Names that stand twice among the differences get their id. */
function namesOf(parts: readonly PartChange[]): (change: PartChange) => string {
  const counts = new Map<string, number>()
  for (const { name } of parts) counts.set(name, (counts.get(name) ?? 0) + 1)
  return ({ name, id }) => ((counts.get(name) ?? 0) > 1 ? `${name} (${id})` : name)
}

function sentence(change: PartChange, name: string, currency: string): string {
  const { kind, table, maker, before, after } = change
  const what = `${name}, ${LIST_NOUNS[table]}${maker === '' ? '' : ` by ${maker}`}`
  if (kind === 'new') return `new: ${what}, ${amountWords(after ?? 0)} ${currency}`
  if (kind === 'gone') return `gone: ${what}, was ${amountWords(before ?? 0)} ${currency}`
  const others = change.columns.map(columnWords).join(', ')
  if (kind === 'changed') return `${name} changed: ${others}`
  const prices = priceWords(kind, before ?? 0, after ?? 0, currency)
  return `${name} is ${prices}${others === '' ? '' : `, and changed: ${others}`}`
}

function priceWords(kind: 'dearer' | 'cheaper', before: number, after: number, currency: string): string {
  const step = amountWords(Math.abs(after - before))
  return `${step} ${currency} ${kind} (${amountWords(before)} → ${amountWords(after)} ${currency})`
}
