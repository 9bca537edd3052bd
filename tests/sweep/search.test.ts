// The search against working every combination through: the same members, id for id, and the same nearest setups, on random
// sweeps with ties, degenerate parts, rounded values and unrounded ones; and every combination accounted for.
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { evaluateShard, workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { type NearMiss, NearMisses } from '@ductwright/models/sweep/near-misses'
import { flyPilot } from '@ductwright/models/sweep/pilot'
import { partsOf } from '@ductwright/models/sweep/plan'
import { searchNearest } from '@ductwright/models/sweep/search-nearest'
import { splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { FIRST_SEED, searchCases } from './config.js'
import { quiet, randomSweep } from './random-sweeps.js'

const still = { settled() {}, cancelled: () => false }
const CASES = searchCases()
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

/** The nearest setups by looking at every one. */
function nearestByHand({ problem, plan }: Prepared, reaching: boolean): readonly NearMiss[] {
  const { candidates, comparison } = problem
  const misses = new NearMisses(comparison.targetSpeed)
  const evaluator = new Evaluator(problem.circumstances)
  const mark = { broken: -1, excess: 0, count: 0 }
  plan.nodes.forEach((node, n) => {
    plan.units.forEach((unit, u) => {
      if (unit.source.cells > (candidates.motors[node.motor]?.cellsMax ?? 0)) return
      if (!evaluator.assemble(partsOf(problem, node, unit))) return
      evaluator.limits.mark(mark)
      candidates.duties.forEach((duty, d) => {
        evaluator.limits.reset(mark)
        const { broken, excess } = evaluator.evaluate(duty) ? evaluator.limits : { broken: -1, excess: 0 }
        if (broken < 0 || (reaching && evaluator.speed < comparison.targetSpeed)) return
        misses.offer(broken, excess, evaluator.speed, (n * plan.units.length + u) * candidates.duties.length + d)
      })
    })
  })
  return misses.members()
}

describe('the search', () => {
  it(`finds the front of ${CASES} random sweeps, and settles every combination once`, () => {
    let members = 0
    let withFront = 0
    let worked = 0
    let feasible = 0
    for (let seed = FIRST_SEED; seed < FIRST_SEED + CASES; seed++) {
      const { problem, plan } = randomSweep(seed).prepared
      const [range] = splitPlan(plan, 1)
      if (range === undefined) throw new Error('no shard')
      const brute = workThroughShard(problem, plan, range, quiet)
      const seeds = seed % 2 === 0 ? [] : flyPilot(problem, plan).seeds
      const shards = splitPlan(plan, 1 + (seed % 3), seeds).map((part) => evaluateShard(problem, plan, part, quiet))
      const found = mergeFronts(shards)
      expect({ seed, members: found.members }).toEqual({ seed, members: brute.members })
      expect(sum(found.removed) + found.dominated + found.feasible).toBe(plan.compatible)
      expect(found.bounded.every((count, limit) => count <= (found.removed[limit] as number))).toBe(true)
      expect(sum(brute.removed) + brute.feasible).toBe(plan.compatible)
      expect(sum(plan.misfits) + plan.compatible).toBe(plan.raw)
      members += brute.members.length
      if (brute.members.length > 0) withFront++
      worked += found.evaluated
      feasible += brute.feasible
    }
    // The sample must mean something: many sweeps with an answer, some without, and most of it never worked through.
    expect(withFront).toBeGreaterThan(0.3 * CASES)
    expect(withFront).toBeLessThan(0.97 * CASES)
    expect(members).toBeGreaterThan(3 * CASES)
    expect(feasible).toBeGreaterThan(20 * CASES)
    expect(worked).toBeGreaterThan(members)
  })

  it(`finds the nearest setups of ${CASES} random sweeps, those that reach the target and all of them`, () => {
    let found = 0
    for (let seed = 1; seed <= CASES; seed++) {
      const { prepared } = randomSweep(seed)
      for (const reaching of [false, true]) {
        const { misses } = searchNearest(prepared.problem, prepared.plan, reaching, still)
        expect({ seed, reaching, misses }).toEqual({ seed, reaching, misses: nearestByHand(prepared, reaching) })
        found += misses.length
      }
    }
    expect(found).toBeGreaterThan(CASES)
  })
})
