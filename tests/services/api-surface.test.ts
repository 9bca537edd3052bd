// Everything the API offers besides accepting: reading, listing, cancelling, the catalogue, health, its own description,
// and how it behaves toward strangers.
import { setTimeout as sleep } from 'node:timers/promises'
import type { Records } from '@ductwright/records/records'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { apiOver, eventually, openStand, post, type Stand } from './stand.js'

let stand: Stand
let draining = false

beforeAll(async () => {
  stand = await openStand({ draining: () => draining })
})

afterAll(() => stand.close())

const accepted = async (changes: Record<string, unknown> = {}): Promise<string> =>
  (await post(stand, smallRequest(stand.catalogue, changes))).json<{ id: string }>().id

const perRequest = ['', '/result', '/result.csv', '/result.txt', '/receipt', '/events'] as const

describe('an id nobody has', () => {
  it.each([
    '00000000-0000-4000-8000-000000000000',
    'x',
    '..',
    '%00',
    "'; drop table requests; --",
    'a'.repeat(99),
    '1e999',
    '🛩',
  ])('%s is answered with 404 everywhere', async (id) => {
    for (const path of perRequest) {
      const reply = await stand.app.inject(`/v1/requests/${encodeURIComponent(id)}${path}`)
      expect(`${path} ${reply.statusCode}`).toBe(`${path} 404`)
      expect(reply.headers['content-type']).toContain('application/problem+json')
    }
    const reply = await stand.app.inject({ method: 'DELETE', url: `/v1/requests/${encodeURIComponent(id)}` })
    expect(reply.statusCode).toBe(404)
  })

  it('and an unknown route too', async () => {
    const reply = await stand.app.inject('/v2/nothing')
    expect(reply.json()).toMatchObject({
      status: 404,
      type: '/problems#not-found',
      detail: 'No route GET "/v2/nothing".',
    })
  })
})

describe('an unfinished request', () => {
  it('has no answer yet, and says so', async () => {
    const id = await accepted()
    for (const path of ['/result', '/result.csv', '/result.txt', '/receipt']) {
      const reply = await stand.app.inject(`/v1/requests/${id}${path}`)
      expect(reply.json()).toMatchObject({ status: 409, type: '/problems#not-finished' })
      expect(Number(reply.headers['retry-after'])).toBeGreaterThan(0)
    }
  })

  it('can be cancelled once, and then has no answer for good', async () => {
    const id = await accepted()
    const cancel = () => stand.app.inject({ method: 'DELETE', url: `/v1/requests/${id}` })
    const first = await cancel()
    expect([first.statusCode, first.json()]).toEqual([202, { id, state: 'cancelled' }])
    expect((await cancel()).json()).toMatchObject({ status: 409, type: '/problems#already-ended' })
    expect((await stand.app.inject(`/v1/requests/${id}`)).json()).toMatchObject({ state: 'cancelled' })
    expect((await stand.app.inject(`/v1/requests/${id}/result`)).json()).toMatchObject({ type: '/problems#no-answer' })
  })

  it('tells its progress as events until it ends, and nothing twice', async () => {
    const id = await accepted()
    const following = stand.app.inject(`/v1/requests/${id}/events`)
    await sleep(100)
    await stand.app.inject({ method: 'DELETE', url: `/v1/requests/${id}` })
    const stream = await following
    expect(stream.headers['content-type']).toBe('text/event-stream')
    const events = stream.body.split('\n\n').filter((block) => block.startsWith('id:'))
    expect(events).toHaveLength(2)
    expect(events[0]).toBe('id: 0\nevent: progress\ndata: {"state":"accepted","progress":0,"cause":null}')
    expect(events[1]).toMatch(/^id: 20000\nevent: ended\ndata: \{"state":"cancelled"/)

    const headers = { 'last-event-id': '0' }
    const resumed = await stand.app.inject({ url: `/v1/requests/${id}/events`, headers })
    expect(resumed.body.match(/^id: .*$/gm)).toEqual(['id: 20000'])
    const over = await stand.app.inject({ url: `/v1/requests/${id}/events`, headers: { 'last-event-id': '20000' } })
    expect(over.statusCode).toBe(204)
  })

  it('is followed by a bounded number of streams, each of bounded length', async () => {
    const app = apiOver({ ...stand, log: stand.logger }, { eventStreamsMax: 1, eventStreamMaxMs: 300 })
    const id = await accepted()
    const first = app.inject(`/v1/requests/${id}/events`)
    await sleep(100)
    const second = await app.inject(`/v1/requests/${id}/events`)
    expect(second.json()).toMatchObject({ status: 503, type: '/problems#too-many-streams' })
    expect((await first).statusCode).toBe(200)
    expect((await app.inject(`/v1/requests/${id}/events`)).statusCode).toBe(200)
    await app.close()
  })
})

describe('a client that goes away', () => {
  it('frees its stream for the next', async () => {
    const app = apiOver({ ...stand, log: stand.logger }, { eventStreamsMax: 1, requestsPerMinute: 1e6 })
    const address = await app.listen({ host: '127.0.0.1', port: 0 })
    const url = `${address}/v1/requests/${await accepted()}/events`
    const gone = new AbortController()
    const first = await fetch(url, { signal: gone.signal })
    expect(first.status).toBe(200)
    expect((await fetch(url)).status).toBe(503)
    gone.abort()
    const next = await eventually(async () => {
      const reply = await fetch(url)
      return reply.status === 200 && reply
    })
    expect(next.headers.get('content-type')).toBe('text/event-stream')
    await app.close()
    expect(await next.text()).toContain('event: progress')
  })
})

describe('the list', () => {
  it('gives every request once, newest first, page by page', async () => {
    const made: string[] = []
    for (let n = 0; n < 5; n += 1) made.push(await accepted({ title: `Number ${n}` }))
    const seen: string[] = []
    let after: string | null = null
    do {
      const query: string = after === null ? '' : `&after=${encodeURIComponent(after)}`
      const page = (await stand.app.inject(`/v1/requests?limit=2${query}`)).json<{
        requests: { id: string }[]
        next: string | null
      }>()
      seen.push(...page.requests.map((row) => row.id))
      after = page.next
    } while (after !== null)
    expect(new Set(seen).size).toBe(seen.length)
    expect(seen.slice(0, 5)).toEqual(made.reverse())
    expect(JSON.stringify(seen)).not.toContain('@')
  })

  it.each(['limit=0', 'limit=101', 'limit=x', 'after=nonsense'])('refuses %s by name', async (query) => {
    const reply = await stand.app.inject(`/v1/requests?${query}`)
    expect(reply.statusCode).toBe(400)
    expect(reply.json<{ detail: string }>().detail).toContain(query.split('=')[0])
  })
})

describe('the catalogue', () => {
  it('is named by its version, and not sent again to who has it', async () => {
    const reply = await stand.app.inject('/v1/catalogue')
    const { version, currency, fans, sets } = stand.catalogue
    expect(reply.json()).toMatchObject({ version, currency, counts: { fans: fans.length, sets: sets.length } })
    const again = await stand.app.inject({
      url: '/v1/catalogue',
      headers: { 'if-none-match': String(reply.headers['etag']) },
    })
    expect([again.statusCode, again.body]).toEqual([304, ''])
  })

  it.each(['fans', 'motors', 'escs', 'packs', 'airframes', 'sets'] as const)('lists its %s as read', async (list) => {
    const reply = await stand.app.inject(`/v1/catalogue/${list}`)
    expect(reply.json<Record<string, unknown>>()[list]).toEqual(JSON.parse(JSON.stringify(stand.catalogue[list])))
    const headers = { 'if-none-match': `W/${String(reply.headers['etag'])}` }
    expect((await stand.app.inject({ url: `/v1/catalogue/${list}`, headers })).statusCode).toBe(304)
  })
})

describe('one setup', () => {
  const setup = () => {
    const { fans, motors, escs, packs } = stand.catalogue
    const request = smallRequest(stand.catalogue)
    return {
      airframe: request['airframe'],
      setup: {
        fan: fans[0]?.part.id,
        motor: motors[0]?.part.id,
        esc: escs[0]?.part.id,
        pack: packs[0]?.part.id,
        timing_deg: 15,
        nozzle_ratio: 0.85,
      },
    }
  }

  it('is worked through at once', async () => {
    const reply = await post(stand, setup(), {}, '/v1/evaluate')
    expect(reply.statusCode).toBe(200)
    expect(reply.json()).toMatchObject({ format: 'ductwright-setup/1' })
  })

  it('is refused field by field', async () => {
    const reply = await post(stand, { ...setup(), colour: 'red' }, {}, '/v1/evaluate')
    expect(reply.json()).toMatchObject({
      status: 422,
      type: '/problems#invalid-request',
      faults: [{ pointer: '/colour' }],
    })
  })
})

describe('health', () => {
  it('is alive and ready', async () => {
    expect((await stand.app.inject('/healthz')).json()).toEqual({ alive: true })
    const ready = await stand.app.inject('/readyz')
    expect([ready.statusCode, ready.json()]).toEqual([
      200,
      { ready: true, checks: { process: 'ok', store: 'ok', queue: 'ok' } },
    ])
  })

  it('is not ready once it was told to stop, and answers on', async () => {
    draining = true
    try {
      const reply = await stand.app.inject('/readyz')
      expect([reply.statusCode, reply.json()]).toMatchObject([503, { ready: false, checks: { process: 'stopping' } }])
      expect((await stand.app.inject('/v1/catalogue')).statusCode).toBe(200)
    } finally {
      draining = false
    }
  })
})

describe('a store that is down', () => {
  const refusedConnection = Object.assign(new Error('connect ECONNREFUSED 127.0.0.1:5432'), { code: 'ECONNREFUSED' })
  const records = new Proxy({} as Records, { get: () => () => Promise.reject(refusedConnection) })

  it('is answered with 503 and when to try again', async () => {
    const app = apiOver({ records, jobs: stand.jobs, log: stand.logger })
    for (const url of ['/v1/requests', '/v1/requests/abc', '/v1/catalogue']) {
      const reply = await app.inject(url)
      expect(reply.json()).toMatchObject({ status: 503, type: '/problems#store-unavailable' })
      expect(reply.headers['retry-after']).toBe('5')
    }
    const posted = await post({ app }, smallRequest(stand.catalogue))
    expect(posted.statusCode).toBe(503)
    expect((await app.inject('/readyz')).json()).toMatchObject({ ready: false, checks: { store: 'cannot be reached' } })
    expect((await app.inject('/healthz')).statusCode).toBe(200)
    await app.close()
  })
})

describe('a client that floods', () => {
  it('is told to wait, while health checks go on', async () => {
    const app = apiOver({ ...stand, log: stand.logger }, { requestsPerMinute: 3 })
    const replies = []
    for (let n = 0; n < 4; n += 1) replies.push(await app.inject('/v1/catalogue'))
    expect(replies.map((reply) => reply.statusCode)).toEqual([200, 200, 200, 429])
    expect(replies[3]?.json()).toMatchObject({ type: '/problems#too-many-requests' })
    expect(Number(replies[3]?.headers['retry-after'])).toBeGreaterThan(0)
    expect((await app.inject('/healthz')).statusCode).toBe(200)
    expect((await app.inject({ url: '/v1/catalogue', remoteAddress: '192.0.2.7' })).statusCode).toBe(200)
    await app.close()
  })
})
