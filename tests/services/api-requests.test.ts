// Accepting requests: what is stored, every way of being refused with nothing stored, and idempotency.
import type { Jobs } from '@ductwright/queue/jobs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { apiOver, openStand, post, type Stand } from './stand.js'

interface ProblemBody {
  readonly type: string
  readonly title: string
  readonly status: number
  readonly detail: string
  readonly request_id: string
  readonly faults?: readonly {
    readonly pointer: string
    readonly rule: string
    readonly value: string
    readonly message: string
  }[]
}

let stand: Stand

beforeAll(async () => {
  stand = await openStand({ api: { combinationsMax: 1e6 } })
})

afterAll(() => stand.close())

const request = (changes: Record<string, unknown> = {}) => smallRequest(stand.catalogue, changes)

const stored = async (): Promise<number> => (await stand.records.listRequests({ limit: 100, after: null })).rows.length

/** Checks the form of a refusal, and that it left nothing behind. */
async function refused(
  body: unknown,
  headers: Record<string, string> = {},
  url = '/v1/requests',
): Promise<ProblemBody> {
  const before = await stored()
  const reply = await post(stand, body, headers, url)
  expect(reply.headers['content-type']).toBe('application/problem+json; charset=utf-8')
  const problem = reply.json<ProblemBody>()
  expect(problem.status).toBe(reply.statusCode)
  expect(problem.request_id).not.toBe('')
  const page = await stand.app.inject(problem.type)
  expect(page.statusCode).toBe(200)
  expect(page.body).toContain(`id="${problem.type.split('#')[1]}"`)
  expect(await stored()).toBe(before)
  return problem
}

describe('a good request', () => {
  it('is accepted, stored, and echoed as understood in SI units', async () => {
    const reply = await post(stand, request({ title: 'Echo', target: { speed_km_h: '108 km/h' } }))
    expect(reply.statusCode).toBe(202)
    const body = reply.json<{
      id: string
      state: string
      location: string
      understood: { target: { speed: number } }
    }>()
    expect(reply.headers['location']).toBe(`/v1/requests/${body.id}`)
    expect(body).toMatchObject({ state: 'accepted', location: `/v1/requests/${body.id}` })
    expect(body.understood.target.speed).toBeCloseTo(30, 9)
    const status = (await stand.app.inject(body.location)).json<Record<string, unknown>>()
    expect(status).toMatchObject({ id: body.id, title: 'Echo', state: 'accepted', progress: 0, cause: null, mails: [] })
  })

  it('gets a plan job', async () => {
    const { id } = (await post(stand, request())).json<{ id: string }>()
    const sweepId = (await stand.records.getRequest(id))?.sweepId ?? ''
    expect(await stand.jobs.isLive({ kind: 'plan-sweep', sweepId })).toBe(true)
  })

  it('is accepted also while the queue is down: a worker enqueues it later', async () => {
    const down = new Proxy({} as Jobs, { get: () => () => Promise.reject(new Error('connect ECONNREFUSED')) })
    const app = apiOver({ records: stand.records, jobs: down, log: stand.logger })
    const { id } = (await post({ app }, request())).json<{ id: string }>()
    const sweepId = (await stand.records.getRequest(id))?.sweepId ?? ''
    expect(await stand.jobs.isLive({ kind: 'plan-sweep', sweepId })).toBe(false)
    expect((await stand.records.unfinished()).unplanned).toContain(sweepId)
    await app.close()
  })
})

describe('a request that breaks a rule', () => {
  it('hears every fault with pointer, rule and value at once', async () => {
    const problem = await refused(
      request({ colour: 'red', target: { speed_km_h: -3 }, address: 'a@b.example, c@d.example' }),
    )
    expect(problem).toMatchObject({ status: 422, type: '/problems#invalid-request' })
    expect(problem.faults?.map((fault) => fault.pointer).sort()).toEqual(['/address', '/colour', '/target/speed_km_h'])
    for (const fault of problem.faults ?? []) {
      expect(fault.rule).not.toBe('')
      expect(fault.message.length).toBeGreaterThan(10)
    }
  })

  it.each([
    ['a part the catalogue does not have', { required: ['fan-nobody-has'] }, '/required/0'],
    ['a budget in another currency', { budget: '100 USD' }, '/budget'],
    ['a number too large to hold', { target: { speed_km_h: Number.POSITIVE_INFINITY } }, '/target/speed_km_h'],
    ['a key that reaches into objects', {}, ''],
    ['a header line in the title', { title: 'x\r\nBcc: all@example.org' }, '/title'],
  ])('%s', async (_name, changes, pointer) => {
    const text = JSON.stringify({ ...request(), ...changes }).replace('"speed_km_h":null', '"speed_km_h":1e999')
    const body = pointer === '' ? text.replace('{', '{"__proto__":{"admin":true},') : text
    const problem = await refused(body)
    expect(problem.status).toBe(422)
    expect(problem.faults?.map((fault) => fault.pointer)).toContain(pointer)
  })

  it.each(['[]', '"text"', '42', 'null'])('a body that is %s and no object', async (text) => {
    expect(await refused(text)).toMatchObject({ status: 422 })
  })
})

describe('a body that cannot be read', () => {
  it('names line and column of what breaks the JSON', async () => {
    const problem = await refused('{\n "title": "x",\n}')
    expect(problem).toMatchObject({ status: 400, type: '/problems#broken-json' })
    expect(problem.detail).toContain('line 3, column 1')
  })

  it('is refused when it is nested without end', async () => {
    for (const body of [`${'['.repeat(100_000)}${']'.repeat(100_000)}`, '{"a":'.repeat(50_000)]) {
      const problem = await refused(body)
      expect(problem).toMatchObject({ status: 400, type: '/problems#broken-json' })
      expect(problem.detail).toMatch(/^Nested deeper than 32 levels at line 1, column \d+\.$/)
    }
  })

  it('is refused when it is larger than the limit', async () => {
    const problem = await refused(JSON.stringify({ title: 'x'.repeat(300_000) }))
    expect(problem).toMatchObject({ status: 413, type: '/problems#body-too-large' })
    expect(problem.detail).toContain('262144')
  })

  it.each(['text/plain', 'application/x-www-form-urlencoded', 'application/xml', 'multipart/form-data; boundary=x'])(
    'is refused as %s',
    async (type) => {
      expect(await refused('{}', { 'content-type': type })).toMatchObject({
        status: 415,
        type: '/problems#wrong-content-type',
      })
    },
  )

  it('is refused without a content type', async () => {
    const reply = await stand.app.inject({ method: 'POST', url: '/v1/requests', payload: Buffer.from('{}') })
    expect(reply.statusCode).toBe(415)
  })
})

describe('a sweep that is too large', () => {
  it('is refused before anything is stored, with the count, the limit and the cure', async () => {
    const problem = await refused(
      request({ sweep: { duty_step: 0.005, nozzle_ratios: [0.8, 0.81, 0.82, 0.83, 0.84] } }),
    )
    expect(problem).toMatchObject({ status: 422, type: '/problems#too-many-combinations' })
    expect(problem.detail).toMatch(/has [\d.]+e\+\d+ combinations; at most 1\.00e\+6 are accepted/)
    expect(problem.detail).toContain('/sweep')
  })
})

describe('an idempotency key', () => {
  it('gives the first request back when 50 posts arrive at once', async () => {
    const before = await stored()
    const body = request({ title: 'Fifty at once' })
    const replies = await Promise.all(
      Array.from({ length: 50 }, () => post(stand, body, { 'idempotency-key': 'fifty' })),
    )
    expect(new Set(replies.map((reply) => reply.statusCode))).toEqual(new Set([202]))
    expect(new Set(replies.map((reply) => reply.json<{ id: string }>().id)).size).toBe(1)
    expect(await stored()).toBe(before + 1)
  })

  it('does not care how the same body is written', async () => {
    const body = request({ title: 'Spelling' })
    const first = await post(stand, body, { 'idempotency-key': 'spelling' })
    const reversed = Object.fromEntries(Object.entries(body).reverse())
    const second = await post(stand, JSON.stringify(reversed, null, 2), { 'idempotency-key': 'spelling' })
    expect(second.json<{ id: string }>().id).toBe(first.json<{ id: string }>().id)
  })

  it('is refused with another body', async () => {
    await post(stand, request({ title: 'One' }), { 'idempotency-key': 'taken' })
    const problem = await refused(request({ title: 'Two' }), { 'idempotency-key': 'taken' })
    expect(problem).toMatchObject({ status: 422, type: '/problems#key-reused' })
  })

  it.each(['', 'with space', 'x'.repeat(129), 'ä'])('is refused when it is "%s"', async (key) => {
    expect(await refused(request(), { 'idempotency-key': key })).toMatchObject({
      status: 400,
      type: '/problems#invalid-query',
    })
  })

  it('may be left out: then every post is a request of its own', async () => {
    const body = request({ title: 'Twice' })
    const ids = [await post(stand, body), await post(stand, body)].map((reply) => reply.json<{ id: string }>().id)
    expect(new Set(ids).size).toBe(2)
  })
})

describe('the log', () => {
  it('holds no mail address, no body and no token', async () => {
    await post(stand, request({ address: 'secret-pilot@example.org', title: 'Private title' }))
    await post(stand, request({ address: 'secret pilot@example.org' }))
    await stand.app.inject('/confirm?token=abcdefghijklmnopqrstuvwxyz')
    expect(stand.log.join('')).toContain('request accepted')
    const telling = /secret.?pilot|Private title|abcdefghijklmnop/
    expect(stand.log.filter((line) => telling.test(line))).toEqual([])
  })
})
