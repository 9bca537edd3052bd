// POST /v1/batches: every item is judged like a request of its own before anything is stored; then batch, requests and
// sweeps are stored together.

import { type BatchItem, batchSchema, parseBatch } from '@ductwright/contract/batch-request'
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { type Fault, InputError } from '@ductwright/contract/fault'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { enqueuePlan } from '../enqueue-plan.js'
import { bodyJudgedByRoute, idempotencyHeaders, keyReused } from '../idempotency-key.js'
import { sendJson } from '../json-reply.js'
import { type Judgement, judge, questionRefusals, refuseTooMany, sweepEstimate } from '../judged-request.js'
import { described, refusals } from '../responses.js'

const accepted = z.object({
  id: z.string(),
  state: z.enum(['running', 'ended']),
  items: z.number().int(),
  location: z.string(),
  estimate: sweepEstimate.describe('Of all items together'),
})

export function batchAccept(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/batches',
    {
      schema: {
        tags: ['batches'],
        summary: 'Ask many questions at once, as a list or along axes, for one summary',
        headers: idempotencyHeaders,
        body: batchSchema,
        response: {
          202: described(accepted, 'Accepted: stored, and on its way'),
          ...refusals(...questionRefusals),
        },
      },
      validatorCompiler: bodyJudgedByRoute,
    },
    async (request, reply) => {
      const batch = parseBatch(request.body)
      const judged = await judgeAll(batch.items, catalogue, deps)
      const estimate = sum(judged)
      refuseTooMany(estimate, deps.settings)
      const outcome = await deps.records.acceptBatch({
        title: batch.title,
        address: batch.address,
        bodyHash: sha256Hex(canonicalJson(request.body)),
        idempotencyKey: request.headers['idempotency-key'] ?? null,
        items: batch.items.map((item, at) => rowOf(item, judged[at]?.version ?? '')),
      })
      if (outcome.outcome === 'mismatch') throw keyReused()
      const { id, state, itemCount } = outcome.batch
      request.log.info({ batch: id, items: itemCount, outcome: outcome.outcome }, 'batch accepted')
      for (const sweepId of outcome.sweepIds) if (!(await enqueuePlan(deps, sweepId))) break
      const location = `/v1/batches/${id}`
      return sendJson(reply.code(202).header('location', location), { id, state, items: itemCount, location, estimate })
    },
  )
}

async function judgeAll(
  items: readonly BatchItem[],
  catalogue: CurrentCatalogue,
  { settings }: ApiDeps,
): Promise<Judgement[]> {
  const judged: Judgement[] = []
  const faults: Fault[] = []
  for (const [index, { understood, ownParts }] of items.entries()) {
    try {
      judged.push(await judge(understood, ownParts, catalogue, settings))
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      faults.push(...error.faults.map((fault) => ({ ...fault, pointer: `/items/${index}${fault.pointer}` })))
    }
  }
  if (faults.length > 0) throw new InputError('batch', faults)
  return judged
}

function sum(judged: readonly Judgement[]): Judgement['estimate'] {
  return judged.reduce(
    (total, { estimate }) => ({
      combinations: total.combinations + estimate.combinations,
      compatible: total.compatible + estimate.compatible,
      seconds: total.seconds + estimate.seconds,
      // Items are worked out one after another.
      bytes: Math.max(total.bytes, estimate.bytes),
    }),
    { combinations: 0, compatible: 0, seconds: 0, bytes: 0 },
  )
}

function rowOf({ json, understood }: BatchItem, catalogueVersion: string) {
  const body = canonicalJson(json)
  return {
    title: understood.title,
    address: null,
    body,
    bodyHash: sha256Hex(body),
    catalogueVersion,
    modelVersion: MODEL_VERSION,
  }
}
