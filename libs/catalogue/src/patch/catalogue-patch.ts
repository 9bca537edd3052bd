// Changes of single rows laid over a catalogue: rows added or replaced whole, prices alone, rows taken out, and the row of
// the catalogue itself. An id may be touched once, so the order of the changes says nothing; patches that touch different
// ids give the same catalogue in either order, as long as what lies between is a catalogue too.
import type { Catalogue, Priced } from '../catalogue.js'
import { sealCatalogue } from '../catalogue-content.js'
import { CatalogueError, type CatalogueFault } from '../catalogue-fault.js'
import type { CatalogueDiff, CatalogueInfo } from '../diff/catalogue-diff.js'
import { type JsonPlace, jsonFault, type PlacedRow } from '../json-rows.js'
import { emptyListFaults, rowGateFaults, setListFaults } from '../list-checks.js'
import { type CatalogueLists, type Entry, entryId, type ListName, listNames } from '../lists.js'

/** A price by itself; `priced` null: that of the catalogue, left out: unchanged. */
export interface PriceChange {
  readonly id: string
  readonly price: number
  readonly priced?: string | null
  readonly pointer: string
}

export interface CataloguePatch {
  readonly rows: readonly PlacedRow[]
  readonly prices: readonly PriceChange[]
  readonly removed: readonly { readonly id: string; readonly pointer: string }[]
  /** Columns of catalogue.csv to change; null: none. */
  readonly info: CatalogueInfo | null
}

/**
 * The catalogue with the changes made.
 * @param earlier faults found in the patch before, reported with those found here
 * @throws CatalogueError with all faults, each with a pointer into the patch
 */
export function applyPatch(
  catalogue: Catalogue,
  patch: CataloguePatch,
  earlier: readonly CatalogueFault[] = [],
): Catalogue {
  const touched = new Map<string, JsonPlace>()
  const faults = [...earlier, ...touchFaults(catalogue, patch, touched), ...rowGateFaults(patch.rows)]
  const lists = changedLists(catalogue, patch)
  faults.push(...setListFaults(lists, (id) => touched.get(id) ?? null), ...emptyListFaults(lists))
  faults.push(...supplyIdFaults(lists, patch))
  if (faults.length > 0) throw new CatalogueError(faults)
  const { version: _version, ...rest } = catalogue
  return sealCatalogue({ ...rest, ...patch.info, ...lists })
}

/** The patch that turns the older catalogue of a comparison into the newer one. */
export function patchOf(diff: CatalogueDiff): CataloguePatch {
  const rows = diff.parts.flatMap(({ table, entry }, i) =>
    entry === null ? [] : [{ list: table, entry, pointer: `/parts/${i}` }],
  )
  const removed = diff.parts.flatMap(({ id, entry }, i) => (entry === null ? [{ id, pointer: `/parts/${i}` }] : []))
  return { rows, prices: [], removed, info: diff.info }
}

/** Ids touched twice, unknown, or of another list; fills `touched` as it goes. */
function touchFaults(catalogue: Catalogue, patch: CataloguePatch, touched: Map<string, JsonPlace>): CatalogueFault[] {
  const listed = listOfId(catalogue)
  const removed = new Set(patch.removed.map(({ id }) => id))
  const faults: CatalogueFault[] = []
  const touch = (id: string, place: JsonPlace, column: string): void => {
    const before = touched.get(id)
    const message = `is touched at ${before?.pointer} already; an id may stand once in a patch`
    if (before !== undefined) faults.push(jsonFault(place, column, 'duplicate-id', id, message))
    else touched.set(id, place)
  }
  for (const { list, entry, pointer } of patch.rows) {
    const id = entryId(entry)
    touch(id, { list, pointer }, 'id')
    const home = listed.get(id)
    const message = `is the id of a row in ${home}.csv; ids are used once in all tables`
    if (home !== undefined && home !== list && !removed.has(id))
      faults.push(jsonFault({ list, pointer: `${pointer}/id` }, 'id', 'duplicate-id', id, message))
  }
  for (const { id, pointer } of [...patch.prices, ...patch.removed]) {
    const home = listed.get(id)
    touch(id, { list: home === undefined || home === 'catalogue' ? 'catalogue' : home, pointer }, '')
    if (home === undefined || home === 'catalogue')
      faults.push(
        jsonFault({ list: 'catalogue', pointer }, '', 'unknown-part', id, 'is not the id of a row of this catalogue'),
      )
  }
  return faults
}

/** The receiver supply has an id among those of the parts. */
function supplyIdFaults(lists: CatalogueLists, { info }: CataloguePatch): CatalogueFault[] {
  const id = info?.receiverSupply.id
  if (!listNames.some((list) => lists[list].some((entry: Entry) => entryId(entry) === id))) return []
  const place = { list: 'catalogue' as const, pointer: '/catalogue/receiver_supply_id' }
  const message = 'is the id of a part; ids are used once in all tables'
  return [jsonFault(place, 'receiver_supply_id', 'duplicate-id', id, message)]
}

function listOfId(catalogue: Catalogue): ReadonlyMap<string, ListName | 'catalogue'> {
  const known = new Map<string, ListName | 'catalogue'>([[catalogue.receiverSupply.id, 'catalogue']])
  for (const list of listNames) for (const entry of catalogue[list]) known.set(entryId(entry), list)
  return known
}

function changedLists(catalogue: Catalogue, patch: CataloguePatch): CatalogueLists {
  const prices = new Map(patch.prices.map((change) => [change.id, change]))
  const removed = new Set(patch.removed.map(({ id }) => id))
  const changed = <List extends ListName>(list: List): Entry<List>[] => {
    const rows = patch.rows.filter((row) => row.list === list).map(({ entry }) => entry as Entry<List>)
    const replaced = new Set(rows.map(entryId))
    const kept = (catalogue[list] as readonly Entry<List>[]).filter((entry) => {
      const id = entryId(entry)
      return !removed.has(id) && !replaced.has(id)
    })
    return [...kept.map((entry) => withPrice(entry, prices.get(entryId(entry)))), ...rows]
  }
  return {
    fans: changed('fans'),
    motors: changed('motors'),
    escs: changed('escs'),
    packs: changed('packs'),
    airframes: changed('airframes'),
    sets: changed('sets'),
    treatments: changed('treatments'),
  }
}

function withPrice<Row extends Priced>(row: Row, change: PriceChange | undefined): Row {
  if (change === undefined) return row
  const { priced, ...rest } = row
  const day = change.priced === undefined ? priced : change.priced
  return {
    ...rest,
    price: change.price,
    ...(day === undefined || day === null ? {} : { priced: day }),
  } as unknown as Row
}
