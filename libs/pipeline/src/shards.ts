// A prepared sweep cut into shards, run one by one anywhere, and its work estimated before it is accepted.
import {
  evaluateShard as evaluateRange,
  type ShardFront,
  type ShardHooks,
  SweepCancelled,
} from '@ductwright/models/sweep/evaluate-shard'
import { type ShardRange, splitPlan } from '@ductwright/models/sweep/shards'
import type { Prepared } from './prepare.js'

export type { ShardFront, ShardHooks, ShardRange }
export { SweepCancelled }

/** Cuts the sweep into at most `shards` ranges of about equal work. */
export function planShards(prepared: Prepared, options: { readonly shards: number }): ShardRange[] {
  return splitPlan(prepared.plan, options.shards)
}

/** Evaluates one range. Throws SweepCancelled when the hooks say so. */
export function evaluateShard(prepared: Prepared, range: ShardRange, hooks: ShardHooks): ShardFront {
  return evaluateRange(prepared.problem, prepared.plan, range, hooks)
}

/**
 * Seconds one thread takes for parts put together, and for each duty tried on them; from the benchmark on one machine
 * and only a sense of scale elsewhere. Most parts are out of reach or clearly over a limit, so few duties are tried.
 */
const SECONDS_PER_ASSEMBLY = 8e-7
const SECONDS_PER_DUTY = 4e-8

export interface SweepEstimate {
  /** Raw product of all lists. */
  readonly combinations: number
  /** What is left after parts that do not go together. */
  readonly compatible: number
  /** Expected seconds on one thread. */
  readonly seconds: number
}

export function estimateSweep(prepared: Prepared): SweepEstimate {
  const { raw, compatible } = prepared.plan
  const assemblies = compatible / prepared.problem.candidates.duties.length
  const seconds = assemblies * SECONDS_PER_ASSEMBLY + compatible * SECONDS_PER_DUTY
  return { combinations: raw, compatible, seconds }
}
