// A prepared sweep cut into shards, run one by one anywhere, and its work estimated before it is accepted.
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import {
  evaluateShard as evaluateRange,
  type ShardFront,
  type ShardHooks,
  workThroughShard,
} from '@ductwright/models/sweep/evaluate-shard'
import { expectedBytes } from '@ductwright/models/sweep/expected-bytes'
import { flyPilot, type Pilot } from '@ductwright/models/sweep/pilot'
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

/** Cuts the sweep into ranges of about equal work that start from what a pilot found. */
export function planShards(prepared: Prepared, pilot: Pilot): ShardRange[] {
  return splitPlan(prepared.plan, SHARDS, pilot.seeds)
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

export { flyPilot, type Pilot }

/**
 * Seconds one box takes; from the benchmark on one machine and only a sense of scale elsewhere. What the pilot's own boxes
 * take tells less: most of its time goes into code that is not compiled yet.
 */
const SECONDS_PER_BOX = 3.5e-6
/** Where time and margin count without end there are some thousand members to compare a box with. */
const SECONDS_PER_BOX_OF_WHOLE = 6.5e-6

export interface SweepEstimate {
  /** Raw product of all lists. */
  readonly combinations: number
  /** What is left after parts that do not go together. */
  readonly compatible: number
  /** Expected seconds on one thread. */
  readonly seconds: number
  /** Expected memory of each thread that takes part, bytes. */
  readonly bytes: number
}

/** Estimates the work of a sweep from a pilot of it. */
export function estimateSweep({ plan, problem }: Prepared, { expectedBoxes }: Pilot): SweepEstimate {
  return {
    combinations: plan.raw,
    compatible: plan.compatible,
    seconds: expectedBoxes * (isNarrowed(problem) ? SECONDS_PER_BOX : SECONDS_PER_BOX_OF_WHOLE),
    bytes: Math.round(expectedBytes(plan, expectedBoxes)),
  }
}
