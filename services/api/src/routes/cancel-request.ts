// DELETE /v1/requests/{id}: stops a request that has not ended. What workers still compute is refused when they write.
import { z } from 'zod'
import { within } from '../deadline.js'
import type { ApiApp, ApiDeps } from '../deps.js'
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
        response: {
          202: z.object({ id: z.string(), state: z.literal('cancelled') }),
          ...refusals('not-found', 'already-ended', 'too-many-requests', 'store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const row = await knownRequest(deps.records, request.params.id)
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

/** The store already refuses the sweep's writes; telling the workers only saves them the rest of the work. */
async function stopJobs(deps: ApiDeps, sweepId: string): Promise<void> {
  try {
    await within(deps.settings.probeTimeoutMs, deps.jobs.cancelSweep(sweepId))
  } catch (error) {
    deps.log.warn({ sweep: sweepId, err: error }, 'queue not reached; workers stop at their next renewal')
  }
}
