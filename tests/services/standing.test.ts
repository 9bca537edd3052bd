// Standing requests from post to silence: the first answer, the mail when something changed and the silence when nothing
// did, several changes at once, a change that is taken back, a part that is gone, and what pausing and revising do.
import type { Result } from '@ductwright/contract/result'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { eventually, openStand, post, type Stand } from './stand.js'
import {
  type Loose,
  mailFiles,
  mailsOf,
  postStanding,
  put,
  readMail,
  resultOf,
  same,
  settledOn,
  standingOf,
  stands,
} from './standing-stand.js'

// Sweeps are computed one after another here, and other suites take their share of the machine.
vi.setConfig({ testTimeout: 240_000 })

let stand: Stand

beforeAll(async () => {
  stand = await openStand({ worker: {} })
})

afterAll(() => stand.close())

/** The catalogue as it was, and no standing request left that would run on every change after it. */
async function original() {
  const { standing_requests } = (await stand.app.inject('/v1/standing-requests?limit=100')).json<{
    standing_requests: { id: string }[]
  }>()
  for (const { id } of standing_requests)
    await stand.app.inject({ method: 'DELETE', url: `/v1/standing-requests/${id}` })
  return put(stand, same)
}

/** The parts of the setup ranked first. */
async function firstParts(id: string): Promise<Result['front'][number]> {
  const { told } = await standingOf(stand, id)
  return (await resultOf(stand, told ?? '')).front[0] ?? expect.unreachable()
}

const dearer = (packId: string, by: number) => (catalogue: Loose) => ({
  ...catalogue,
  packs: catalogue.packs.map((pack) => (pack.part.id === packId ? { ...pack, price: pack.price + by } : pack)),
})

const withoutEsc = (escId: string) => (catalogue: Loose) => ({
  ...catalogue,
  escs: catalogue.escs.filter((esc) => esc.part.id !== escId),
})

const without = (packId: string) => (catalogue: Loose) => ({
  ...catalogue,
  packs: catalogue.packs.filter((pack) => pack.part.id !== packId),
})

describe('a standing request', () => {
  it('is answered once, like any request, and mails its first answer', async () => {
    const { version } = await original()
    const id = await stands(stand)
    const status = await settledOn(stand, id, version)
    expect(status).toMatchObject({ state: 'active', revision: 1, runs: [{ reason: 'first', state: 'answered' }] })
    const mails = await mailsOf(stand, id)
    expect(mails).toMatchObject([{ kind: 'answer', state: 'written' }])
    const mail = await readMail(stand, mails[0]?.id ?? '')
    expect(mail.messageId).toBe(mails[0]?.message_id)
    expect(mail.headers.get('list')).toMatchObject({
      unsubscribe: { url: expect.stringMatching(/\/unsubscribe\?token=/) },
    })
    expect(mail.headerLines.find(({ key }) => key === 'list-unsubscribe-post')?.line).toMatch(
      /^List-Unsubscribe-Post: List-Unsubscribe=One-Click$/,
    )
    expect(await stand.app.inject(`/v1/requests/${status.told}/mails`).then((reply) => reply.json())).toEqual({ mails })
  })

  it('mails what changed and why when a part of the answer became dearer, and then is silent again', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'dearer@example.org' })
    await settledOn(stand, id, version)
    const first = await firstParts(id)
    const changed = await put(stand, dearer(first.setup.pack, 40))
    const status = await settledOn(stand, id, changed.version)
    expect(status.runs).toMatchObject([{ reason: 'catalogue', catalogue: changed.version }, { reason: 'first' }])
    const mails = await mailsOf(stand, id)
    expect(mails.map((mail) => mail.kind)).toEqual(['change', 'answer'])
    const { text = '', html, subject } = await readMail(stand, mails[0]?.id ?? '')
    expect(subject).toMatch(/^Changed: /)
    const flowing = text.replace(/\s+/g, ' ')
    expect(flowing).toContain('WHAT CHANGED')
    const { name = '' } = stand.catalogue.packs.find((pack) => pack.part.id === first.setup.pack) ?? {}
    expect(flowing).toContain(`What did it: ${name} is 40 ${stand.catalogue.currency} dearer`)
    expect(String(html)).toContain('until now')
    // The same catalogue once more, and a part nobody lists: no mail.
    const again = await put(stand, (catalogue) => ({ ...catalogue, name: 'Under another name' }), changed)
    await settledOn(stand, id, again.version)
    expect(await mailsOf(stand, id)).toHaveLength(2)
  })

  it('is silent when rows are permuted and a part that something beats is added (same meaning, no mail)', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'permuted@example.org' })
    const { told } = await settledOn(stand, id, version)
    const worse = await put(stand, (catalogue) => ({
      ...catalogue,
      fans: catalogue.fans.toReversed(),
      packs: [
        ...catalogue.packs.toReversed(),
        ...catalogue.packs.slice(0, 1).map((pack) => ({
          ...pack,
          name: 'Worse in everything',
          price: pack.price + 500,
          part: { ...pack.part, id: 'pack-worse', mass: pack.part.mass * 1.2 },
        })),
      ],
    }))
    expect(worse.version).not.toBe(version)
    const status = await settledOn(stand, id, worse.version)
    expect(status.runs).toHaveLength(2)
    const hashes = await Promise.all(
      status.runs.map(async ({ request }) => (await resultOf(stand, request)).answer_hash),
    )
    expect(new Set(hashes).size).toBe(1)
    expect(status.told).toBe(told)
    expect(await mailsOf(stand, id)).toHaveLength(1)
  })

  it('settles five changes into one run on the last of them, and says nothing of a change that was taken back', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'settling@example.org' })
    await settledOn(stand, id, version)
    const { setup } = await firstParts(id)
    let last = ''
    for (const by of [10, 20, 30, 40, 50]) {
      last = (await put(stand, dearer(setup.pack, by))).version
      await eventually(async () => (await standingOf(stand, id)).settling)
    }
    expect((await settledOn(stand, id, last)).runs).toMatchObject([
      { reason: 'catalogue', catalogue: last },
      { reason: 'first' },
    ])
    expect(await mailsOf(stand, id)).toHaveLength(2)
    await put(stand, same)
    await eventually(async () => (await standingOf(stand, id)).settling)
    await put(stand, dearer(setup.pack, 50))
    const back = await eventually(async () => {
      const status = await standingOf(stand, id)
      return !status.settling && status
    })
    expect(back).toMatchObject({ running: null, answered: { catalogue: last } })
    expect(back.runs).toHaveLength(2)
    expect(await mailsOf(stand, id)).toHaveLength(2)
  })

  it('says once that it can no longer be answered, and the answer again when it can', async () => {
    const { version } = await original()
    const pack = stand.catalogue.packs[0]?.part.id ?? ''
    const id = await stands(stand, { address: 'required@example.org', required: [pack] })
    await settledOn(stand, id, version)
    const gone = await put(stand, without(pack))
    const status = await settledOn(stand, id, gone.version)
    expect(status.last_cause).toContain(pack)
    expect((await mailsOf(stand, id)).map((mail) => mail.kind)).toEqual(['trouble', 'answer'])
    const { text = '' } = await readMail(stand, (await mailsOf(stand, id))[0]?.id ?? '')
    expect(text.replace(/\s+/g, ' ')).toContain('can no longer be answered')
    await put(stand, same)
    await settledOn(stand, id, version)
    expect((await mailsOf(stand, id)).map((mail) => mail.kind)).toEqual(['answer', 'trouble', 'answer'])
  })

  it('names what stands in for a part that is gone, with the loss', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'gone@example.org' })
    await settledOn(stand, id, version)
    const { setup } = await firstParts(id)
    const { name = '' } = stand.catalogue.escs.find((esc) => esc.part.id === setup.esc) ?? {}
    const gone = await put(stand, withoutEsc(setup.esc))
    await settledOn(stand, id, gone.version)
    const { text = '' } = await readMail(stand, (await mailsOf(stand, id))[0]?.id ?? '')
    const flowing = text.replace(/\s+/g, ' ')
    expect(flowing).toContain('GONE, AND WHAT STANDS IN')
    expect(flowing).toContain(`gone: ${name}`)
    expect(flowing).toMatch(/nearest now is .*(slower|faster|dearer|cheaper|shorter|longer|reserve|no difference)/)
  })

  it('does not run while paused, and when resumed tells what changed meanwhile', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'paused@example.org' })
    await settledOn(stand, id, version)
    const { setup } = await firstParts(id)
    const patch = (state: string) =>
      stand.app.inject({
        method: 'PATCH',
        url: `/v1/standing-requests/${id}`,
        headers: { 'content-type': 'application/json' },
        payload: JSON.stringify({ state }),
      })
    expect((await patch('paused')).json()).toMatchObject({ state: 'paused' })
    const changed = await put(stand, dearer(setup.pack, 60))
    const other = await stands(stand, { address: 'other@example.org' })
    await settledOn(stand, other, changed.version)
    expect(await standingOf(stand, id)).toMatchObject({ answered: { catalogue: version } })
    expect((await patch('active')).json()).toMatchObject({ state: 'active' })
    expect((await settledOn(stand, id, changed.version)).runs[0]).toMatchObject({ reason: 'resumed' })
    expect((await mailsOf(stand, id)).map((mail) => mail.kind)).toEqual(['change', 'answer'])
    expect((await patch('asleep')).json()).toMatchObject({ status: 422, faults: [{ pointer: '/state' }] })
  })

  it('takes another question as a new revision, over the one that was read, and answers it at once', async () => {
    const { version } = await original()
    const id = await stands(stand, { address: 'revised@example.org' })
    await settledOn(stand, id, version)
    const revise = (tag: string, changes: Record<string, unknown>) =>
      stand.app.inject({
        method: 'PUT',
        url: `/v1/standing-requests/${id}`,
        headers: { 'content-type': 'application/json', 'if-match': tag },
        payload: JSON.stringify({ request: smallRequest(stand.catalogue, changes), every_days: 30 }),
      })
    const tag = String((await stand.app.inject(`/v1/standing-requests/${id}`)).headers['etag'])
    const next = { address: 'revised@example.org', target: { speed_km_h: 190 } }
    const revised = await revise(tag, next)
    expect([revised.statusCode, revised.headers['etag']]).toEqual([200, '"revision-2"'])
    expect((await revise(tag, next)).json()).toMatchObject({ status: 412, type: '/problems#changed-meanwhile' })
    const status = await eventually(async () => {
      const now = await settledOn(stand, id, version)
      return now.answered?.revision === 2 && now
    })
    expect(status.runs[0]).toMatchObject({ reason: 'revision', state: 'answered' })
    expect((await mailsOf(stand, id)).map((mail) => mail.kind)).toEqual(['answer', 'answer'])
    expect(await standingOf(stand, id)).toMatchObject({ every_days: 30, next_run: expect.any(String) as string })
  })

  it('is refused without an address, and judged like any request', async () => {
    const none = await postStanding(stand, { address: null })
    expect(none.json()).toMatchObject({ status: 422, faults: [{ pointer: '/request/address', rule: 'required' }] })
    const wrong = await postStanding(stand, { required: ['pack-nobody-has'] })
    expect(wrong.json()).toMatchObject({ status: 422, type: '/problems#invalid-request' })
    const key = { 'idempotency-key': 'one-standing-request' }
    const [one, two] = [await postStanding(stand, {}, key), await postStanding(stand, {}, key)]
    expect(two.json<{ id: string }>().id).toBe(one.json<{ id: string }>().id)
    expect((await postStanding(stand, { title: 'Another' }, key)).json()).toMatchObject({
      type: '/problems#key-reused',
    })
  })

  it('is deleted with its address; only the id says that it was', async () => {
    const { version } = await original()
    const address = 'deleted@example.org'
    const id = await stands(stand, { address })
    const { told } = await settledOn(stand, id, version)
    const reply = await stand.app.inject({ method: 'DELETE', url: `/v1/standing-requests/${id}` })
    expect(reply.statusCode).toBe(204)
    expect((await stand.app.inject(`/v1/standing-requests/${id}`)).json()).toMatchObject({ type: '/problems#deleted' })
    expect((await stand.app.inject(`/v1/requests/${told}`)).statusCode).toBe(404)
    const { rows } = await stand.records.pool.query(
      "select 'x' from ductwright.requests r where strpos(r::text, $1) > 0 union all select 'x' from ductwright.outbox o where strpos(o::text, $1) > 0 union all select 'x' from ductwright.answers a where strpos(a::text, $1) > 0 union all select 'x' from ductwright.standing_requests s where strpos(s::text, $1) > 0",
      [address],
    )
    expect(rows).toEqual([])
    expect(stand.log.join('\n')).not.toContain(address)
  })

  it('is listed without its address', async () => {
    await original()
    for (const n of [1, 2, 3]) await stands(stand, { address: `listed-${n}@example.org` })
    const reply = await stand.app.inject('/v1/standing-requests?limit=2')
    const { standing_requests, next } = reply.json<{ standing_requests: unknown[]; next: string }>()
    expect(standing_requests).toHaveLength(2)
    expect(reply.body).not.toContain('@example.org')
    expect((await stand.app.inject(`/v1/standing-requests?after=${next}`)).statusCode).toBe(200)
    expect((await stand.app.inject('/v1/standing-requests?after=rubbish')).statusCode).toBe(400)
    expect((await mailFiles(stand)).length).toBeGreaterThan(0)
    const missing = await post(stand, {}, {}, '/v1/standing-requests/nobody')
    expect(missing.statusCode).toBe(404)
  })
})
