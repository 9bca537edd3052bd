// GET /v1/requests/{id}/result and its other forms. The JSON is sent as it was stored, byte for byte, under the hash of
// its meaning; table and text are drawn from the same bytes.
import { readReceipt } from '@ductwright/contract/read-receipt'
import { renderCsv } from '@ductwright/report/csv'
import { renderText } from '@ductwright/report/text'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { type Answer, drawable } from '../drawable.js'
import { ifChanged } from '../if-changed.js'
import { idParams, knownRequest } from '../known-request.js'
import { receipt, result } from '../openapi.js'
import { Problem } from '../problems.js'
import { described, refusals, stored, unchanged } from '../responses.js'

/** Why a form of an answer is not sent. */
export const answerRefusals = refusals(
  'not-found',
  'not-finished',
  'no-answer',
  'answer-of-earlier-form',
  'too-many-requests',
  'store-unavailable',
)

interface Form {
  readonly path: string
  readonly summary: string
  readonly contentType: string
  /** null: not JSON. */
  readonly schema: z.ZodType | null
  /** Ending of the entity tag: each form is its own representation. */
  readonly tag: string
  body(answer: Answer): string
}

const forms: readonly Form[] = [
  {
    path: 'result',
    summary: 'The answer: the ranked front with reasons',
    contentType: 'application/json',
    schema: result,
    tag: '',
    body: (answer) => answer.result,
  },
  {
    path: 'result.csv',
    summary: 'The front as a table',
    contentType: 'text/csv; charset=utf-8',
    schema: null,
    tag: '-csv',
    body: (answer) => renderCsv(drawable(answer)),
  },
  {
    path: 'result.txt',
    summary: 'The answer in words',
    contentType: 'text/plain; charset=utf-8',
    schema: null,
    tag: '-txt',
    body: (answer) => renderText(drawable(answer), { receipt: readReceipt(answer.receipt) }),
  },
  {
    path: 'receipt',
    summary: 'How the work went: times, shards, evaluations, what each limit removed',
    contentType: 'application/json',
    schema: receipt,
    tag: '-receipt',
    body: (answer) => answer.receipt,
  },
]

export function requestAnswer(app: ApiApp, deps: ApiDeps): void {
  for (const form of forms) {
    const mediaType = form.contentType.split(';', 1)[0] ?? ''
    app.get(
      `/v1/requests/:id/${form.path}`,
      {
        schema: {
          tags: ['answers'],
          summary: form.summary,
          params: idParams,
          response: {
            200: form.schema === null ? stored(mediaType, form.summary) : described(form.schema, form.summary),
            304: unchanged,
            ...answerRefusals,
          },
        },
      },
      async (request, reply) => send(form, request, reply, await answerOf(deps, request.params.id)),
    )
  }
}

function send(form: Form, request: FastifyRequest, reply: FastifyReply, answer: Answer): FastifyReply {
  if (ifChanged(request, reply, `${answer.answerHash}${form.tag}`)) {
    const body = Buffer.from(form.body(answer), 'utf8')
    reply.header('content-type', form.contentType)
    if (form.path === 'result.csv') reply.header('content-disposition', 'attachment; filename="result.csv"')
    return reply.send(body)
  }
  return reply.code(304).send()
}

/** @throws Problem when there is none, or none yet */
export async function answerOf(deps: ApiDeps, id: string): Promise<Answer> {
  const row = await knownRequest(deps.records, id)
  const answer = await deps.records.getAnswer(row.id)
  if (answer !== null) return answer
  if (row.state === 'failed' || row.state === 'cancelled') {
    throw new Problem('no-answer', `The request was ${row.state}${row.cause === null ? '.' : `: ${row.cause}`}`)
  }
  throw new Problem('not-finished', `The request is ${row.state}; there is no answer yet.`, { retryAfterSeconds: 2 })
}
