// POST /v1/requests: reads, judges and counts a request before anything is stored, then stores it and its sweep in one
// transaction. The job is enqueued after that; if the queue is down the reconciler of a worker does it later.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { SweepRequest } from '@ductwright/contract/request'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { prepare } from '@ductwright/pipeline/prepare'
import { estimateSweep } from '@ductwright/pipeline/shards'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import { within } from '../deadline.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { sendJson } from '../json-reply.js'
import { sweepRequest, understoodRequest } from '../openapi.js'
import { Problem } from '../problems.js'
import { described, refusals } from '../responses.js'
import type { ApiSettings } from '../settings.js'

const headers = z.object({
  'idempotency-key': z
    .string()
    .regex(/^[\x21-\x7e]{1,128}$/, 'must be 1 to 128 printable characters without spaces')
    .optional()
    .describe('Repeating a call with the same key and body gives the first request back'),
})

const accepted = z.object({
  id: z.string(),
  state: z.string(),
  location: z.string(),
  estimate: z
    .object({ combinations: z.number(), compatible: z.number(), seconds: z.number() })
    .describe('What the sweep covers, and about how long one thread takes'),
  understood: understoodRequest,
})

export function acceptRequest(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  app.post(
    '/v1/requests',
    {
      schema: {
        tags: ['requests'],
        summary: 'Ask what is needed for a speed',
        headers,
        body: sweepRequest,
        response: {
          202: described(accepted, 'Accepted: stored, and on its way'),
          ...refusals(
            'broken-json',
            'invalid-query',
            'body-too-large',
            'wrong-content-type',
            'invalid-request',
            'too-many-combinations',
            'key-reused',
            'too-many-requests',
            'store-unavailable',
            'no-catalogue',
          ),
        },
      },
      // The body is judged by parseRequest, which collects every fault; the schema above describes it.
      validatorCompiler: ({ schema, httpPart }) =>
        httpPart === 'body' ? (value) => ({ value }) : validate(schema as unknown as z.ZodType),
    },
    async (request, reply) => {
      const understood = parseRequest(request.body)
      const { version, estimate } = await judge(understood, catalogue, deps.settings)
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
      if (outcome.outcome === 'mismatch') {
        throw new Problem('key-reused', 'This Idempotency-Key was used before with another body.')
      }
      const { id, state, sweepId } = outcome.request
      request.log.info({ request: id, sweep: sweepId, outcome: outcome.outcome }, 'request accepted')
      if (state === 'accepted') await enqueue(deps, sweepId)
      const location = `/v1/requests/${id}`
      return sendJson(reply.code(202).header('location', location), { id, state, location, estimate, understood })
    },
  )
}

const validate = (schema: z.ZodType) => (value: unknown) => {
  const read = schema.safeParse(value)
  if (read.success) return { value: read.data as unknown }
  const faults = read.error.issues.map((issue) => {
    const pointer = `/${issue.path.join('/')}`
    return { pointer, rule: 'header', value: '', message: `The header ${issue.path.join('.')} ${issue.message}.` }
  })
  return { error: new Problem('invalid-query', faults.map((fault) => fault.message).join(' '), { faults }) }
}

/** Refuses what the catalogue cannot answer and what is too large to sweep. */
async function judge(understood: SweepRequest, catalogue: CurrentCatalogue, settings: ApiSettings) {
  const current = await catalogue()
  const estimate = estimateSweep(prepare(understood, current))
  refuseTooMany(estimate, settings)
  return { version: current.version, estimate }
}

function refuseTooMany(estimate: { combinations: number; seconds: number }, settings: ApiSettings): void {
  const cure = 'Name fewer duties or nozzle ratios under /sweep, or require and exclude parts.'
  if (!(estimate.combinations <= settings.combinationsMax)) {
    const words = `The sweep has ${estimate.combinations.toExponential(2)} combinations; at most ${settings.combinationsMax.toExponential(2)} are accepted. ${cure}`
    throw new Problem('too-many-combinations', words)
  }
  if (!(estimate.seconds <= settings.sweepSecondsMax)) {
    const words = `The sweep of ${estimate.combinations.toExponential(2)} combinations would take about ${Math.round(estimate.seconds)} s; at most ${settings.sweepSecondsMax} s are accepted. ${cure}`
    throw new Problem('too-many-combinations', words)
  }
}

/** The request is stored already, so a queue that is down only delays it. */
async function enqueue(deps: ApiDeps, sweepId: string): Promise<void> {
  try {
    await within(deps.settings.probeTimeoutMs, deps.jobs.enqueuePlan(sweepId))
  } catch (error) {
    deps.log.warn({ sweep: sweepId, err: error }, 'queue not reached; the reconciler will enqueue this sweep')
  }
}
