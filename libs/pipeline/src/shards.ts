// A prepared sweep cut into shards, run one by one anywhere, and its work estimated before it is accepted.
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import {
  evaluateShard as evaluateRange,
  type ShardFront,
  type ShardHooks,
  workThroughShard,
} from '@ductwright/models/sweep/evaluate-shard'
import { FrontSearch } from '@ductwright/models/sweep/search-front'
import { type ShardRange, splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from './prepare.js'

export type { ShardFront, ShardHooks, ShardRange }
export { SweepCancelled }

/**
 * Shards of every sweep, whatever the machine: what is counted depends on them. Enough to go round some threads; more would
 * each have to find for itself what dominates.
 */
export const SHARDS = 8

/** Cuts the sweep into ranges of about equal work. */
export function planShards(prepared: Prepared): ShardRange[] {
  return splitPlan(prepared.plan, SHARDS)
}

/**
 * Evaluates one range.
 * @param exhaustive work every combination through: the same front, at the pace of one by one
 * @throws SweepCancelled when the hooks say so
 */
export function evaluateShard(
  prepared: Prepared,
  range: ShardRange,
  hooks: ShardHooks,
  exhaustive = false,
): ShardFront {
  const evaluate = exhaustive ? workThroughShard : evaluateRange
  return evaluate(prepared.problem, prepared.plan, range, hooks)
}

/** Time the pilot of an estimate takes at least, unless the sweep is shorter, s. */
const PILOT_SECONDS = 0.05

export interface SweepEstimate {
  /** Raw product of all lists. */
  readonly combinations: number
  /** What is left after parts that do not go together. */
  readonly compatible: number
  /** Expected seconds on one thread. */
  readonly seconds: number
}

/**
 * Estimates the work of a sweep by doing the first of it: any stretch of the plan's order is a fair sample of the whole.
 * @param clock seconds, from any start
 */
export function estimateSweep(prepared: Prepared, clock: () => number): SweepEstimate {
  const { plan, problem } = prepared
  const search = new FrontSearch(problem, plan, { settled() {}, cancelled: () => false })
  const start = clock()
  let elapsed = 0
  let done = 0
  while (done < plan.nodes.length && elapsed < PILOT_SECONDS) {
    const next = Math.min(plan.nodes.length, 2 * done + 1)
    search.search(done, next)
    done = next
    elapsed = clock() - start
  }
  const share = plan.nodes.length === 0 ? 1 : done / plan.nodes.length
  return { combinations: plan.raw, compatible: plan.compatible, seconds: Math.max(1e-6, elapsed) / share }
}
