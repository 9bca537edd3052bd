// `watch`: follows a request of a running service to its end: a bar on a terminal, plain lines otherwise. Listens to the
// events of the service; when the connection is lost it comes back and hears only what is new.
import { setTimeout as sleep } from 'node:timers/promises'
import { inert } from '@ductwright/contract/inert'
import { Command } from 'commander'
import { UsageError } from './complaint.js'
import { type RequestEvent, readEvents } from './event-stream.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { type ProgressLine, progressLine } from './progress-line.js'

const USUAL_SERVER = 'http://127.0.0.1:8080'
const RETRY_MS = 2000
/** Connections in a row that bring nothing new before it is given up. */
const FRUITLESS_MAX = 30

interface WatchOptions {
  readonly server: string
  readonly text?: boolean
}

export function watchCommand(): Command {
  return new Command('watch')
    .description('Follow a request of a running service until it has ended.')
    .argument('<request>', 'id of the request, or its address')
    .option('--server <address>', 'where the service listens', USUAL_SERVER)
    .option('--text', 'then print the answer in words')
    .action(async (request: string, options: WatchOptions) => {
      const address = addressOf(request, options.server)
      const line = progressLine('Request')
      const end = await follow(address, line).finally(() => line.stop())
      const cause = end.cause === null ? '' : `: ${inert(end.cause)}`
      process.stderr.write(`${end.state}${cause}\n`)
      if (end.state === 'answered' && options.text === true) process.stdout.write(await textOf(address))
      process.exitCode = end.state === 'answered' ? DONE : NO_ANSWER
    })
}

function addressOf(request: string, server: string): string {
  const given = /^https?:/.test(request)
  const text = given ? request : `${server.replace(/\/+$/, '')}/v1/requests/${encodeURIComponent(request)}`
  if (!URL.canParse(text) || !/^https?:$/.test(new URL(text).protocol)) {
    throw new UsageError(`--server ${server}: must be an address that starts with http:// or https://`)
  }
  return text.replace(/\/+$/, '')
}

/** The last event. */
async function follow(address: string, line: ProgressLine): Promise<RequestEvent> {
  let heard: string | null = null
  for (let fruitless = 0; fruitless < FRUITLESS_MAX; fruitless += 1) {
    const { last, retryMs } = await listen(address, heard, (event) => {
      line.update(event.progress)
      fruitless = 0
    })
    if (last?.ended === true) return last
    heard = last?.id ?? heard
    await sleep(retryMs)
  }
  throw new UsageError(`${address}: the service says nothing new any more`)
}

async function listen(address: string, heard: string | null, hear: (event: RequestEvent) => void) {
  let last: RequestEvent | null = null
  try {
    const headers = { accept: 'text/event-stream', ...(heard === null ? {} : { 'last-event-id': heard }) }
    const reply = await fetch(`${address}/events`, { headers })
    if (reply.status === 503 || reply.status === 429) return { last, retryMs: waitOf(reply) }
    if (reply.status === 404) throw new UsageError(`${address}: no request has this id`)
    if (reply.status !== 200 || reply.body === null) {
      throw new UsageError(`${address}: the service answered ${reply.status}`)
    }
    for await (const event of readEvents(reply.body)) {
      last = event
      hear(event)
    }
  } catch (error) {
    if (error instanceof UsageError) throw error
    // Lost on the way; `last` says how far it was heard. Never reached at all is a mistake to be told.
    if (heard === null && last === null) throw new UsageError(`${address}: cannot be reached: ${causeOf(error)}`)
  }
  return { last, retryMs: RETRY_MS }
}

const waitOf = (reply: Response): number => Math.min(60, Number(reply.headers.get('retry-after')) || 2) * 1000

function causeOf(error: unknown): string {
  const { message, cause } = error as Error
  return cause instanceof Error && cause.message !== '' ? cause.message : message
}

async function textOf(address: string): Promise<string> {
  const reply = await fetch(`${address}/result.txt`)
  if (!reply.ok) throw new UsageError(`${address}/result.txt: the service answered ${reply.status}`)
  return reply.text()
}
