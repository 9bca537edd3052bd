// GET /v1/batches/{id}: where a batch stands, its items and, once all have ended, the summary; DELETE removes it with its
// items, their answers, its address and its mail.
import type { BatchRow } from '@ductwright/records/batch-records'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { mailView, shownMail } from '../mail-view.js'
import { Problem } from '../problems.js'
import { refusals } from '../responses.js'

const params = z.object({ id: z.string().describe('Id given by the reply to POST /v1/batches') })

const item = z.object({
  index: z.number().int(),
  request: z.string().describe('The item is a request of its own: its full answer is read there'),
  title: z.string(),
  state: z.enum(['accepted', 'running', 'answered', 'failed', 'cancelled']),
  cause: z.string().nullable(),
})

const status = z.object({
  id: z.string(),
  title: z.string(),
  state: z.enum(['running', 'ended']),
  ended_items: z.number().int(),
  items: z.array(item),
  summary: z
    .looseObject({})
    .nullable()
    .describe('Once every item has ended: a row an item, and for each airframe what each sum buys'),
  mail: mailView.nullable(),
  created: z.string(),
  finished: z.string().nullable(),
})

const always = ['not-found', 'too-many-requests', 'store-unavailable'] as const

export function batchRead(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/batches/:id',
    {
      schema: {
        tags: ['batches'],
        summary: 'Where a batch stands, and its summary',
        params,
        response: { 200: status, ...refusals(...always) },
      },
    },
    async (request, reply) => {
      const batch = await knownBatch(deps, request.params.id)
      const items = await deps.records.batchItems(batch.id)
      const mail = await deps.records.mailOfBatch(batch.id)
      reply.header('cache-control', 'no-store')
      return {
        id: batch.id,
        title: batch.title,
        state: batch.state,
        ended_items: batch.endedCount,
        items: items.map(({ index, requestId, title, state, cause }) => ({
          index,
          request: requestId,
          title,
          state,
          cause,
        })),
        summary: batch.summary === null ? null : (JSON.parse(batch.summary) as Record<string, unknown>),
        mail: mail === null ? null : shownMail(mail),
        created: batch.createdAt,
        finished: batch.finishedAt,
      }
    },
  )
  app.delete(
    '/v1/batches/:id',
    {
      schema: {
        tags: ['batches'],
        summary: 'Remove a batch with its items, answers, address and mail',
        params,
        response: { 204: z.null().describe('Removed'), ...refusals(...always) },
      },
    },
    async (request, reply) => {
      const { id } = await knownBatch(deps, request.params.id)
      await deps.records.eraseBatch(id)
      request.log.info({ batch: id }, 'batch erased')
      return reply.code(204).send(null)
    },
  )
}

async function knownBatch({ records }: ApiDeps, id: string): Promise<BatchRow> {
  const row = /^[A-Za-z0-9_-]{1,64}$/.test(id) ? await records.getBatch(id) : null
  if (row === null) throw new Problem('not-found', 'No batch has this id.')
  return row
}
