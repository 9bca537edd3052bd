// Shards: any number of them, merged in any order or grouping, give the front of the whole; the shortcuts of a sweep
// change nothing; and every combination is counted once.
import { evaluateShard, type ShardFront, SweepCancelled } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { estimateSweep } from '@ductwright/pipeline/shards'
import { describe, expect, it } from 'vitest'
import { quiet, randomSweep } from './random-sweeps.js'

const SEEDS = Array.from({ length: 200 }, (_, i) => i + 1)
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

function frontsOf({ problem, plan }: Prepared, shards: number): ShardFront[] {
  return splitPlan(plan, shards).map((range) => evaluateShard(problem, plan, range, quiet))
}

/** What may not depend on how the work was cut; `evaluated` is work, not answer. */
function meaning({ evaluated: _, ...front }: ShardFront) {
  return front
}

describe('200 seeded random sweeps', () => {
  it('shortcuts change neither front, nor nearest, nor the number of feasible setups; every combination is counted', () => {
    let feasible = 0
    let withFront = 0
    for (const seed of SEEDS) {
      const { problem, plan } = randomSweep(seed).prepared
      const [range] = splitPlan(plan, 1)
      if (range === undefined) throw new Error('no shard')
      const quick = evaluateShard(problem, plan, range, quiet)
      const full = evaluateShard(problem, plan, range, quiet, true)
      expect({ seed, members: quick.members }).toEqual({ seed, members: full.members })
      expect({ seed, nearest: quick.nearest }).toEqual({ seed, nearest: full.nearest })
      expect(quick.feasible).toBe(full.feasible)
      expect(quick.evaluated).toBeLessThanOrEqual(full.evaluated)
      for (const front of [quick, full]) expect(sum(front.removed) + front.feasible).toBe(plan.compatible)
      expect(sum(plan.misfits) + plan.compatible).toBe(plan.raw)
      feasible += full.feasible
      if (full.members.length > 0) withFront++
    }
    // The sample must mean something: many sweeps with an answer, some without.
    expect(withFront).toBeGreaterThan(60)
    expect(withFront).toBeLessThan(195)
    expect(feasible).toBeGreaterThan(10_000)
  })
})

const rich = SEEDS.slice(0, 40)
  .map((seed) => randomSweep(seed).prepared)
  .filter((prepared) => prepared.plan.nodes.length > 5)
  .slice(0, 5)

describe('shards', () => {
  it('any number from 1 to 64 gives the same front, nearest setups and counts', () => {
    expect(rich.length).toBe(5)
    for (const prepared of rich) {
      const target = prepared.request.target.speed
      const whole = meaning(mergeFronts(frontsOf(prepared, 1), target))
      for (const count of [2, 3, 7, 16, 64]) {
        const fronts = frontsOf(prepared, count)
        expect(fronts.length).toBeLessThanOrEqual(count)
        const merged = meaning(mergeFronts(fronts, target))
        expect(merged.members).toEqual(whole.members)
        expect(merged.nearest).toEqual(whole.nearest)
        // How much was worked through depends on which near misses a shard had found before.
        expect({ ...merged, evaluated: 0 }).toEqual({ ...whole, evaluated: 0 })
      }
    }
  })

  it('merging is commutative, associative and idempotent over distinct shards', () => {
    for (const prepared of rich) {
      const target = prepared.request.target.speed
      const fronts = frontsOf(prepared, 6)
      const all = mergeFronts(fronts, target)
      expect(mergeFronts([...fronts].reverse(), target)).toEqual(all)
      const [first, ...rest] = fronts
      if (first === undefined) throw new Error('no shard')
      expect(mergeFronts([mergeFronts(rest, target), first], target)).toEqual(all)
      expect(
        mergeFronts([first, mergeFronts(rest.slice(0, 2), target), mergeFronts(rest.slice(2), target)], target),
      ).toEqual(all)
      expect(mergeFronts([all], target)).toEqual(all)
      const twice = mergeFronts([all, all], target)
      expect(twice.members).toEqual(all.members)
      expect(twice.nearest).toEqual(all.nearest)
    }
  })

  it('cover every node once with about equal work, and survive a round trip through JSON', () => {
    for (const prepared of rich) {
      const ranges = splitPlan(prepared.plan, 4)
      expect(ranges[0]?.from).toBe(0)
      expect(ranges.at(-1)?.to).toBe(prepared.plan.nodes.length)
      ranges.slice(1).forEach((range, i) => {
        expect(range.from).toBe(ranges[i]?.to)
      })
      expect(sum(ranges.map(({ work }) => work)) * prepared.problem.candidates.duties.length).toBe(
        prepared.plan.compatible,
      )
      const fronts = frontsOf(prepared, 4)
      const sent = JSON.parse(JSON.stringify(fronts)) as ShardFront[]
      expect(mergeFronts(sent, 90)).toEqual(mergeFronts(fronts, 90))
    }
  })

  it('refuse a count that is no whole number above 0', () => {
    const plan = rich[0]?.plan
    if (plan === undefined) throw new Error('no plan')
    for (const count of [0, -1, 1.5, Number.NaN]) {
      expect(() => splitPlan(plan, count)).toThrow(`shards must be a whole number above 0, got ${count}`)
    }
  })

  it('stop when cancelled, and say how far they are', () => {
    const prepared = rich[0]
    if (prepared === undefined) throw new Error('no sweep')
    const { problem, plan } = prepared
    const range = { from: 0, to: plan.nodes.length, work: sum(plan.unitsOfNode) }
    expect(() => evaluateShard(problem, plan, range, { progress() {}, cancelled: () => true })).toThrow(SweepCancelled)
    const shares: number[] = []
    evaluateShard(problem, plan, range, { progress: (share) => void shares.push(share), cancelled: () => false })
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    expect(shares.at(-1)).toBe(1)
    expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true)
  })

  it('the estimate names raw and compatible combinations', () => {
    for (const prepared of rich) {
      const { combinations, compatible, seconds } = estimateSweep(prepared)
      expect([combinations, compatible]).toEqual([prepared.plan.raw, prepared.plan.compatible])
      expect(seconds).toBeGreaterThan(0)
    }
  })
})
