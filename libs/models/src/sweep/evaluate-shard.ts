// Evaluates every combination of a shard: assemble once for each node and unit, then each duty from low to high. Feasible
// setups are offered to the front, near misses to the nearest, the rest is counted. Shortcuts, exact because of what is
// monotone: a group of units whose best lacks thrust or speed at the highest duty is out as a whole; what one unit lacks
// at a duty it lacks at every lower one; a limit that grows with duty stays broken above. Every combination is counted
// once, under: what the best of its group lacks, else what its parts break at any duty, else the thrust or speed that it
// or a higher duty lacks, else a rising limit that it or a lower duty breaks first, else its own first broken limit. That
// depends on the combination alone; only how much was worked through depends on the order, since near misses found
// leave less room for others.
import { Evaluator, type Parts } from '../evaluation/evaluator.js'
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

/** Without shortcuts every duty is worked through and counted on its own. */
const WHOLE_LIST = { work: 0, count: 0 }

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
    let lacks = false
    if (this.#shortcuts) {
      const highest = candidates.duties.at(-1) as number
      this.#evaluator.assembleBest(bestParts(this.problem, node, group))
      const lacking = this.#evaluator.lacking(highest, false)
      if (lacking >= 0) {
        lacks = true
        this.#count(lacking, group.units.length * candidates.duties.length)
        if (this.#evaluator.lacking(highest, true) >= 0) return group.units.length
      }
    }
    group.units.forEach((u, i) => {
      this.#combine(n, node, u, lacks)
      if ((i + 1) % UNITS_PER_LOOK === 0) look(i + 1)
    })
    return group.units.length
  }

  /**
   * All duties of one node with one unit. `lacking`: its group lacks thrust or speed at every duty and is counted, so it
   * is worked through for near misses only.
   */
  #combine(n: number, node: PlanNode, u: number, lacking: boolean): void {
    let counted = lacking
    const unit = this.plan.units[u] as PlanUnit
    const { duties } = this.problem.candidates
    const evaluator = this.#evaluator
    const { limits } = evaluator
    const fits = evaluator.assemble(partsOf(this.problem, node, unit))
    if (limits.broken >= 0 && !counted) {
      this.#count(limits.broken, duties.length)
      counted = true
    }
    // Parts that break one limit by themselves and lack thrust or speed besides are no near miss.
    if (!fits || (limits.broken >= 0 && lacking)) return
    limits.mark(this.#assembled)
    const { work, count } = this.#shortcuts ? this.#lowestDuties(duties, counted) : WHOLE_LIST
    const first = (n * this.plan.units.length + u) * duties.length
    // The lowest duty that is not counted yet.
    let open = counted ? duties.length : count
    for (let d = work; d < duties.length; d++) {
      limits.reset(this.#assembled)
      const finished = evaluator.evaluate(duties[d] as number)
      this.#evaluated++
      if (limits.broken < 0) this.#take(first + d)
      else {
        if (finished) this.#offerMiss(first + d)
        if (d >= open) open = d + this.#countBroken(duties.length - d)
        if (!finished && open >= duties.length && this.#shortcuts && this.#staysBroken()) break
      }
    }
  }

  /**
   * Counts a broken duty under its first broken limit, and with it the `left` duties from there up when that limit rises
   * with duty: it stays broken. How many were counted.
   */
  #countBroken(left: number): number {
    const { broken } = this.#evaluator.limits
    const counted = this.#shortcuts && RISING[broken] === true ? left : 1
    this.#count(broken, counted)
    return counted
  }

  /**
   * Index of the lowest duty that lacks neither thrust nor speed, and of the lowest that may still be a near miss. Duties
   * below the former are counted under what the highest of them lacks.
   */
  #lowestDuties(duties: readonly number[], counted: boolean): { work: number; count: number } {
    const evaluator = this.#evaluator
    let d = duties.length - 1
    let lacking = -1
    while (d >= 0) {
      lacking = evaluator.lacking(duties[d] as number, false)
      if (lacking >= 0) break
      d--
    }
    const count = d + 1
    if (!counted && count > 0) this.#count(lacking, count)
    const near = evaluator.limits.broken < 0
    while (near && d >= 0 && evaluator.lacking(duties[d] as number, true) < 0) d--
    return { work: d + 1, count }
  }

  /** Whether no higher duty can be feasible, or miss by little, after the evaluation that has just ended early. */
  #staysBroken(): boolean {
    const { broken, stopper, clearlyOver } = this.#evaluator.limits
    if (!RISING[stopper]) return false
    return clearlyOver || (broken !== stopper && STAYING[broken] === true)
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

  /** A better near miss leaves less room for the next; all of it is worked through when there are no shortcuts. */
  #offerMiss(number: number): void {
    const { limits, speed } = this.#evaluator
    const { broken, excess } = limits
    if (this.#near.offer(broken, excess, speed, number) && this.#shortcuts) {
      limits.nearShare[broken] = this.#near.worthwhile(broken)
    }
  }

  #take(number: number): void {
    const evaluator = this.#evaluator
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
      (candidates.packCost[2 * unit.pack + packs] as number) +
      candidates.fixedCost,
  }
}
