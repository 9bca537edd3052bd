// Boxes sorted by the limits they break: together with what holds they are the whole sweep, and a setup that breaks one limit
// only is under that one, found by working every setup through.
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { LIMITS } from '@ductwright/models/evaluation/limits'
import type { DutyBox } from '@ductwright/models/sweep/box-search'
import { type BrokenBoxes, brokenBoxes, withSpeedFloor } from '@ductwright/models/sweep/broken-boxes'
import { numberOf } from '@ductwright/models/sweep/combination-number'
import { type Plan, type PlanNode, type PlanUnit, partsOf } from '@ductwright/models/sweep/plan'
import type { SweepProblem } from '@ductwright/models/sweep/problem'
import { describe, expect, it } from 'vitest'
import { FIRST_SEED } from './config.js'
import { randomSweep } from './random-sweeps.js'

const CASES = 24
const still = { settled() {}, cancelled: () => false }

/** Every setup by number, with the limits it breaks; null where it cannot be worked out to its end. */
function brokenByHand(problem: SweepProblem, plan: Plan): Map<number, readonly number[] | null> {
  const { circumstances, candidates } = problem
  const evaluator = new Evaluator(circumstances, { thorough: true })
  const { limits } = evaluator
  const found = new Map<number, readonly number[] | null>()
  for (const [n, node] of plan.nodes.entries())
    for (const [u, unit] of plan.units.entries())
      for (const [d, duty] of candidates.duties.entries()) {
        if (unit.source.cells > (candidates.motors[node.motor]?.cellsMax ?? 0)) continue
        const parts = partsOf(problem, node as PlanNode, unit as PlanUnit)
        const finished = evaluator.assemble(parts) && evaluator.evaluate(duty)
        const broken = [...LIMITS.keys()].filter((i) => !((limits.used[i] as number) <= (limits.allowed[i] as number)))
        found.set(numberOf(problem, plan, { node: n, unit: u, duty: d }), finished ? broken : null)
      }
  return found
}

/** Numbers of the setups in some boxes. */
function numbersIn(problem: SweepProblem, plan: Plan, boxes: readonly DutyBox[]): Set<number> {
  const { counts, units, lefts, rights } = plan.boxes
  const unitsOf = (box: number): number[] =>
    counts[box] === 1 ? [units[box] as number] : [...unitsOf(lefts[box] as number), ...unitsOf(rights[box] as number)]
  const numbers = new Set<number>()
  for (const { node, box, lowest, highest } of boxes)
    for (const unit of unitsOf(box))
      for (let duty = lowest; duty <= highest; duty++) numbers.add(numberOf(problem, plan, { node, unit, duty }))
  return numbers
}

/** What is not sorted as it should be, and how many setups break one limit only. */
function check(problem: SweepProblem, plan: Plan, sorted: BrokenBoxes): { wrong: string[]; alone: number } {
  const under = [...LIMITS.keys()].map((limit) => numbersIn(problem, plan, sorted.of(limit)))
  const held = new Set(sorted.held)
  const wrong: string[] = []
  let alone = 0
  for (const [number, broken] of brokenByHand(problem, plan)) {
    const holds = broken !== null && broken.length === 0
    if (holds !== held.has(number)) wrong.push(`${number} ${holds ? 'holds' : 'does not hold'}`)
    if (!held.has(number) && !under.some((numbers) => numbers.has(number))) wrong.push(`${number} is left out`)
    if (broken?.length !== 1) continue
    alone++
    if (under[broken[0] as number]?.has(number) !== true)
      wrong.push(`${number} breaks ${LIMITS[broken[0] as number]} alone`)
  }
  return { wrong, alone }
}

describe('boxes sorted by the limits they break', () => {
  it(`hold what breaks each alone, and all that does not hold, in ${CASES} random sweeps`, () => {
    let alone = 0
    let holding = 0
    for (let seed = FIRST_SEED; seed < FIRST_SEED + CASES; seed++) {
      const { problem, plan } = randomSweep(seed).prepared
      for (const share of [0.85, 1, 1.2]) {
        const moved = withSpeedFloor(problem, share * problem.comparison.targetSpeed)
        const sorted = brokenBoxes(problem, plan, share * problem.comparison.targetSpeed, still)
        const found = check(moved, plan, sorted)
        expect({ seed, share, wrong: found.wrong.slice(0, 5) }).toEqual({ seed, share, wrong: [] })
        alone += found.alone
        holding += sorted.held.length
      }
    }
    expect(alone).toBeGreaterThan(100 * CASES)
    expect(holding).toBeGreaterThan(CASES)
  })
})
