// `watch`: plain lines away from a terminal, back again after a lost connection with what it heard last, and how it ends.
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { readEvents } from '@ductwright/cli/event-stream'
import { afterEach, describe, expect, it } from 'vitest'
import { ductwright } from './command.js'

type Answer = (request: IncomingMessage, reply: ServerResponse) => void

let server: Server | null = null
afterEach(() => new Promise<void>((resolve) => (server === null ? resolve() : server.close(() => resolve()))))

/** Answers the connections to the events one after the other; the last answer again and again. */
async function serving(...answers: readonly Answer[]) {
  const seen: (string | undefined)[] = []
  server = createServer((request, reply) => {
    if (request.url?.endsWith('/result.txt')) return void reply.end('The answer in words\n')
    seen.push(request.headers['last-event-id'] as string | undefined)
    answers[Math.min(seen.length, answers.length) - 1]?.(request, reply)
  })
  await new Promise<void>((resolve) => server?.listen(0, '127.0.0.1', () => resolve()))
  return { address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, seen }
}

const event = (id: number, kind: string, state: string, progress: number, cause: string | null = null): string =>
  `id: ${id}\nevent: ${kind}\ndata: ${JSON.stringify({ state, progress, cause })}\n\n`

const stream =
  (...events: readonly string[]): Answer =>
  (_request, reply) => {
    reply.writeHead(200, { 'content-type': 'text/event-stream' })
    reply.end(`retry: 2000\n\n: comment\n\n${events.join('')}`)
  }

const watch = (address: string, ...rest: readonly string[]) =>
  ductwright(['watch', 'some-id', '--server', address, ...rest])

describe('watch', () => {
  it('prints progress as plain lines, then the end, and the answer when asked for', async () => {
    const { address } = await serving(
      stream(
        event(10_250, 'progress', 'running', 0.25),
        event(10_600, 'progress', 'running', 0.6),
        event(21_000, 'ended', 'answered', 1),
      ),
    )
    const { code, out, err } = await watch(address, '--text')
    expect({ code, out }).toEqual({ code: 0, out: 'The answer in words\n' })
    expect(err.split('\n').filter((line) => line !== '')).toEqual([
      expect.stringMatching(/^Request: 20 %/),
      expect.stringMatching(/^Request: 60 %/),
      'Request: 100 %',
      'answered',
    ])
  })

  it('comes back after a lost connection, and a service that asks for patience, with what it heard last', async () => {
    const busy: Answer = (_request, reply) => reply.writeHead(503, { 'retry-after': '1' }).end()
    const { address, seen } = await serving(
      stream(event(10_300, 'progress', 'running', 0.3)),
      busy,
      stream(event(21_000, 'ended', 'answered', 1)),
    )
    expect((await watch(address)).code).toBe(0)
    expect(seen).toEqual([undefined, '10300', '10300'])
  })

  it('ends with 1 and the cause when there is no answer', async () => {
    const { address } = await serving(stream(event(20_000, 'ended', 'failed', 0, 'the part\u202e is gone')))
    const { code, err } = await watch(address)
    expect(code).toBe(1)
    expect(err).toMatch(/failed: the part. is gone/)
    expect(err).not.toContain('\u202e')
  })

  it.each([
    ['an id nobody has', 404, /no request has this id/],
    ['a service that fails', 500, /the service answered 500/],
  ])('refuses %s', async (_what, status, words) => {
    const { address } = await serving((_request, reply) => reply.writeHead(status).end())
    const { code, out, err } = await watch(address)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toMatch(words)
  })

  it.each([
    ['http://127.0.0.1:1', /cannot be reached/],
    ['nowhere', /must be an address/],
  ])('refuses the server %s', async (address, words) => {
    const { code, err } = await watch(address)
    expect(code).toBe(2)
    expect(err).toMatch(words)
    expect(err).not.toMatch(/\n\s+at /)
  })
})

describe('an event stream', () => {
  it('is read the same however it is cut into pieces', async () => {
    const bytes = new TextEncoder().encode(
      `retry: 1\r\n\r\n${event(1, 'progress', 'rünning', 0.5)}${event(2, 'ended', 'answered', 1)}`,
    )
    for (const size of [1, 2, 3, 7, bytes.length]) {
      const pieces = async function* () {
        for (let from = 0; from < bytes.length; from += size) yield bytes.slice(from, from + size)
      }
      const events = []
      for await (const each of readEvents(pieces())) events.push(each)
      expect(events).toEqual([
        { id: '1', ended: false, state: 'rünning', progress: 0.5, cause: null },
        { id: '2', ended: true, state: 'answered', progress: 1, cause: null },
      ])
    }
  })
})
