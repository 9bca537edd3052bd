// The catalogue of record, parsed once a version. Every request is pinned to the version current when it was accepted.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import type { Records } from '@ductwright/records/records'
import { Problem } from './problems.js'

export type CurrentCatalogue = () => Promise<Catalogue>

export function currentCatalogue(records: Records): CurrentCatalogue {
  let parsed: Catalogue | null = null
  return async () => {
    const row = await records.currentCatalogue()
    if (row === null) throw new Problem('no-catalogue', 'No catalogue has been loaded yet.', { retryAfterSeconds: 10 })
    if (parsed?.version !== row.version) parsed = catalogueFromContent(row.content)
    return parsed
  }
}
