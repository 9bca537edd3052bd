// GET /v1/catalogues: every version of the shared catalogue, newest first; GET /v1/catalogues/{version}: one of them, byte
// for byte as it was put. A version made of somebody's own parts is nobody else's to see, and answered like an unknown one.
import type { CatalogueVersionRow } from '@ductwright/records/catalogue-records'
import type { Records } from '@ductwright/records/records'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { ifChanged } from '../if-changed.js'
import { listing, pageOf } from '../listing.js'
import { Problem } from '../problems.js'
import { described, refusals, unchanged } from '../responses.js'

const version = z.object({
  version: z.string().describe('SHA-256 of the content'),
  name: z.string(),
  origin: z.enum(['start', 'upload']).describe('Loaded when the service started, or sent'),
  created: z.string(),
  size_bytes: z.number().int(),
  current: z.boolean().describe('Whether new requests are answered from it'),
})

const page = z.object({ catalogues: z.array(version), next: z.string().nullable().describe('Cursor of the next page') })

export const versionParam = z.string().describe('A version, or `current`')

export function catalogueVersions(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/catalogues',
    {
      schema: {
        tags: ['catalogue'],
        summary: 'Versions of the catalogue, newest first',
        querystring: listing,
        response: { 200: page, ...refusals('invalid-query', 'too-many-requests', 'store-unavailable') },
      },
    },
    async (request) => {
      const { rows, next } = await pageOf(request.query, (page) => deps.records.listCatalogues(page))
      return { catalogues: rows.map(shown), next }
    },
  )
  app.get(
    '/v1/catalogues/:version',
    {
      schema: {
        tags: ['catalogue'],
        summary: 'One version of the catalogue as canonical JSON, SI units',
        params: z.object({ version: versionParam }),
        response: {
          200: described(z.looseObject({}), 'The whole catalogue, as it can be sent back'),
          304: unchanged,
          ...refusals('not-found', 'too-many-requests', 'store-unavailable', 'no-catalogue'),
        },
      },
    },
    async (request, reply) => {
      const known = await knownVersion(deps.records, request.params.version)
      if (!ifChanged(request, reply, known)) return reply.code(304).send()
      const content = (await deps.records.getCatalogue(known)) ?? ''
      return reply.header('content-type', 'application/json').send(Buffer.from(content, 'utf8'))
    },
  )
}

/** The version a path names, if it is one of the shared catalogue. */
export async function knownVersion(records: Records, named: string): Promise<string> {
  if (named === 'current') {
    const current = await records.currentCatalogue()
    if (current === null)
      throw new Problem('no-catalogue', 'No catalogue has been loaded yet.', { retryAfterSeconds: 10 })
    return current.version
  }
  const row = /^[0-9a-f]{64}$/.test(named) ? await records.describeCatalogue(named) : null
  if (row === null) throw new Problem('not-found', 'No version of the catalogue has this name.')
  return row.version
}

const shown = (row: CatalogueVersionRow) => ({
  version: row.version,
  name: row.name,
  origin: row.origin === 'upload' ? ('upload' as const) : ('start' as const),
  created: row.createdAt,
  size_bytes: row.bytes,
  current: row.current,
})
