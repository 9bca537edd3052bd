// GET of standing requests: the list, one with its question and its last runs, and its mails.
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { listing, pageOf } from '../listing.js'
import { mailView, shownMail } from '../mail-view.js'
import { refusals } from '../responses.js'
import { knownStanding, questionOf, standingParams, standingSummary, summaryOf, tagOf } from '../standing-view.js'

const RUNS_SHOWN = 20
const MAILS_SHOWN = 100

const run = z.object({
  request: z.string().describe('The run is a request of its own: its answer is read there'),
  revision: z.number().int(),
  reason: z.enum(['first', 'revision', 'resumed', 'catalogue', 'model', 'schedule']),
  state: z.enum(['accepted', 'running', 'answered', 'failed', 'cancelled']),
  cause: z.string().nullable(),
  catalogue: z.string().describe('Catalogue version it is pinned to'),
  model: z.string().describe('Model version it is pinned to'),
  answer_hash: z.string().nullable(),
  created: z.string(),
  finished: z.string().nullable(),
})

const whole = standingSummary.extend({
  request: z.looseObject({}).describe('The question as it was sent, without the address'),
  runs: z.array(run).describe('The last ones, newest first'),
})

const always = ['not-found', 'deleted', 'too-many-requests', 'store-unavailable'] as const

export function standingRead(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/standing-requests/:id',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'A standing request, its question and its last runs',
        params: standingParams,
        response: { 200: whole, ...refusals(...always) },
      },
    },
    async (request, reply) => {
      const row = await knownStanding(deps, request.params.id)
      const runs = await deps.records.runsOf(row.id, RUNS_SHOWN)
      reply.header('etag', `"${tagOf(row)}"`).header('cache-control', 'no-store')
      return {
        ...summaryOf(row),
        request: questionOf(row),
        runs: runs.map(({ id, version, answerHash, createdAt, finishedAt, ...rest }) => ({
          request: id,
          ...rest,
          ...version,
          answer_hash: answerHash,
          created: createdAt,
          finished: finishedAt,
        })),
      }
    },
  )
  app.get(
    '/v1/standing-requests/:id/mails',
    {
      schema: {
        tags: ['mail'],
        summary: 'What was written to the reader of a standing request, newest first, and what became of it',
        params: standingParams,
        response: { 200: z.object({ mails: z.array(mailView) }), ...refusals(...always) },
      },
    },
    async (request) => {
      const { id } = await knownStanding(deps, request.params.id)
      return { mails: (await deps.records.mailsOfStanding(id, MAILS_SHOWN)).map(shownMail) }
    },
  )
  app.get(
    '/v1/standing-requests',
    {
      schema: {
        tags: ['standing requests'],
        summary: 'All standing requests, newest first',
        querystring: listing,
        response: {
          200: z.object({ standing_requests: z.array(standingSummary), next: z.string().nullable() }),
          ...refusals('invalid-query', 'too-many-requests', 'store-unavailable'),
        },
      },
    },
    async (request) => {
      const { rows, next } = await pageOf(request.query, (page) => deps.records.listStanding(page))
      return { standing_requests: rows.map(summaryOf), next }
    },
  )
}
