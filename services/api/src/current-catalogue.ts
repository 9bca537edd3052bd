// The catalogue of record, parsed once a version. Every request is pinned to the version current when it was accepted; one
// that names own parts is pinned to a version of its own, made of that one and those parts.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { layered } from '@ductwright/catalogue/layer/catalogue-layer'
import { layerFromContent } from '@ductwright/catalogue/layer/read-layer'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import type { CatalogueLayerRow } from '@ductwright/records/catalogue-records'
import type { Records } from '@ductwright/records/records'
import { Problem } from './problems.js'

/** `ownParts`: the id of own parts to lay over it. */
export type CurrentCatalogue = (ownParts?: string | null) => Promise<Catalogue>

/** The field of a request that names own parts. */
const POINTER = '/own_parts'

export function currentCatalogue(records: Records): CurrentCatalogue {
  let parsed: Catalogue | null = null
  const shared = async (): Promise<Catalogue> => {
    const row = await records.currentCatalogue()
    if (row === null) throw new Problem('no-catalogue', 'No catalogue has been loaded yet.', { retryAfterSeconds: 10 })
    if (parsed?.version !== row.version) parsed = catalogueFromContent(row.content)
    return parsed
  }
  return async (ownParts = null) => {
    const current = await shared()
    return ownParts === null ? current : withOwnParts(records, current, ownParts)
  }
}

/**
 * Keeps the version made of both, so that a run can be pinned to it.
 * @throws InputError for an id that is unknown, and for parts the catalogue no longer takes
 */
async function withOwnParts(records: Records, shared: Catalogue, id: string): Promise<Catalogue> {
  const layer = await records.getLayer(id)
  if (layer === null) {
    const message = 'is not the id of own parts that are kept here'
    throw new InputError('own parts', [{ pointer: POINTER, rule: 'unknown-own-parts', value: shown(id), message }])
  }
  const catalogue = laidOver(shared, layer)
  const { version, name } = catalogue
  if (version !== shared.version)
    await records.keepLayeredCatalogue({ version, name, content: catalogueContent(catalogue) }, layer.id)
  return catalogue
}

function laidOver(shared: Catalogue, layer: CatalogueLayerRow): Catalogue {
  try {
    return layered(shared, layerFromContent(layer.content, shared))
  } catch (error) {
    if (!(error instanceof CatalogueError)) throw error
    const faults = error.faults.map(({ file, column, rule, value, message, pointer = '' }): Fault => {
      const place = `${pointer} (${file}${column === '' ? '' : ` ${column}`})`
      return { pointer: POINTER, rule, value, message: `own parts at ${place}: ${message}` }
    })
    throw new InputError('own parts', faults)
  }
}
