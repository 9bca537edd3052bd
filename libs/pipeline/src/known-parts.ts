// Every id of a catalogue with its table and name, and the faults of ids that are not in it.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { type Fault, shown } from '@ductwright/contract/fault'
import { nearestNames } from '@ductwright/contract/nearest-name'

export type Table = 'fan' | 'motor' | 'esc' | 'pack' | 'airframe' | 'set' | 'receiver-supply'

const TABLE_WORDS: Readonly<Record<Table, string>> = {
  fan: 'fan',
  motor: 'motor',
  esc: 'speed controller',
  pack: 'pack',
  airframe: 'airframe',
  set: 'set',
  'receiver-supply': 'receiver supply',
}

export interface KnownPart {
  readonly table: Table
  readonly name: string
}

/** Id → table and full name. */
export function knownParts(catalogue: Catalogue): ReadonlyMap<string, KnownPart> {
  const known = new Map<string, KnownPart>()
  const add = (table: Table, id: string, maker: string, name: string): void => {
    known.set(id, { table, name: maker === '' ? name : `${maker} ${name}` })
  }
  for (const { part, maker, name } of catalogue.fans) add('fan', part.id, maker, name)
  for (const { part, maker, name } of catalogue.motors) add('motor', part.id, maker, name)
  for (const { part, maker, name } of catalogue.escs) add('esc', part.id, maker, name)
  for (const { part, maker, name } of catalogue.packs) add('pack', part.id, maker, name)
  for (const { part, maker, name } of catalogue.airframes) add('airframe', part.id, maker, name)
  for (const set of catalogue.sets) add('set', set.id, set.maker, set.name)
  add('receiver-supply', catalogue.receiverSupply.id, '', catalogue.receiverSupply.name)
  return known
}

/** Fault of an id that is unknown or of another table than asked for; null when it is right. */
export function partFault(
  known: ReadonlyMap<string, KnownPart>,
  id: string,
  pointer: string,
  table: Table | null,
): Fault | null {
  const part = known.get(id)
  if (part !== undefined && (table === null || part.table === table)) return null
  const candidates = [...known].filter(([, value]) => table === null || value.table === table).map(([name]) => name)
  const near = nearestNames(id, candidates)
  const hint = near.length > 0 ? `; nearest: ${near.join(', ')}` : ''
  const what = table === null ? 'part' : TABLE_WORDS[table]
  const found = part === undefined ? `no ${what} of this catalogue` : `a ${TABLE_WORDS[part.table]}, not a ${what}`
  return { pointer, rule: 'unknown-part', value: shown(id), message: `${shown(id)} is ${found}${hint}` }
}
