// A prepared sweep cut into shards, run one by one anywhere, and its work estimated before it is accepted.
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import {
  evaluateShard as evaluateRange,
  type ShardFront,
  type ShardHooks,
  workThroughShard,
} from '@ductwright/models/sweep/evaluate-shard'
import { isNarrowed } from '@ductwright/models/sweep/problem'
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

/**
 * Seconds one box takes to bound, and how many boxes become of each that is opened at first; from the benchmark on one
 * machine and only a sense of scale elsewhere. A pilot tells less: without the setups that dominate, a sample of a sweep
 * takes ten to a hundred times its share.
 */
const SECONDS_PER_BOX = 6e-6
const BOXES_PER_OPENED = 2
/** How boxes grow with the number of duties, and how many times more a whole front takes than a narrowed one. */
const GROWTH_WITH_DUTIES = 0.4
const WHOLE_FRONT = 30

export interface SweepEstimate {
  /** Raw product of all lists. */
  readonly combinations: number
  /** What is left after parts that do not go together. */
  readonly compatible: number
  /** Expected seconds on one thread. */
  readonly seconds: number
}

/** Estimates the work of a sweep from the boxes it opens: every node with every cell count and timing its motor takes. */
export function estimateSweep(prepared: Prepared): SweepEstimate {
  const { plan, problem } = prepared
  const { motors, duties } = problem.candidates
  const opened = plan.nodes.reduce((sum, { motor }) => {
    const most = motors[motor]?.cellsMax ?? 0
    return sum + plan.groups.filter(({ cells }) => cells <= most).length
  }, 0)
  const boxes = opened * BOXES_PER_OPENED * duties.length ** GROWTH_WITH_DUTIES
  const seconds = Math.max(1, boxes) * SECONDS_PER_BOX * (isNarrowed(problem) ? 1 : WHOLE_FRONT)
  return { combinations: plan.raw, compatible: plan.compatible, seconds }
}
