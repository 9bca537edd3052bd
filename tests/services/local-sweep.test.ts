// A sweep on compute threads without any store: the answer does not depend on how it was cut, work can be stopped, and a
// fault of the request keeps its fields on the way through a thread.
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { InputError } from '@ductwright/contract/fault'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Receipt, Result } from '@ductwright/contract/result'
import { receiptSchema } from '@ductwright/contract/result-schema'
import { runSweepLocally } from '@ductwright/worker/local-sweep'
import { ShardPool, type SweepInputs, sweepInputs } from '@ductwright/worker/shard-pool'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { smallCatalogue, smallRequest } from './small-catalogue.js'

let inputs: SweepInputs
let large: SweepInputs
let unknown: SweepInputs
let pool: ShardPool

beforeAll(async () => {
  const catalogue = await smallCatalogue()
  const content = catalogueContent(catalogue)
  inputs = sweepInputs(parseRequest(smallRequest(catalogue)), content)
  const everything = {
    sweep: { duty_step: 0.005, duty_min: 0.3, nozzle_ratios: [0.8, 0.82, 0.84, 0.86, 0.88, 0.9, 0.92] },
  }
  large = sweepInputs(parseRequest(smallRequest(catalogue, everything)), content)
  unknown = sweepInputs(parseRequest(smallRequest(catalogue, { required: ['fan-nobody-has'] })), content)
  pool = new ShardPool({ threads: 2 })
})

afterAll(() => pool.close())

describe('a sweep in this process', () => {
  it('finds a front, and tells its progress up to the end', async () => {
    const shares: number[] = []
    const sweep = await runSweepLocally(inputs, { threads: 2, onProgress: (share) => shares.push(share) })
    const result = JSON.parse(sweep.result) as Result
    expect(result.front.length).toBeGreaterThan(0)
    expect(result.answer_hash).toBe(sweep.answerHash)
    expect(shares.at(-1)).toBeCloseTo(1, 12)
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    expect(sweep.receipt.shards).toBe(sweep.fronts.length)
    expect(sweep.receipt.evaluated).toBeGreaterThan(0)
    expect(sweep.receipt.evaluated).toBeLessThanOrEqual(result.counts.compatible)
    expect(sweep.receipt.boxes).toBeGreaterThan(0)
  })

  it.each([
    ['within reach', { target: { speed_km_h: 170 } }, 'reached'],
    ['with some setups listed that fall short', {}, 'short'],
    ['out of reach of a small budget', { budget: 60 }, 'none'],
    ['out of reach of everything', { target: { speed_km_h: 600 } }, 'none'],
    [
      'of the whole front',
      { sweep: { duties: [0.7, 0.85, 1], nozzle_ratios: [0.84, 0.9], whole_front: true } },
      'short',
    ],
    ['of parts that do not go together', { required: apart }, 'none'],
  ])(
    'gives the same bytes when every combination is worked through: a question %s',
    async (_what, changes, outcome) => {
      const asked = await inputsOf(changes)
      const searched = await runSweepLocally(asked, { threads: 2 })
      const worked = await runSweepLocally(asked, { threads: 2, exhaustive: true })
      expect(worked.result).toBe(searched.result)
      const result = JSON.parse(searched.result) as Result
      expect(result.outcome).toBe(outcome)
      for (const { receipt } of [searched, worked]) {
        expect(receiptSchema.safeParse(receipt).success).toBe(true)
        expect(inAll(result, receipt)).toBe(result.counts.raw)
        expect(receipt.taken_over).toBeNull()
      }
      expect(worked.receipt.dominated + worked.receipt.boxes).toBe(0)
      expect(worked.receipt.removed.every(({ in_groups }) => in_groups === 0)).toBe(true)
      for (const { in_groups, count } of searched.receipt.removed) expect(in_groups).toBeLessThanOrEqual(count)
    },
  )

  it('gives the same bytes on any number of threads, and in whatever order the fronts come', async () => {
    const whole = await answerOf(pool, 1)
    const lonely = new ShardPool({ threads: 1 })
    try {
      for (const turn of [2, 3]) expect(await answerOf(lonely, turn)).toBe(whole)
    } finally {
      await lonely.close()
    }
  })

  it('gives the same bytes when the fronts went through JSON in between, as in the store', async () => {
    const { ranges } = await pool.plan(inputs)
    const fronts = await Promise.all(ranges.map((range) => pool.evaluate(inputs, range)))
    const direct = await pool.answer(inputs, fronts)
    const stored = await pool.answer(inputs, JSON.parse(JSON.stringify(fronts)))
    expect(stored.result).toBe(direct.result)
  })
})

describe('a sweep that is too large', () => {
  it('is refused with the estimate, the limit and the cure, and nothing is computed', async () => {
    let shares = 0
    const refused = runSweepLocally(large, { threads: 1, secondsMax: 0.001, onProgress: () => shares++ })
    await expect(refused).rejects.toMatchObject({
      faults: [
        expect.objectContaining({
          pointer: '/sweep',
          rule: 'too-large',
          message: expect.stringMatching(
            /would take about \d+ s on one thread; at most 0\.001 s are accepted\. Name fewer/,
          ),
        }),
      ],
    })
    expect(shares).toBe(0)
  })
})

describe('a compute thread', () => {
  it('stops when told, and works on afterwards', async () => {
    const stop = new AbortController()
    const { ranges } = await pool.plan(large)
    const range = ranges[0]
    if (range === undefined) throw new Error('a plan has at least one range')
    const work = pool.evaluate(large, range, { signal: stop.signal, onProgress: () => stop.abort(new Error('enough')) })
    await expect(work).rejects.toThrow('enough')
    expect((await pool.answer(inputs, [])).answerHash).toMatch(/^[0-9a-f]{64}$/)
  })

  it('stops looking for the nearest setups when told', async () => {
    const stop = new AbortController()
    const work = pool.answer(large, [], stop.signal)
    setTimeout(() => stop.abort(new Error('enough')), 20)
    await expect(work).rejects.toThrow('enough')
    expect((await pool.answer(inputs, [])).answerHash).toMatch(/^[0-9a-f]{64}$/)
  })

  it('hands back what is wrong with a request field by field', async () => {
    const refused = pool.plan(unknown)
    await expect(refused).rejects.toBeInstanceOf(InputError)
    await expect(refused).rejects.toMatchObject({ faults: [expect.objectContaining({ pointer: '/required/0' })] })
  })

  it('that runs out of memory fails its task alone and is replaced', async () => {
    const tight = new ShardPool({ threads: 1, heapMb: 16 })
    const swollen = Array.from({ length: 300_000 }, (_, number) => ({ number, text: `member ${number}` }))
    try {
      await expect(tight.answer(inputs, swollen as never)).rejects.toThrow(/memory/i)
      expect((await tight.plan(inputs)).ranges.length).toBeGreaterThan(0)
    } finally {
      await tight.close()
    }
  })
})

/** A motor that is too fat for the fan. */
const apart = ['fan-corune-90-8', 'motor-isarn-3874-1040']

async function inputsOf(changes: Record<string, unknown>): Promise<SweepInputs> {
  const catalogue = await smallCatalogue()
  return sweepInputs(parseRequest(smallRequest(catalogue, changes)), catalogueContent(catalogue))
}

/** Every combination is in one count. */
function inAll({ counts }: Result, { removed, dominated, feasible }: Receipt): number {
  return [...counts.misfits, ...removed].reduce((sum, { count }) => sum + count, dominated + feasible)
}

async function answerOf(threads: ShardPool, turn: number): Promise<string> {
  const { ranges } = await threads.plan(inputs)
  const fronts = await Promise.all(ranges.map((range) => threads.evaluate(inputs, range)))
  const rotated = [...fronts.slice(turn % fronts.length), ...fronts.slice(0, turn % fronts.length)].reverse()
  return (await threads.answer(inputs, rotated)).result
}
