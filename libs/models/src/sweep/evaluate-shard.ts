// One shard of a sweep: its front, what was put away and why, and how much was worked through. By branch and bound, or
// with every combination worked through, which is the reference that the search is tested against. Fronts of distinct
// shards merge in any order.
import { Evaluator } from '../evaluation/evaluator.js'
import { LIMITS } from '../evaluation/limits.js'
import { SweepCancelled } from './box-search.js'
import { type Certificate, CertificateKeeper } from './certificate.js'
import { numberOf } from './combination-number.js'
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
  /** How many of these were put away as whole boxes. */
  readonly bounded: readonly number[]
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
  return shardFrontOf(searchShard(problem, plan, range, hooks, null))
}

/** What a shard found, and why nothing else of it is in its front: witnesses are places in its members. */
export interface CertifiedShard {
  readonly front: ShardFront
  readonly certificate: Certificate
}

/** The same with its certificate. */
export function certifyShard(problem: SweepProblem, plan: Plan, range: ShardRange, hooks: ShardHooks): CertifiedShard {
  const keeper = new CertificateKeeper()
  const search = searchShard(problem, plan, range, hooks, keeper)
  const front = shardFrontOf(search)
  const places = new Map(front.members.map(({ number }, place) => [number, place]))
  return { front, certificate: keeper.seal(search.front, places) }
}

function searchShard(
  problem: SweepProblem,
  plan: Plan,
  range: ShardRange,
  hooks: ShardHooks,
  keeper: CertificateKeeper | null,
): FrontSearch {
  const whole = Math.max(1, range.work * problem.candidates.duties.length)
  let done = 0
  const counting = {
    cancelled: hooks.cancelled,
    settled(combinations: number) {
      done += combinations
      hooks.progress(Math.min(1, done / whole))
    },
  }
  const search = new FrontSearch(problem, plan, counting, keeper)
  search.plant(range.seeds)
  search.search(range.from, range.to)
  hooks.progress(1)
  return search
}

/** What a search found so far. */
export function shardFrontOf(search: FrontSearch): ShardFront {
  const { front, removed, bounded, dominated, feasible, evaluated, boxes } = search
  const members = front.members()
  return { members, removed: [...removed], bounded: [...bounded], dominated, feasible, evaluated, boxes }
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
          front.offer(cells, { speed, time, cost, margin }, numberOf(problem, plan, { node: n, unit: u, duty: d }))
        }
      }
    }
    if (hooks.cancelled()) throw new SweepCancelled()
    hooks.progress(Math.min(1, done / Math.max(1, range.work)))
  }
  const bounded = new Array<number>(LIMITS.length).fill(0)
  return { members: front.members(), removed: [...removed], bounded, dominated: 0, feasible, evaluated, boxes: 0 }
}
