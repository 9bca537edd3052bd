// GET /v1/requests/{id} and GET /v1/requests: where a request stands, and the list, newest first.
import type { Records, RequestRow } from '@ductwright/records/records'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { idParams, knownRequest } from '../known-request.js'
import { listing, pageOf } from '../listing.js'
import { mailView, shownMail } from '../mail-view.js'
import { refusals } from '../responses.js'

const requestState = z.enum(['accepted', 'running', 'answered', 'failed', 'cancelled'])

const summary = z.object({
  id: z.string(),
  title: z.string(),
  state: requestState,
  cause: z.string().nullable().describe('Why it failed; null otherwise'),
  created: z.string(),
  finished: z.string().nullable(),
})

const status = summary.extend({
  progress: z.number().describe('0 to 1, by work'),
  mails: z.array(mailView),
  standing: z.string().nullable().describe('The standing request it is a run of'),
  batch: z.string().nullable().describe('The batch it is an item of'),
  links: z.record(z.string(), z.string()),
})

const page = z.object({ requests: z.array(summary), next: z.string().nullable().describe('Cursor of the next page') })

export function requestStatus(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/requests/:id',
    {
      schema: {
        tags: ['requests'],
        summary: 'Where a request stands',
        params: idParams,
        response: { 200: status, ...refusals('not-found', 'too-many-requests', 'store-unavailable') },
      },
    },
    async (request, reply) => {
      const row = await knownRequest(deps.records, request.params.id)
      const progress = await progressOf(deps.records, row)
      const mails = (await deps.records.mailsOf(row.id)).map(shownMail)
      reply.header('cache-control', 'no-store')
      const belongs = { standing: row.standing?.id ?? null, batch: row.batch?.id ?? null }
      return { ...summaryOf(row), ...belongs, progress, mails, links: linksOf(row) }
    },
  )
  app.get(
    '/v1/requests',
    {
      schema: {
        tags: ['requests'],
        summary: 'All requests, newest first',
        querystring: listing,
        response: { 200: page, ...refusals('invalid-query', 'too-many-requests', 'store-unavailable') },
      },
    },
    async (request) => {
      const { rows, next } = await pageOf(request.query, (page) => deps.records.listRequests(page))
      return { requests: rows.map(summaryOf), next }
    },
  )
}

/** 1 once answered; otherwise what the sweep has done. */
export async function progressOf(records: Records, row: RequestRow): Promise<number> {
  if (row.state === 'answered') return 1
  const sweep = await records.getSweep(row.sweepId)
  return Math.min(1, Math.max(0, sweep?.progress ?? 0))
}

const summaryOf = (row: RequestRow) => ({
  id: row.id,
  title: row.title,
  state: row.state,
  cause: row.cause,
  created: row.createdAt,
  finished: row.finishedAt,
})

function linksOf(row: RequestRow): Record<string, string> {
  const self = `/v1/requests/${row.id}`
  const events = `${self}/events`
  if (row.state !== 'answered') return { self, events }
  return {
    self,
    events,
    result: `${self}/result`,
    report: `${self}/report`,
    table: `${self}/result.csv`,
    text: `${self}/result.txt`,
    receipt: `${self}/receipt`,
  }
}
