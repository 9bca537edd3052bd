// DELETE /v1/requests/{id}: stops a request that has not ended; with `erase=true` it also removes what is kept of it, ended
// or not: the question, the answer, the mails and the address. What workers still compute is refused when they write.
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { stopJobs } from '../enqueue-plan.js'
import { idParams, knownRequest } from '../known-request.js'
import { Problem } from '../problems.js'
import { refusals } from '../responses.js'

export function cancelRequest(app: ApiApp, deps: ApiDeps): void {
  app.delete(
    '/v1/requests/:id',
    {
      schema: {
        tags: ['requests'],
        summary: 'Cancel a request',
        params: idParams,
        querystring: z.object({
          erase: z
            .enum(['true', 'false'])
            .default('false')
            .describe('true: also remove everything kept of it, the address and the mails included'),
        }),
        response: {
          202: z.object({ id: z.string(), state: z.enum(['cancelled', 'erased']) }),
          ...refusals('invalid-query', 'not-found', 'already-ended', 'too-many-requests', 'store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const row = await knownRequest(deps.records, request.params.id)
      if (request.query.erase === 'true') {
        await deps.records.eraseRequest(row.id)
        request.log.info({ request: row.id, sweep: row.sweepId }, 'request erased')
        await stopJobs(deps, row.sweepId)
        return reply.code(202).send({ id: row.id, state: 'erased' as const })
      }
      if (!(await deps.records.cancelRequest(row.id))) {
        const now = await knownRequest(deps.records, row.id)
        throw new Problem('already-ended', `The request has already ended: ${now.state}.`)
      }
      request.log.info({ request: row.id, sweep: row.sweepId }, 'request cancelled')
      await stopJobs(deps, row.sweepId)
      return reply.code(202).send({ id: row.id, state: 'cancelled' as const })
    },
  )
}
