// The whole way of a request through real records, the real queue and compute threads to its mail, and what happens when
// something on the way was lost, damaged, held by the dead or told to stop.
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Receipt, Result } from '@ductwright/contract/result'
import type { ShardLease } from '@ductwright/records/records'
import { renderText } from '@ductwright/report/text'
import { runSweepLocally } from '@ductwright/worker/local-sweep'
import { ShardPool, sweepInputs } from '@ductwright/worker/shard-pool'
import { writeRange, writeShardRecord } from '@ductwright/worker/shard-record'
import { simpleParser } from 'mailparser'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { smallRequest } from './small-catalogue.js'
import { ended, eventually, openStand, post, type Stand, statusOf } from './stand.js'

let stand: Stand
/** Rows made before the worker starts, as a crash would leave them. */
const left = { unplanned: '', planned: '', damaged: '', held: '', orphaned: '', crashing: '', worn: '' }
/** Of the worker that holds a shard and is thought dead. */
let sleeper: ShardLease

beforeAll(async () => {
  stand = await openStand()
  left.unplanned = await accept('Stored but never enqueued')
  await withoutJob(left.unplanned)
  left.planned = await accept('Planned but no shard enqueued')
  await planned(left.planned)
  left.damaged = await accept('One stored front was damaged')
  await damaged(left.damaged)
  left.held = await accept('One shard is held by a dead worker')
  const held = await planned(left.held)
  sleeper = (await stand.records.leaseShard(held, 0, 2000)) ?? expect.unreachable()
  left.orphaned = await accept('All shards done, and a merge that waits for a job that is gone')
  await orphaned(left.orphaned)
  left.crashing = await accept('One shard always crashes')
  await stand.records.planSweep(await withoutJob(left.crashing), [{ range: 'no range at all', work: 1 }])
  left.worn = await accept('One shard never finished')
  const worn = await planned(left.worn)
  for (let start = 0; start < 5; start += 1) {
    await stand.records.releaseShard((await stand.records.leaseShard(worn, 0, 1000)) ?? expect.unreachable(), 'died')
  }
  await stand.startWorker()
})

afterAll(() => stand.close())

async function accept(title: string, changes: Record<string, unknown> = {}): Promise<string> {
  const reply = await post(stand, smallRequest(stand.catalogue, { title, ...changes }))
  expect(reply.statusCode).toBe(202)
  return reply.json<{ id: string }>().id
}

async function withoutJob(id: string): Promise<string> {
  const sweepId = (await stand.records.getRequest(id))?.sweepId ?? ''
  await stand.jobs.cancelSweep(sweepId)
  return sweepId
}

async function planned(id: string): Promise<string> {
  const sweepId = await withoutJob(id)
  const { ranges } = await withPool(async (pool) => pool.plan(await inputsOf(id)))
  await stand.records.planSweep(
    sweepId,
    ranges.map((range) => ({ range: writeRange(range), work: range.work })),
  )
  return sweepId
}

async function orphaned(id: string): Promise<void> {
  const sweepId = await planned(id)
  for (const index of [0, 1, 2]) await finishShard(id, sweepId, index)
  await stand.jobs.enqueueShards(sweepId, [0])
  await stand.records.pool.query('delete from bullmq.job where id = $1', [`shard-${sweepId}-0`])
  expect(await stand.jobs.isLive({ kind: 'merge-sweep', sweepId })).toBe(true)
}

async function finishShard(id: string, sweepId: string, index: number): Promise<void> {
  const lease = (await stand.records.leaseShard(sweepId, index, 10_000)) ?? expect.unreachable()
  const inputs = await inputsOf(id)
  const found = await withPool((pool) => pool.evaluate(inputs, JSON.parse(lease.range)))
  expect(await stand.records.finishShard(lease, writeShardRecord({ ...found, seconds: 1 }))).toBe(true)
}

async function damaged(id: string): Promise<void> {
  const sweepId = await planned(id)
  await finishShard(id, sweepId, 0)
  await stand.records.pool.query('update ductwright.shards set front = $1 where sweep_id = $2 and index = 0', [
    '{"front":{}}',
    sweepId,
  ])
}

async function inputsOf(id: string) {
  const request = (await stand.records.getRequest(id)) ?? expect.unreachable()
  return sweepInputs(parseRequest(JSON.parse(request.body)), catalogueContent(stand.catalogue))
}

async function withPool<Value>(work: (pool: ShardPool) => Promise<Value>): Promise<Value> {
  const pool = new ShardPool({ threads: 1 })
  try {
    return await work(pool)
  } finally {
    await pool.close()
  }
}

const read = (id: string, what: string) => stand.app.inject(`/v1/requests/${id}/${what}`)

const written = (id: string) =>
  eventually(async () => {
    const { mails } = await statusOf(stand, id)
    return mails.length > 0 && mails.every((mail) => mail.state === 'written') && mails
  })

/** What the same request answers without any store. */
async function expected(id: string): Promise<string> {
  return (await runSweepLocally(await inputsOf(id), { threads: 1 })).result
}

describe('a request', () => {
  it('becomes an answer, the same bytes as without any store, and one mail that is that answer', async () => {
    const id = await accept('The whole way')
    expect(await ended(stand, id)).toMatchObject({ state: 'answered', progress: 1, cause: null })
    const reply = await read(id, 'result')
    expect(reply.body).toBe(await expected(id))
    const result = reply.json<Result>()
    expect(reply.headers['content-type']).toBe('application/json')
    expect(reply.headers['etag']).toBe(`"${result.answer_hash}"`)
    const again = { url: `/v1/requests/${id}/result`, headers: { 'if-none-match': String(reply.headers['etag']) } }
    expect((await stand.app.inject(again)).statusCode).toBe(304)

    const mails = await written(id)
    expect(mails).toMatchObject([{ kind: 'answer', state: 'written', attempts: 1, last_error: null }])
    const mail = await simpleParser(await readFile(join(stand.mailFolder, `${mails[0]?.id}.eml`)))
    expect(mail.messageId).toBe(`<${mails[0]?.id}@example.org>`)
    expect([mail.from?.value[0]?.address, mail.to]).toMatchObject(['jets@example.org', { text: 'pilot@example.org' }])
    const json = mail.attachments.find((attachment) => attachment.contentType === 'application/json')
    expect(json?.content.toString('utf8')).toBe(reply.body)
    expect(await readdir(stand.mailFolder)).not.toContainEqual(expect.stringMatching(/part$/))
  })

  it('can be read as table, as text and with the receipt of the work', async () => {
    const id = await accept('In every form')
    await ended(stand, id)
    const result = (await read(id, 'result')).json<Result>()
    const table = await read(id, 'result.csv')
    expect(table.headers['content-type']).toBe('text/csv; charset=utf-8')
    expect(table.body.trim().split(/\r?\n/).length).toBeGreaterThan(result.front.length)
    const text = await read(id, 'result.txt')
    expect([text.headers['content-type'], text.body]).toEqual([
      'text/plain; charset=utf-8',
      expect.stringContaining('In every form'),
    ])
    const receipt = (await read(id, 'receipt')).json<Receipt>()
    expect(receipt.shards).toBeGreaterThan(0)
    expect(receipt.evaluated).toBeGreaterThan(0)
    expect(receipt.removed.some(({ in_groups }) => in_groups > 0)).toBe(true)
    expect(receipt.taken_over).toBeNull()
    expect(text.body).toBe(renderText(result, { receipt }))
    expect(receipt.stages.map((stage) => stage.stage)).toEqual(['evaluate', 'answer'])
    expect(
      new Set([table, text, await read(id, 'receipt'), await read(id, 'result')].map((reply) => reply.headers['etag']))
        .size,
    ).toBe(4)
  })

  it('without an address is only read back', async () => {
    const id = await accept('No mail', { address: null })
    expect(await ended(stand, id)).toMatchObject({ state: 'answered', mails: [] })
  })

  it('is followed by events up to its end', async () => {
    const id = await accept('Followed')
    const stream = await read(id, 'events')
    const last = stream.body.trim().split('\n\n').at(-1) ?? ''
    expect(last).toMatch(/^id: 21000\nevent: ended\ndata: \{"state":"answered","progress":1,"cause":null\}$/)
    const ids = [...stream.body.matchAll(/^id: (\d+)$/gm)].map((match) => Number(match[1]))
    expect(ids).toEqual([...new Set(ids)].sort((a, b) => a - b))
  })

  it('can be cancelled while it is computed, and others go on', async () => {
    const whole = await readCatalogueFolder(demoCatalogueFolder)
    await stand.records.putCatalogue(whole.version, whole.name, catalogueContent(whole))
    const nozzles = Array.from({ length: 10 }, (_, n) => 0.8 + n / 100)
    const id = await accept('Far too long', { sweep: { duty_min: 0.3, duty_step: 0.005, nozzle_ratios: nozzles } })
    await stand.records.putCatalogue(stand.catalogue.version, stand.catalogue.name, catalogueContent(stand.catalogue))
    await eventually(async () => (await statusOf(stand, id)).progress > 0)
    expect((await stand.app.inject({ method: 'DELETE', url: `/v1/requests/${id}` })).statusCode).toBe(202)
    await eventually(async () => (await stand.jobs.load()).active === 0)
    expect(await statusOf(stand, id)).toMatchObject({ state: 'cancelled', mails: [] })
    expect(await ended(stand, await accept('After it'))).toMatchObject({ state: 'answered' })
  })
})

describe('a request left behind by a crash is answered as if nothing had happened', () => {
  it.each([
    ['stored, but never enqueued', 'unplanned'],
    ['planned, but no shard enqueued', 'planned'],
    ['with a damaged front in the store', 'damaged'],
    ['with a shard held by a worker that is dead', 'held'],
    ['with a merge that waits for a job that is gone', 'orphaned'],
  ] as const)('%s', async (_name, which) => {
    const id = left[which]
    expect(await ended(stand, id)).toMatchObject({ state: 'answered', cause: null })
    expect((await read(id, 'result')).body).toBe(await expected(id))
    expect(await written(id)).toHaveLength(1)
  })
})

it('a worker that slept past its lease cannot write over what its successor found', async () => {
  await ended(stand, left.held)
  expect(await stand.records.renewShard(sleeper, 0.5, 1000)).toBe(false)
  expect(await stand.records.finishShard(sleeper, '{"front":{}}')).toBe(false)
  expect((await read(left.held, 'result')).body).toBe(await expected(left.held))
})

describe('a shard that cannot be computed ends its request with the reason', () => {
  it('when it fails at every try', async () => {
    expect(await ended(stand, left.crashing)).toMatchObject({ state: 'failed', mails: [] })
    expect((await statusOf(stand, left.crashing)).cause).toMatch(/^run-shard 0 failed: .*JSON/)
    expect((await read(left.crashing, 'result')).json()).toMatchObject({
      type: '/problems#no-answer',
      detail: expect.stringContaining('run-shard 0'),
    })
  })

  it('when it was started five times and never finished', async () => {
    expect(await ended(stand, left.worn)).toMatchObject({
      state: 'failed',
      cause: 'Shard 0 was started 5 times and never finished.',
    })
  })
})
