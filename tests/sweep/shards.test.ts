// Shards: any number of them, merged in any order or grouping, give the front of the whole, and every combination is
// settled once.
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import { evaluateShard, type ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { estimateSweep } from '@ductwright/pipeline/shards'
import { describe, expect, it } from 'vitest'
import { quiet, randomSweep } from './random-sweeps.js'

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

function frontsOf({ problem, plan }: Prepared, shards: number): ShardFront[] {
  return splitPlan(plan, shards).map((range) => evaluateShard(problem, plan, range, quiet))
}

const rich = Array.from({ length: 40 }, (_, i) => i + 1)
  .map((seed) => randomSweep(seed).prepared)
  .filter((prepared) => prepared.plan.nodes.length > 5)
  .slice(0, 5)

describe('shards', () => {
  it('any number from 1 to 64 gives the same front, and settles every combination', () => {
    expect(rich.length).toBe(5)
    for (const prepared of rich) {
      const { plan } = prepared
      const whole = mergeFronts(frontsOf(prepared, 1))
      for (const count of [2, 3, 7, 16, 64]) {
        const fronts = frontsOf(prepared, count)
        expect(fronts.length).toBeLessThanOrEqual(count)
        const merged = mergeFronts(fronts)
        expect(merged.members).toEqual(whole.members)
        expect(sum(merged.removed) + merged.dominated + merged.feasible).toBe(plan.compatible)
      }
    }
  })

  it('merging is commutative, associative and idempotent over distinct shards', () => {
    for (const prepared of rich) {
      const fronts = frontsOf(prepared, 6)
      const all = mergeFronts(fronts)
      expect(mergeFronts([...fronts].reverse())).toEqual(all)
      const [first, ...rest] = fronts
      if (first === undefined) throw new Error('no shard')
      expect(mergeFronts([mergeFronts(rest), first])).toEqual(all)
      expect(mergeFronts([first, mergeFronts(rest.slice(0, 2)), mergeFronts(rest.slice(2))])).toEqual(all)
      expect(mergeFronts([all])).toEqual(all)
      const twice = mergeFronts([all, all])
      expect(twice.members).toEqual(all.members)
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
      expect(mergeFronts(sent)).toEqual(mergeFronts(fronts))
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
