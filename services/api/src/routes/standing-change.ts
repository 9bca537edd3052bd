// PATCH /v1/standing-requests/{id} pauses and resumes; DELETE removes the standing request with its address, its runs, their
// answers and their mails.
import { ownPartsOf } from '@ductwright/contract/own-parts'
import { parseStandingChange, standingChangeSchema } from '@ductwright/contract/standing-request'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { stopJobs } from '../enqueue-plan.js'
import { bodyJudgedByRoute } from '../idempotency-key.js'
import { refusals } from '../responses.js'
import { knownStanding, standingParams, standingSummary, summaryOf } from '../standing-view.js'
import { beginRun, goneProblem } from './standing-accept.js'

const always = ['not-found', 'deleted', 'too-many-requests', 'store-unavailable'] as const

export function standingChange(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  app.patch(
    '/v1/standing-requests/:id',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'Pause or resume a standing request',
        params: standingParams,
        body: standingChangeSchema,
        response: {
          200: standingSummary,
          ...refusals(
            ...always,
            'broken-json',
            'wrong-content-type',
            'invalid-request',
            'invalid-query',
            'unsubscribed',
            'no-catalogue',
          ),
        },
      },
      validatorCompiler: bodyJudgedByRoute,
    },
    async (request) => {
      const { id } = request.params as z.infer<typeof standingParams>
      const { state } = parseStandingChange(request.body)
      const { body } = await knownStanding(deps, id)
      const { version } = await catalogue(ownPartsOf(JSON.parse(body)))
      const row = await deps.records.setStandingState(id, state)
      if (row === null) throw await goneProblem(deps, id)
      request.log.info({ standing: id, state }, 'standing request changed')
      if (state === 'active') await beginRun(deps, id, version)
      return summaryOf(await knownStanding(deps, id))
    },
  )
  app.delete(
    '/v1/standing-requests/:id',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'Delete a standing request with its address, runs, answers and mails',
        params: standingParams,
        response: { 204: z.null().describe('Deleted'), ...refusals(...always) },
      },
    },
    async (request, reply) => {
      const { id, runId } = await knownStanding(deps, request.params.id)
      const run = runId === null ? null : await deps.records.getRequest(runId)
      await deps.records.deleteStanding(id)
      request.log.info({ standing: id }, 'standing request deleted')
      if (run !== null) await stopJobs(deps, run.sweepId)
      return reply.code(204).send(null)
    },
  )
}
