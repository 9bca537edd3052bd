// Evaluates every combination of a shard: assemble once for each node and unit, then each duty from low to high. Feasible
// setups are offered to the front; the rest is counted under the first limit it breaks. Three shortcuts, exact because of
// what is monotone: a group of units whose best cannot reach thrust or speed at the highest duty is out as a whole; what
// one unit cannot reach at a duty it cannot at a lower one; a limit that grows with duty and is clearly broken stays
// broken above. What they pass over is counted under the limit that told.
import { Evaluator, type Parts } from '../evaluation/evaluator.js'
import { NEAR_MISS_SHARE } from '../evaluation/limit-judge.js'
import { DUTYLESS_LIMITS, LIMITS, RISING_LIMITS } from '../evaluation/limits.js'
import type { Motor } from '../motor/motor.js'
import { Front } from './front.js'
import { type NearMiss, NearMisses } from './near-misses.js'
import { compareAs, DIMENSIONS, type Objectives } from './objectives.js'
import type { Plan, PlanNode, PlanUnit } from './plan.js'
import type { SweepProblem } from './problem.js'
import type { ShardRange } from './shards.js'
import type { UnitGroup } from './unit-groups.js'

/** What a shard found; plain data. */
export interface ShardFront {
  readonly members: readonly { readonly number: number; readonly raw: Objectives; readonly cells: readonly number[] }[]
  /** Combinations removed by each limit, in the order of `LIMITS`. */
  readonly removed: readonly number[]
  readonly feasible: number
  readonly evaluated: number
  readonly nearest: readonly NearMiss[]
}

export interface ShardHooks {
  /** Share of the shard done, 0…1; called between units, at most once every few milliseconds of work. */
  progress(share: number): void
  cancelled(): boolean
}

/** The sweep was told to stop. */
export class SweepCancelled extends Error {
  constructor() {
    super('the sweep was cancelled')
    this.name = 'SweepCancelled'
  }
}

/** By index of `LIMITS`: broken at one duty means broken at every higher one. */
const RISING = LIMITS.map((limit) => RISING_LIMITS.includes(limit))
/** The same, and also those that do not depend on duty. */
const STAYING = LIMITS.map((limit) => RISING_LIMITS.includes(limit) || DUTYLESS_LIMITS.includes(limit))

/** Units between two looks at the hooks. */
const UNITS_PER_LOOK = 256

/**
 * Evaluates one shard.
 * @param exhaustive work every combination through, without the shortcuts: the reference they are tested against
 * @throws SweepCancelled when the hooks say so
 */
export function evaluateShard(
  problem: SweepProblem,
  plan: Plan,
  range: ShardRange,
  hooks: ShardHooks,
  exhaustive = false,
): ShardFront {
  const sweep = new ShardSweep(problem, plan, exhaustive)
  let done = 0
  for (let n = range.from; n < range.to; n++) {
    for (const group of plan.groups) {
      done += sweep.combineGroup(n, group, (units) => {
        if (hooks.cancelled()) throw new SweepCancelled()
        hooks.progress((done + units) / Math.max(1, range.work))
      })
    }
  }
  hooks.progress(1)
  return sweep.result()
}

class ShardSweep {
  readonly #front = new Front()
  readonly #near: NearMisses
  readonly #evaluator: Evaluator
  readonly #removed = new Float64Array(LIMITS.length)
  readonly #cells = new Float64Array(DIMENSIONS)
  readonly #objectives: Objectives = { speed: 0, time: 0, cost: 0, margin: 0 }
  readonly #assembled = { broken: -1, excess: 0, count: 0 }
  readonly #shortcuts: boolean
  #feasible = 0
  #evaluated = 0

  readonly problem: SweepProblem
  readonly plan: Plan

  constructor(problem: SweepProblem, plan: Plan, exhaustive: boolean) {
    this.problem = problem
    this.plan = plan
    this.#shortcuts = !exhaustive
    this.#near = new NearMisses(problem.comparison.targetSpeed)
    this.#evaluator = new Evaluator(problem.circumstances)
  }

  /**
   * All units of a group with one node; `look` is called every so many units with how many are done. How many there were:
   * none when the motor cannot take the cells.
   */
  combineGroup(n: number, group: UnitGroup, look: (units: number) => void): number {
    const { candidates } = this.problem
    const node = this.plan.nodes[n] as PlanNode
    if (group.cells > (candidates.motors[node.motor]?.cellsMax ?? 0)) return 0
    look(0)
    const highest = candidates.duties.at(-1) as number
    if (this.#shortcuts && this.#evaluator.allOutOfReach(bestParts(this.problem, node, group), highest)) {
      this.#count(this.#evaluator.limits.broken, group.units.length * candidates.duties.length)
      return group.units.length
    }
    group.units.forEach((u, i) => {
      this.#combine(n, node, u)
      if ((i + 1) % UNITS_PER_LOOK === 0) look(i + 1)
    })
    return group.units.length
  }

  /** All duties of one node with one unit. */
  #combine(n: number, node: PlanNode, u: number): void {
    const unit = this.plan.units[u] as PlanUnit
    const duties = this.problem.candidates.duties
    const evaluator = this.#evaluator
    if (!evaluator.assemble(partsOf(this.problem, node, unit))) {
      this.#count(evaluator.limits.broken, duties.length)
      return
    }
    evaluator.limits.mark(this.#assembled)
    const first = (n * this.plan.units.length + u) * duties.length
    for (let d = this.#shortcuts ? this.#lowestDuty(duties) : 0; d < duties.length; d++) {
      evaluator.limits.reset(this.#assembled)
      const finished = evaluator.evaluate(duties[d] as number)
      this.#take(finished, first + d)
      if (!finished && this.#shortcuts && this.#staysBroken()) {
        this.#count(evaluator.limits.broken, duties.length - d - 1)
        break
      }
    }
  }

  /** Index of the lowest duty that is not out of reach; those below are counted under what the next one lacked. */
  #lowestDuty(duties: readonly number[]): number {
    const evaluator = this.#evaluator
    for (let d = duties.length - 1; d >= 0; d--) {
      if (!evaluator.outOfReach(duties[d] as number)) continue
      this.#count(evaluator.limits.broken, d + 1)
      return d + 1
    }
    return 0
  }

  /** Whether no higher duty can be feasible, or miss by little, after the evaluation that has just ended early. */
  #staysBroken(): boolean {
    const { broken, stopper, stopperExcess } = this.#evaluator.limits
    if (!RISING[stopper]) return false
    return stopperExcess > NEAR_MISS_SHARE || (broken !== stopper && STAYING[broken] === true)
  }

  result(): ShardFront {
    return {
      members: this.#front.members(),
      removed: Array.from(this.#removed),
      feasible: this.#feasible,
      evaluated: this.#evaluated,
      nearest: this.#near.members(),
    }
  }

  #count(limit: number, combinations: number): void {
    this.#removed[limit] = (this.#removed[limit] as number) + combinations
  }

  #take(finished: boolean, number: number): void {
    const evaluator = this.#evaluator
    this.#evaluated++
    if (evaluator.limits.broken >= 0) {
      this.#count(evaluator.limits.broken, 1)
      if (finished) this.#near.offer(evaluator.limits.broken, evaluator.limits.excess, evaluator.speed, number)
      return
    }
    this.#feasible++
    const objectives = this.#objectives
    objectives.speed = evaluator.speed
    objectives.time = evaluator.time
    objectives.cost = evaluator.cost
    objectives.margin = evaluator.margin
    compareAs(objectives, this.problem.comparison, this.#cells, 0)
    this.#front.offer(this.#cells, objectives, number)
  }
}

/** Parts of a node with the best that a group has of everything; their cost is not looked at. */
function bestParts(problem: SweepProblem, node: PlanNode, group: UnitGroup): Parts {
  const { candidates } = problem
  return {
    node: node.state,
    motor: candidates.motors[node.motor] as Motor,
    esc: group.bestEsc,
    timing: group.timing,
    source: group.bestSource,
    pairMass: candidates.pairMass[node.fan * candidates.motors.length + node.motor] as number,
    escMass: group.leastEscMass,
    cost: 0,
  }
}

/** Parts of a node with a unit, priced and weighed. */
export function partsOf(problem: SweepProblem, node: PlanNode, unit: PlanUnit): Parts {
  const { candidates } = problem
  const pair = node.fan * candidates.motors.length + node.motor
  const esc = candidates.escs[unit.esc]
  const motor = candidates.motors[node.motor]
  if (esc === undefined || motor === undefined) throw new RangeError('a plan must be used with its own problem')
  const packs = candidates.arrangements[unit.arrangement] === 'single' ? 0 : 1
  return {
    node: node.state,
    motor,
    esc,
    timing: esc.timings[unit.timing] as number,
    source: unit.source,
    pairMass: candidates.pairMass[pair] as number,
    escMass: candidates.escMass[unit.esc] as number,
    cost:
      (candidates.pairCost[pair] as number) +
      (candidates.escCost[unit.esc] as number) +
      (candidates.packCost[2 * unit.pack + packs] as number),
  }
}
