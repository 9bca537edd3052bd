// What is compared: four objectives, each rounded to steps of its declared resolution and, where the request says so, counted
// only up to what is wanted. All are turned so that less is better. Steps of speed, time and margin begin at what is wanted, and
// what just misses it is a whole step below: a setup that reaches the target is never equal to one that does not. Rounding is
// monotone, so a setup that is no worse before it is no worse after it; ties inside one cell go by unrounded cost, speed, time,
// margin, then combination number.
import type { Comparison } from './problem.js'

/** Objectives of one setup as worked out: m/s, s, currency, share. */
export interface Objectives {
  speed: number
  time: number
  cost: number
  margin: number
}

/** Number of compared values of a setup. */
export const DIMENSIONS = 4

/**
 * Writes the compared values of `objectives` at `offset` of `cells`.
 * @throws RangeError naming the first objective that is not finite
 */
export function compareAs(objectives: Objectives, comparison: Comparison, cells: Float64Array, offset: number): void {
  const { resolution, wantedTime, wantedMargin, targetSpeed } = comparison
  cells[offset] = -nearestStep('speed', objectives.speed, resolution.speed, targetSpeed)
  cells[offset + 1] = -nearestStep('time', Math.min(objectives.time, wantedTime), resolution.time, wantedTime)
  cells[offset + 2] = nearestStep('cost', objectives.cost, resolution.cost, Number.POSITIVE_INFINITY)
  cells[offset + 3] = -nearestStep('margin', Math.min(objectives.margin, wantedMargin), resolution.margin, wantedMargin)
}

/** The step nearest to a value, but below what is wanted if the value is; 0 where what is wanted has no end. */
function nearestStep(name: string, value: number, resolution: number, wanted: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, got ${value}`)
  if (!(resolution > 0)) return value
  if (!(wanted < Number.POSITIVE_INFINITY)) return Math.round(value / resolution) * resolution
  const steps = Math.round((value - wanted) / resolution)
  return wanted + (value < wanted ? Math.min(-1, steps) : steps) * resolution
}

/** Order inside one cell: negative when `a` is kept before `b`. */
export function tieOrder(a: Objectives, aNumber: number, b: Objectives, bNumber: number): number {
  return a.cost - b.cost || b.speed - a.speed || b.time - a.time || b.margin - a.margin || aNumber - bNumber
}
