// One owner's parts over the shared catalogue: rows with ids of their own, seen by nobody else. What comes out is a
// catalogue like any other, with a version of its own, so a run is pinned to exactly these parts over exactly that
// catalogue, and the same two give the same version again.
import type { Catalogue } from '../catalogue.js'
import type { CatalogueFault } from '../catalogue-fault.js'
import { type JsonPlace, jsonFault, type PlacedRow } from '../json-rows.js'
import { entryId, listNames } from '../lists.js'
import { applyPatch } from '../patch/catalogue-patch.js'

/** Own parts as read, before they are laid over anything. */
export interface CatalogueLayer {
  readonly name: string
  readonly rows: readonly PlacedRow[]
}

/**
 * The shared catalogue with the own parts in it; the shared one itself where there are none.
 * @param earlier faults found in the layer before, reported with those found here
 * @throws CatalogueError with all faults: an id that a shared part has, a set whose parts are not there or do not fit
 */
export function layered(shared: Catalogue, layer: CatalogueLayer, earlier: readonly CatalogueFault[] = []): Catalogue {
  const faults = [...earlier, ...sharedIds(shared, layer)]
  if (layer.rows.length === 0 && faults.length === 0) return shared
  const { name, currency, dated, receiverSupply } = shared
  const info = { name: `${name} with ${layer.name}`, currency, dated, receiverSupply }
  return applyPatch(shared, { rows: layer.rows, prices: [], removed: [], info }, faults)
}

function sharedIds(shared: Catalogue, layer: CatalogueLayer): CatalogueFault[] {
  const ids = new Set(listNames.flatMap((list) => (shared[list] as Catalogue['motors']).map(entryId)))
  const message = 'is the id of a shared part; give an own part an id of its own'
  return layer.rows
    .filter(({ entry }) => ids.has(entryId(entry)))
    .map(({ list, entry, pointer }) => idFault({ list, pointer }, entryId(entry), message))
}

function idFault({ list, pointer }: JsonPlace, id: string, message: string): CatalogueFault {
  return jsonFault({ list, pointer: `${pointer}/id` }, 'id', 'shared-id', id, message)
}
