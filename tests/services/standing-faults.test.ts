// Standing requests through faults: an exit between commit and enqueue, a catalogue that changes while a run is under way,
// and own parts over a catalogue that moves on.
import type { Result } from '@ductwright/contract/result'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { eventually, openStand, post, type Stand } from './stand.js'
import { mailsOf, put, resultOf, same, settledOn, standingOf, stands } from './standing-stand.js'

vi.setConfig({ testTimeout: 240_000 })

let stand: Stand
/** Made before a worker starts, as a crash would leave them. */
const left = { unqueued: '', pinned: '' }
let before = ''
let after = ''

beforeAll(async () => {
  stand = await openStand()
  before = (await put(stand, same)).version
  left.unqueued = await written('unqueued@example.org')
  left.pinned = await stands(stand, { address: 'pinned@example.org' })
  after = (
    await put(stand, (catalogue) => ({
      ...catalogue,
      packs: catalogue.packs.map((pack) => ({ ...pack, price: pack.price + 30 })),
    }))
  ).version
  await stand.startWorker()
})

afterAll(() => stand.close())

/** Kept and its run written, as the API and the worker do it, but the process is gone before the queue hears of it. */
async function written(address: string): Promise<string> {
  const request = smallRequest(stand.catalogue, { title: 'Never enqueued', address })
  const accepted = await stand.records.acceptStanding({
    title: 'Never enqueued',
    address,
    body: JSON.stringify(request),
    bodyHash: 'hash',
    everyDays: null,
    idempotencyKey: null,
  })
  const { id } = accepted.outcome === 'mismatch' ? expect.unreachable() : accepted.standing
  const options = { quietMs: 0, longestMs: 0, requireConfirmed: false }
  await stand.records.advanceStanding(id, { catalogue: before, model: MODEL_VERSION }, options)
  return id
}

describe('a run', () => {
  it('that was written but never enqueued is found and answered, once', async () => {
    const status = await settledOn(stand, left.unqueued, after)
    expect(status.runs.map(({ reason, catalogue, state }) => [reason, catalogue, state])).toEqual([
      ['catalogue', after, 'answered'],
      ['first', before, 'answered'],
    ])
    expect((await mailsOf(stand, left.unqueued)).map(({ kind }) => kind)).toEqual(['change', 'answer'])
  })

  it('stays pinned to its version when the catalogue changes under it, and one on the new version follows', async () => {
    const { runs } = await settledOn(stand, left.pinned, after)
    const results = await Promise.all(runs.map(({ request }) => resultOf(stand, request)))
    expect(results.map((result: Result) => result.catalogue.version)).toEqual([after, before])
  })
})

describe('own parts', () => {
  it('are laid over every later version of the catalogue, and a change of them is a change like any other', async () => {
    const shared = await put(stand, same)
    const like = shared.fans[0]?.part.id
    const rows = (price: number) => ({ rows: { fans: [{ like, id: 'own-fan', name: 'From my shelf', price }] } })
    const kept = await post(stand, { name: 'Shelf', ...rows(20) }, {}, '/v1/own-parts')
    expect(kept.statusCode).toBe(201)
    const { id: own } = kept.json<{ id: string }>()
    const id = await stands(stand, { address: 'own@example.org', own_parts: own })
    const first = await eventually(async () => {
      const status = await standingOf(stand, id)
      return status.answered !== null && status.running === null && status
    })
    expect(first.answered?.catalogue).not.toBe(shared.version)
    expect((await stand.app.inject(`/v1/standing-requests/${id}`)).body).not.toContain(own)
    const tag = String((await stand.app.inject(`/v1/own-parts/${own}`)).headers['etag'])
    const changed = await stand.app.inject({
      method: 'PUT',
      url: `/v1/own-parts/${own}`,
      headers: { 'content-type': 'application/json', 'if-match': tag },
      payload: JSON.stringify({ name: 'Shelf', ...rows(30) }),
    })
    expect(changed.statusCode).toBe(200)
    const second = await eventually(async () => {
      const status = await standingOf(stand, id)
      return status.answered?.catalogue !== first.answered?.catalogue && status
    })
    expect(second.runs.map(({ reason }) => reason)).toEqual(['catalogue', 'first'])
    await stand.app.inject({ method: 'DELETE', url: `/v1/own-parts/${own}` })
    await eventually(async () => (await standingOf(stand, id)).last_cause?.includes('no longer kept'))
    const unknown = await post(stand, smallRequest(stand.catalogue, { own_parts: own }))
    expect(unknown.json()).toMatchObject({
      status: 422,
      faults: [{ pointer: '/own_parts', rule: 'unknown-own-parts' }],
    })
  })
})
