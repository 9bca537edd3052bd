// The catalogue the service starts with: the folder named, else the one in the store, else the demonstration one. The
// demonstration catalogue follows the program: a newer edition replaces an older one in the store, but nothing that was sent.
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import type { Records } from '@ductwright/records/records'
import { catalogueFrom } from './catalogue-folder.js'

export async function currentOrDemo(records: Records, folder: string | null): Promise<void> {
  const stored = folder === null ? await records.currentCatalogue() : null
  const wanted = await catalogueFrom(folder ?? undefined)
  if (stored !== null && (stored.version === wanted.version || nameOf(stored.content) !== wanted.name)) return
  if (stored !== null && (await records.describeCatalogue(stored.version))?.origin === 'upload') return
  await records.putCatalogue(wanted.version, wanted.name, catalogueContent(wanted))
}

function nameOf(content: string): string {
  return catalogueFromContent(content).name
}
