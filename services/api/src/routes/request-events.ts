// GET /v1/requests/{id}/events: progress as server-sent events until the request ends. Ids grow with state and progress
// and depend on nothing else, so a client that reconnects with Last-Event-ID hears only what is new, also from another
// process. The number of streams and the life of each are bounded.
import { Readable } from 'node:stream'
import { setTimeout as sleep } from 'node:timers/promises'
import type { RequestRow } from '@ductwright/records/records'
import type { FastifyReply } from 'fastify'
import type { ApiApp, ApiDeps } from '../deps.js'
import { idParams, knownRequest } from '../known-request.js'
import { Problem } from '../problems.js'
import { refusals, stored } from '../responses.js'
import { progressOf } from './request-status.js'

/** Silence longer than this is broken by a comment line, so that proxies keep the connection. */
const KEEP_ALIVE_MS = 15_000

interface Event {
  readonly id: number
  readonly ended: boolean
  readonly text: string
}

export function requestEvents(app: ApiApp, deps: ApiDeps): void {
  const closing = new AbortController()
  let open = 0
  app.addHook('preClose', async () => closing.abort())
  app.get(
    '/v1/requests/:id/events',
    {
      exposeHeadRoute: false,
      schema: {
        tags: ['requests'],
        summary: 'Progress as server-sent events; ends when the request ends',
        params: idParams,
        response: {
          200: stored('text/event-stream', 'Events `progress` and `ended` with state, progress and cause'),
          204: stored('text/plain', 'The client has heard the end already: nothing follows'),
          ...refusals('not-found', 'too-many-requests', 'too-many-streams', 'store-unavailable'),
        },
      },
    },
    async (request, reply) => {
      const row = await knownRequest(deps.records, request.params.id)
      const heard = lastHeard(request.headers['last-event-id'])
      const first = await eventOf(deps, row)
      if (first.ended && first.id === heard) return reply.code(204).send()
      if (open >= deps.settings.eventStreamsMax) {
        const words = `${deps.settings.eventStreamsMax} streams are open already.`
        throw new Problem('too-many-streams', words, { retryAfterSeconds: 10 })
      }
      const over = AbortSignal.any([closing.signal, goneSignal(reply)])
      const stream = Readable.from(events(deps, row.id, heard, over), { objectMode: false })
      open += 1
      stream.once('close', () => {
        open -= 1
      })
      return (
        reply
          .header('content-type', 'text/event-stream')
          .header('cache-control', 'no-store')
          .header('x-accel-buffering', 'no')
          // Kept open, the connection would hold up a stop of the service long after its stream has ended.
          .header('connection', 'close')
          .send(stream)
      )
    },
  )
}

/** A generator hears of a client that went away only when it next has something to say; this is how it hears at once. */
function goneSignal(reply: FastifyReply): AbortSignal {
  const gone = new AbortController()
  reply.raw.once('close', () => gone.abort())
  return gone.signal
}

async function* events(deps: ApiDeps, id: string, heard: number, over: AbortSignal): AsyncGenerator<string> {
  const { eventPollMs, eventStreamMaxMs } = deps.settings
  const end = Date.now() + eventStreamMaxMs
  let last = heard
  let spoken = Date.now()
  yield 'retry: 2000\n\n'
  while (!over.aborted && Date.now() < end) {
    const event = await eventOf(deps, await knownRequest(deps.records, id))
    if (event.id !== last) {
      last = event.id
      spoken = Date.now()
      yield event.text
    } else if (Date.now() - spoken > KEEP_ALIVE_MS) {
      spoken = Date.now()
      yield ': still working\n\n'
    }
    if (event.ended) return
    await sleep(eventPollMs, undefined, { signal: over }).catch(() => {})
  }
}

async function eventOf(deps: ApiDeps, row: RequestRow): Promise<Event> {
  const ended = row.state !== 'accepted' && row.state !== 'running'
  const progress = await progressOf(deps.records, row)
  const rank = ended ? 2 : row.state === 'running' ? 1 : 0
  const id = rank * 10_000 + Math.round(progress * 1000)
  const data = JSON.stringify({ state: row.state, progress, cause: row.cause })
  return { id, ended, text: `id: ${id}\nevent: ${ended ? 'ended' : 'progress'}\ndata: ${data}\n\n` }
}

const lastHeard = (header: string | string[] | undefined): number =>
  typeof header === 'string' && /^\d{1,6}$/.test(header) ? Number(header) : -1
