// What must hold between the rows of a catalogue that was changed or put together row by row: ids used once, no list empty
// that needs rows, fans that behave, sets whose parts exist and fit. Where each row came from is asked of the caller, so
// that a fault points at what was sent: a set broken by a motor that was taken out points at the taking out.
import type { Catalogue, PartSet } from './catalogue.js'
import { GATE_COLUMN, type SetBreach, setBreaches } from './catalogue-checks.js'
import type { CatalogueFault } from './catalogue-fault.js'
import { fanGate } from './fan-gate.js'
import { type JsonPlace, jsonFault, type PlacedRow } from './json-rows.js'
import { type CatalogueLists, LIST_NOUNS, type ListName } from './lists.js'

/** Where in what was sent an id was touched; null: not at all. */
export type WhereTouched = (id: string) => JsonPlace | null

const NEVER_EMPTY: readonly ListName[] = ['fans', 'motors', 'escs', 'packs', 'airframes']

/** Lists that must have rows and have none. */
export function emptyListFaults(lists: CatalogueLists): CatalogueFault[] {
  return NEVER_EMPTY.filter((list) => lists[list].length === 0).map((list) =>
    jsonFault(
      { list, pointer: '' },
      '',
      'empty-table',
      undefined,
      `a catalogue needs at least one ${LIST_NOUNS[list]}`,
    ),
  )
}

/** Fans among the rows that no rotor behaves like. */
export function rowGateFaults(rows: readonly PlacedRow[]): CatalogueFault[] {
  return rows.flatMap(({ list, entry, pointer }) => {
    if (list !== 'fans') return []
    const { part } = entry as Catalogue['fans'][number]
    return fanGate(part).map(({ rule, found, words }) => {
      const column = GATE_COLUMN[rule]
      return jsonFault({ list, pointer: `${pointer}/${column}` }, column, 'fan-gate', String(found), words)
    })
  })
}

/** Sets whose fan or motor is missing or does not fit. */
export function setListFaults({ sets, fans, motors }: CatalogueLists, touched: WhereTouched): CatalogueFault[] {
  const fanOf = new Map(fans.map(({ part }) => [part.id, part]))
  const motorOf = new Map(motors.map(({ part }) => [part.id, part]))
  return sets.flatMap((set) =>
    setBreaches(set, fanOf.get(set.fanId) ?? 'unknown', motorOf.get(set.motorId) ?? 'unknown').map((breach) => {
      const own = touched(set.id)
      if (own === null) return brokenFrom(breach, set, touched)
      return jsonFault(
        { list: 'sets', pointer: `${own.pointer}/${breach.column}` },
        breach.column,
        breach.rule,
        breach.value,
        breach.message,
      )
    }),
  )
}

/** A set that was left alone, and no longer holds because of what was done to its fan or motor. */
function brokenFrom({ rule, value, message }: SetBreach, set: PartSet, touched: WhereTouched): CatalogueFault {
  const place = touched(value) ?? touched(set.fanId) ?? { list: 'sets' as const, pointer: '' }
  const words = rule === 'unknown-part' ? 'is needed by' : `${message}, as it must in`
  return jsonFault(place, '', rule, value, `${words} the set ${set.id}; change or remove that set too`)
}
