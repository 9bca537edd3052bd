// POST /v1/requests: reads, judges and counts a request before anything is stored, then stores it and its sweep in one
// transaction. The job is enqueued after that; if the queue is down the reconciler of a worker does it later.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { ownPartsOf } from '@ductwright/contract/own-parts'
import { parseRequest } from '@ductwright/contract/parse-request'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { enqueuePlan } from '../enqueue-plan.js'
import { bodyJudgedByRoute, idempotencyHeaders, keyReused } from '../idempotency-key.js'
import { sendJson } from '../json-reply.js'
import { judge, questionRefusals, sweepEstimate } from '../judged-request.js'
import { sweepRequest, understoodRequest } from '../openapi.js'
import { described, refusals } from '../responses.js'

const accepted = z.object({
  id: z.string(),
  state: z.string(),
  location: z.string(),
  estimate: sweepEstimate,
  understood: understoodRequest,
})

export function acceptRequest(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/requests',
    {
      schema: {
        tags: ['requests'],
        summary: 'Ask what is needed for a speed',
        headers: idempotencyHeaders,
        body: sweepRequest,
        response: {
          202: described(accepted, 'Accepted: stored, and on its way'),
          ...refusals(...questionRefusals),
        },
      },
      validatorCompiler: bodyJudgedByRoute,
    },
    async (request, reply) => {
      const understood = parseRequest(request.body)
      const { version, estimate } = await judge(understood, ownPartsOf(request.body), catalogue, deps.settings)
      const body = canonicalJson(request.body)
      const outcome = await deps.records.acceptRequest({
        title: understood.title,
        address: understood.address,
        body,
        bodyHash: sha256Hex(body),
        idempotencyKey: request.headers['idempotency-key'] ?? null,
        catalogueVersion: version,
        modelVersion: MODEL_VERSION,
      })
      if (outcome.outcome === 'mismatch') throw keyReused()
      const { id, state, sweepId } = outcome.request
      request.log.info({ request: id, sweep: sweepId, outcome: outcome.outcome }, 'request accepted')
      if (state === 'accepted') await enqueuePlan(deps, sweepId)
      const location = `/v1/requests/${id}`
      return sendJson(reply.code(202).header('location', location), { id, state, location, estimate, understood })
    },
  )
}
