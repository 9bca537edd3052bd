// Whether a sweep is small enough to be taken on, judged before any of its work is done: what it covers, how long it would
// take and how much memory, each against a limit, and what to do about it.
import type { SweepEstimate } from './shards.js'

/** Limits of a sweep; Infinity: none. */
export interface SweepLimits {
  readonly combinations: number
  /** s over all threads. */
  readonly seconds: number
  /** bytes over all threads. */
  readonly bytes: number
}

const CURE = 'Name fewer duties or nozzle ratios under /sweep, or require and exclude parts.'
const MEGABYTE = 1e6

/** Why a sweep of so many combinations is not taken on, or null. Needs no estimate, so it is asked first. */
export function tooMany(combinations: number, { combinations: most }: SweepLimits): string | null {
  if (combinations <= most) return null
  return `The sweep has ${combinations.toExponential(2)} combinations; at most ${most.toExponential(2)} are accepted. ${CURE}`
}

/** Why a sweep is not taken on by so many threads, in sentences that name the estimate, the limit and the cure; or null. */
export function refusalOf(estimate: SweepEstimate, limits: SweepLimits, threads: number): string | null {
  const seconds = estimate.seconds / threads
  const bytes = estimate.bytes * threads
  const sweep = `The sweep of ${estimate.combinations.toExponential(2)} combinations, ${estimate.compatible.toExponential(2)} of which fit together,`
  const on = threads === 1 ? 'one thread' : `${threads} threads`
  if (!(seconds <= limits.seconds))
    return `${sweep} would take about ${Math.round(seconds)} s on ${on}; at most ${limits.seconds} s are accepted. ${CURE}`
  if (!(bytes <= limits.bytes))
    return `${sweep} would take about ${megabytes(bytes)} of memory on ${on}; at most ${megabytes(limits.bytes)} are accepted. ${CURE}`
  return tooMany(estimate.combinations, limits)
}

function megabytes(bytes: number): string {
  return `${Math.round(bytes / MEGABYTE)} MB`
}
