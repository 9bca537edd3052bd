// The lists of a catalogue in the order of its tables, and what every row of them has: an id, and a place in one list.
import type { Catalogue } from './catalogue.js'

/** In the order in which tables are read and differences are told. */
export const listNames = ['fans', 'motors', 'escs', 'packs', 'airframes', 'sets', 'treatments'] as const

export type ListName = (typeof listNames)[number]

/** The rows of one list, or of any. */
export type Entry<List extends ListName = ListName> = Catalogue[List][number]

/** The lists by themselves. */
export type CatalogueLists = Pick<Catalogue, ListName>

/** What one row of a list is called in a sentence. */
export const LIST_NOUNS: Readonly<Record<ListName, string>> = {
  fans: 'fan',
  motors: 'motor',
  escs: 'speed controller',
  packs: 'pack',
  airframes: 'airframe',
  sets: 'set of fan and motor',
  treatments: 'treatment',
}

/** The id of a row; of a treatment its kind, which is one. */
export function entryId(entry: Entry): string {
  if ('part' in entry) return entry.part.id
  return 'kind' in entry ? entry.kind : entry.id
}
