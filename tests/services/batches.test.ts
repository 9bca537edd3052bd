// Batches from post to summary: a list or a product of axes, judged whole, one mail when all have ended, per-item answers.
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { BatchSummary } from '@ductwright/contract/batch-summary'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { eventually, openStand, post, type Stand } from './stand.js'

// Sweeps are computed one after another here, and other suites take their share of the machine.
vi.setConfig({ testTimeout: 240_000 })

let stand: Stand

beforeAll(async () => {
  stand = await openStand({ worker: {} })
})

afterAll(() => stand.close())

interface BatchStatus {
  readonly id: string
  readonly state: string
  readonly ended_items: number
  readonly items: readonly { readonly request: string; readonly state: string; readonly title: string }[]
  readonly summary: BatchSummary | null
  readonly mail: { readonly id: string; readonly kind: string; readonly state: string } | null
}

const submit = (body: unknown, headers: Record<string, string> = {}) => post(stand, body, headers, '/v1/batches')
const read = async (id: string) => (await stand.app.inject(`/v1/batches/${id}`)).json<BatchStatus>()

const item = (changes: Record<string, unknown> = {}) => {
  const { address: _address, ...request } = smallRequest(stand.catalogue, changes)
  return request
}

const endedBatch = (id: string) =>
  eventually(async () => {
    const status = await read(id)
    return status.state === 'ended' && (status.mail === null || status.mail.state === 'written') && status
  })

describe('a batch', () => {
  it('along axes becomes every combination, one summary, one mail, and keeps the answers', async () => {
    const axes = { targets_km_h: [170, 185], budgets: [520, null] }
    const reply = await submit({ title: 'Speeds and sums', address: 'pilot@example.org', base: item(), axes })
    expect(reply.statusCode).toBe(202)
    const { id, items } = reply.json<{ id: string; items: number }>()
    expect(items).toBe(4)
    const status = await endedBatch(id)
    expect(status.items.map(({ state }) => state)).toEqual(Array(4).fill('answered'))
    const summary = status.summary ?? expect.unreachable()
    expect(summary.items.map(({ summary: of }) => [of?.target_km_h, of?.budget])).toEqual([
      [170, 520],
      [170, null],
      [185, 520],
      [185, null],
    ])
    const [staircase] = summary.staircases
    const steps = staircase?.steps ?? []
    expect(steps.length).toBeGreaterThan(0)
    for (const [at, step] of steps.entries()) {
      expect(step.cost).toBeGreaterThanOrEqual(steps[at - 1]?.cost ?? 0)
      expect(step.speed_km_h).toBeGreaterThan(steps[at - 1]?.speed_km_h ?? 0)
    }
    for (const { request } of status.items) {
      expect((await stand.app.inject(`/v1/requests/${request}/result`)).statusCode).toBe(200)
      expect((await stand.app.inject(`/v1/requests/${request}`)).json()).toMatchObject({ batch: id, mails: [] })
    }
    expect(status.mail).toMatchObject({ kind: 'batch', state: 'written' })
    const mail = await simpleParser(await readFile(join(stand.mailFolder, `${status.mail?.id}.eml`)))
    const text = (mail.text ?? '').replace(/\s+/g, ' ')
    expect(text).toContain('of 4 requests')
    expect(text).toContain('WHAT EACH SUM BUYS')
    expect(mail.attachments.map(({ filename }) => filename)).toEqual(['ductwright-batch.json'])
  })

  it('as a list tells how each item ended, an item without an answer included', async () => {
    const reply = await submit({ items: [item({ title: 'Possible' }), item({ title: 'Cancelled' })] })
    const { id } = reply.json<{ id: string }>()
    const second = (await read(id)).items[1]?.request ?? ''
    await stand.app.inject({ method: 'DELETE', url: `/v1/requests/${second}` })
    const status = await endedBatch(id)
    expect(status.mail).toBeNull()
    expect(status.summary?.items.map(({ title }) => title)).toEqual(['Possible', 'Cancelled'])
    expect(status.items[0]?.state).toBe('answered')
  })

  it('is refused whole, with every fault under its item, and nothing is stored', async () => {
    const before = (await stand.app.inject('/v1/requests?limit=100')).body
    const bad = await submit({ items: [item(), item({ target: { speed_km_h: -1 } }), item({ required: ['nobody'] })] })
    expect(bad.json()).toMatchObject({ status: 422, faults: [{ pointer: '/items/1/target/speed_km_h' }] })
    const unknown = await submit({ items: [item(), item({ required: ['nobody'] })] })
    expect(unknown.json()).toMatchObject({ status: 422, faults: [{ pointer: expect.stringMatching(/^\/items\/1\//) }] })
    const addressed = await submit({ items: [smallRequest(stand.catalogue)] })
    expect(addressed.json()).toMatchObject({ faults: [{ pointer: '/items/0/address', rule: 'exclusive' }] })
    const many = await submit({
      base: item(),
      axes: {
        targets_km_h: Array.from({ length: 20 }, (_, n) => 100 + n),
        budgets: Array.from({ length: 20 }, (_, n) => n + 1),
      },
    })
    expect(many.json()).toMatchObject({ status: 422, faults: [{ pointer: '/items', rule: 'length', value: '400' }] })
    for (const body of [
      {},
      { items: [] },
      { base: item() },
      { items: [item()], base: item(), axes: {} },
      { axes: {} },
    ]) {
      expect((await submit(body)).json()).toMatchObject({ status: 422, type: '/problems#invalid-request' })
    }
    expect((await stand.app.inject('/v1/requests?limit=100')).body).toBe(before)
  })

  it('is accepted once for a key, and removed with all its items', async () => {
    const body = { title: 'Once', address: 'batch@example.org', items: [item()] }
    const key = { 'idempotency-key': 'a-batch' }
    const [one, two] = [await submit(body, key), await submit(body, key)]
    const { id } = one.json<{ id: string }>()
    expect(two.json()).toMatchObject({ id })
    expect((await submit({ ...body, title: 'Other' }, key)).json()).toMatchObject({ type: '/problems#key-reused' })
    const { items } = await endedBatch(id)
    expect((await stand.app.inject({ method: 'DELETE', url: `/v1/batches/${id}` })).statusCode).toBe(204)
    expect((await stand.app.inject(`/v1/batches/${id}`)).statusCode).toBe(404)
    expect((await stand.app.inject(`/v1/requests/${items[0]?.request}`)).statusCode).toBe(404)
    expect((await stand.app.inject({ method: 'DELETE', url: '/v1/batches/nobody' })).statusCode).toBe(404)
  })
})
