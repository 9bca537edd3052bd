// POST and PUT of standing requests: judged like any request before anything is stored; a run for the new question is
// started at once, in the records first and in the queue after that.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { parseStanding, type StandingRequest } from '@ductwright/contract/standing-request'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { enqueuePlan } from '../enqueue-plan.js'
import { bodyJudgedByRoute, idempotencyHeaders, keyReused } from '../idempotency-key.js'
import { changedMeanwhile, ifMatches } from '../if-changed.js'
import { sendJson } from '../json-reply.js'
import { judge, questionRefusals, sweepEstimate } from '../judged-request.js'
import { sweepRequest, understoodRequest } from '../openapi.js'
import { Problem } from '../problems.js'
import { described, refusals } from '../responses.js'
import { knownStanding, standingParams, standingSummary, summaryOf, tagOf } from '../standing-view.js'

const sent = z.object({
  request: sweepRequest.describe('As for POST /v1/requests, with an address'),
  every_days: z.number().int().min(1).max(366).nullable().optional().describe('Also run every so many days'),
})

const accepted = standingSummary.extend({ estimate: sweepEstimate, understood: understoodRequest })

export function standingAccept(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/standing-requests',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'Ask, and be told whenever the answer changes',
        headers: idempotencyHeaders,
        body: sent,
        response: {
          201: described(accepted, 'Kept; its first run is on its way'),
          ...refusals(...questionRefusals, 'deleted'),
        },
      },
      validatorCompiler: bodyJudgedByRoute,
    },
    async (request, reply) => {
      const read = parseStanding(request.body)
      const { version, estimate } = await judge(read.understood, read.ownParts, catalogue, deps.settings)
      const idempotencyKey = request.headers['idempotency-key'] ?? null
      const outcome = await deps.records.acceptStanding({ ...storedForm(request.body, read), idempotencyKey })
      if (outcome.outcome === 'mismatch') throw keyReused()
      const { id } = outcome.standing
      request.log.info({ standing: id, outcome: outcome.outcome }, 'standing request accepted')
      await beginRun(deps, id, version)
      const row = await knownStanding(deps, id)
      reply
        .code(201)
        .header('location', `/v1/standing-requests/${id}`)
        .header('etag', `"${tagOf(row)}"`)
      return sendJson(reply, { ...summaryOf(row), estimate, understood: read.understood })
    },
  )
  app.put(
    '/v1/standing-requests/:id',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'Ask another question under the same id: a new revision',
        params: standingParams,
        body: sent,
        response: {
          200: described(accepted, 'Revised; a run for it is on its way'),
          ...refusals(...questionRefusals, 'not-found', 'deleted', 'unsubscribed', 'changed-meanwhile'),
        },
      },
      validatorCompiler: bodyJudgedByRoute,
    },
    async (request, reply) => {
      const { id } = request.params as z.infer<typeof standingParams>
      const before = await knownStanding(deps, id)
      ifMatches(request, tagOf(before), 'optional')
      const read = parseStanding(request.body)
      const { version, estimate } = await judge(read.understood, read.ownParts, catalogue, deps.settings)
      const expected = request.headers['if-match'] === undefined ? null : before.revision
      const outcome = await deps.records.reviseStanding(id, expected, storedForm(request.body, read))
      if (outcome.outcome === 'gone') throw await goneProblem(deps, id)
      if (outcome.outcome === 'stale') throw changedMeanwhile(tagOf(outcome.standing))
      request.log.info({ standing: id, revision: outcome.standing.revision }, 'standing request revised')
      // A run for the question before would only be in the way.
      if (before.runId !== null) await deps.records.cancelRequest(before.runId)
      await beginRun(deps, id, version)
      const row = await knownStanding(deps, id)
      reply.header('etag', `"${tagOf(row)}"`)
      return sendJson(reply, { ...summaryOf(row), estimate, understood: read.understood })
    },
  )
}

function storedForm(json: unknown, { understood, everyDays }: StandingRequest) {
  const body = canonicalJson((json as { readonly request: unknown }).request)
  return {
    title: understood.title,
    address: understood.address,
    body,
    bodyHash: sha256Hex(`${body} ${everyDays}`),
    everyDays,
  }
}

/** Changes of the catalogue are left to the workers, who wait until they settle: here only a new question starts a run. */
export async function beginRun(deps: ApiDeps, id: string, catalogue: string): Promise<void> {
  const never = Number.MAX_SAFE_INTEGER
  const options = { quietMs: never, longestMs: never, requireConfirmed: true }
  const run = await deps.records.advanceStanding(id, { catalogue, model: MODEL_VERSION }, options)
  if (run !== null) await enqueuePlan(deps, run.sweepId)
}

export async function goneProblem(deps: ApiDeps, id: string): Promise<Problem> {
  await knownStanding(deps, id)
  return new Problem('unsubscribed', 'The reader of its mails has ended this standing request.')
}
