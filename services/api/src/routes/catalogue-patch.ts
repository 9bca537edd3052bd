// PATCH /v1/catalogues/current: rows added, replaced or taken out, and prices alone, laid over the catalogue in force. The
// outcome is judged as a whole catalogue; a fault anywhere changes nothing.
import { listNames } from '@ductwright/catalogue/lists'
import { UPLOAD_LIMIT_BYTES } from '@ductwright/catalogue/upload-limits'
import { z } from 'zod'
import type { CatalogueJudge } from '../catalogue-judge.js'
import { catalogueReply } from '../catalogue-reply.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { ifMatches } from '../if-changed.js'
import { Problem } from '../problems.js'
import { described, refusals } from '../responses.js'
import { putSent } from './catalogue-upload.js'

const row = z.looseObject({ id: z.string() })

export const rowLists = z
  .object(Object.fromEntries(listNames.map((list) => [list, z.array(row).optional()])))
  .describe('Table → rows in the columns of that table; an airframe has "structure" and "drag" inside')

const patch = z.object({
  rows: rowLists.optional().describe('Rows to add, or to put in the place of those with the same id'),
  prices: z
    .record(
      z.string(),
      z.union([z.number(), z.object({ price: z.number(), priced: z.string().nullable().optional() })]),
    )
    .optional()
    .describe('Id → price, or price and its date'),
  remove: z.array(z.string()).optional().describe('Ids to take out'),
  catalogue: z.looseObject({}).optional().describe('Columns of catalogue.csv to change'),
})

export function changeCatalogue(app: ApiApp, deps: ApiDeps, judge: CatalogueJudge): void {
  app.patch(
    '/v1/catalogues/current',
    {
      bodyLimit: UPLOAD_LIMIT_BYTES,
      schema: {
        tags: ['catalogue'],
        summary: 'Change rows of the catalogue in force',
        body: patch,
        response: {
          200: described(catalogueReply, 'Nothing is different by it'),
          201: described(catalogueReply, 'The changed catalogue is in force now'),
          ...refusals(
            'broken-json',
            'body-too-large',
            'wrong-content-type',
            'invalid-catalogue',
            'changed-meanwhile',
            'condition-required',
            'too-many-requests',
            'store-unavailable',
            'no-catalogue',
          ),
        },
      },
      validatorCompiler: () => (value) => ({ value }),
    },
    async (request, reply) => {
      const before = await deps.records.currentCatalogue()
      if (before === null)
        throw new Problem('no-catalogue', 'There is no catalogue to change.', { retryAfterSeconds: 10 })
      ifMatches(request, before.version)
      return putSent({ deps, judge, request, reply }, { kind: 'patch', body: request.body }, before)
    },
  )
}
