// The catalogue version of a standing request with own parts: the shared one in force with those parts laid over it, kept so
// that a run can be pinned to it. Worked out once for each pair of versions.
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { layered } from '@ductwright/catalogue/layer/catalogue-layer'
import { layerFromContent } from '@ductwright/catalogue/layer/read-layer'
import type { CatalogueLayerRow } from '@ductwright/records/catalogue-records'
import type { Records } from '@ductwright/records/records'

export type PinnedOwnParts = { readonly version: string } | { readonly cause: string }

const REMEMBERED = 500
const known = new Map<string, PinnedOwnParts>()

export async function withOwnParts(records: Records, shared: string, id: string): Promise<PinnedOwnParts> {
  const layer = await records.getLayer(id)
  if (layer === null) return { cause: 'Its own parts are no longer kept here.' }
  const key = `${shared} ${layer.id} ${layer.version}`
  const found = known.get(key)
  if (found !== undefined) return found
  const pinned = await pin(records, shared, layer)
  if (known.size >= REMEMBERED) known.clear()
  known.set(key, pinned)
  return pinned
}

async function pin(records: Records, shared: string, layer: CatalogueLayerRow): Promise<PinnedOwnParts> {
  const content = await records.getCatalogue(shared)
  if (content === null) return { cause: 'The catalogue in force could not be read.' }
  try {
    const catalogue = catalogueFromContent(content)
    const whole = layered(catalogue, layerFromContent(layer.content, catalogue))
    const { version, name } = whole
    if (version !== shared)
      await records.keepLayeredCatalogue({ version, name, content: catalogueContent(whole) }, layer.id)
    return { version }
  } catch (error) {
    if (!(error instanceof CatalogueError)) throw error
    return { cause: `Its own parts no longer fit the catalogue: ${error.message}` }
  }
}
