// One shard of a sweep: its front, what was put away and why, and how much was worked through. By branch and bound, or
// with every combination worked through, which is the reference that the search is tested against. Fronts of distinct
// shards merge in any order.
import { Evaluator } from '../evaluation/evaluator.js'
import { LIMITS } from '../evaluation/limits.js'
import { SweepCancelled } from './box-search.js'
import { Front } from './front.js'
import { compareAs, DIMENSIONS, type Objectives } from './objectives.js'
import { type Plan, type PlanNode, type PlanUnit, partsOf } from './plan.js'
import type { SweepProblem } from './problem.js'
import { FrontSearch } from './search-front.js'
import type { ShardRange } from './shards.js'

/** What a shard found; plain data. */
export interface ShardFront {
  readonly members: readonly { readonly number: number; readonly raw: Objectives; readonly cells: readonly number[] }[]
  /** Combinations removed by each limit, in the order of `LIMITS`. */
  readonly removed: readonly number[]
  /** Combinations put away because a member is no worse in anything. */
  readonly dominated: number
  /** Combinations worked through that hold every limit. */
  readonly feasible: number
  readonly evaluated: number
  /** Boxes bounded; 0 when everything was worked through. */
  readonly boxes: number
}

export interface ShardHooks {
  /** Share of the shard done, 0…1; called every few milliseconds of work. */
  progress(share: number): void
  cancelled(): boolean
}

/**
 * Searches one shard.
 * @throws SweepCancelled when the hooks say so
 */
export function evaluateShard(problem: SweepProblem, plan: Plan, range: ShardRange, hooks: ShardHooks): ShardFront {
  const whole = Math.max(1, range.work * problem.candidates.duties.length)
  let done = 0
  const search = new FrontSearch(problem, plan, {
    cancelled: hooks.cancelled,
    settled(combinations) {
      done += combinations
      hooks.progress(Math.min(1, done / whole))
    },
  })
  search.search(range.from, range.to)
  hooks.progress(1)
  const { front, removed, dominated, feasible, evaluated, boxes } = search
  return { members: front.members(), removed: Array.from(removed), dominated, feasible, evaluated, boxes }
}

/**
 * Works every combination of a shard through, counting each under its first broken limit.
 * @throws SweepCancelled when the hooks say so
 */
export function workThroughShard(problem: SweepProblem, plan: Plan, range: ShardRange, hooks: ShardHooks): ShardFront {
  const { candidates, comparison } = problem
  const { duties } = candidates
  const evaluator = new Evaluator(problem.circumstances)
  const { limits } = evaluator
  const front = new Front()
  const removed = new Float64Array(LIMITS.length)
  const cells = new Float64Array(DIMENSIONS)
  const assembled = { broken: -1, excess: 0, count: 0 }
  let [feasible, evaluated, done] = [0, 0, 0]
  const count = (limit: number, combinations: number): void => {
    removed[limit] = (removed[limit] as number) + combinations
  }
  limits.nearShare.fill(0)
  for (let place = range.from; place < range.to; place++) {
    const n = plan.order[place] as number
    const node = plan.nodes[n] as PlanNode
    for (const [u, unit] of plan.units.entries()) {
      if (unit.source.cells > (candidates.motors[node.motor]?.cellsMax ?? 0)) continue
      done++
      if (!evaluator.assemble(partsOf(problem, node, unit as PlanUnit))) {
        count(limits.broken, duties.length)
        continue
      }
      limits.mark(assembled)
      for (const [d, duty] of duties.entries()) {
        limits.reset(assembled)
        evaluated++
        evaluator.evaluate(duty)
        if (limits.broken >= 0) count(limits.broken, 1)
        else {
          feasible++
          compareAs(evaluator, comparison, cells, 0)
          const { speed, time, cost, margin } = evaluator
          front.offer(cells, { speed, time, cost, margin }, (n * plan.units.length + u) * duties.length + d)
        }
      }
    }
    if (hooks.cancelled()) throw new SweepCancelled()
    hooks.progress(Math.min(1, done / Math.max(1, range.work)))
  }
  return { members: front.members(), removed: Array.from(removed), dominated: 0, feasible, evaluated, boxes: 0 }
}
