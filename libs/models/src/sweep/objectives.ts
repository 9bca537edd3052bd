// What is compared: four objectives, each rounded to its declared resolution and, where the request says so, counted
// only up to what is wanted. All are turned so that less is better. Rounding is monotone, so a setup that is no worse
// before it is no worse after it; ties inside one cell go by unrounded cost, speed, time, margin, then combination number.
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
  const { resolution, wantedTime, wantedMargin } = comparison
  cells[offset] = -rounded('speed', objectives.speed, resolution.speed)
  cells[offset + 1] = -rounded('time', Math.min(objectives.time, wantedTime), resolution.time)
  cells[offset + 2] = rounded('cost', objectives.cost, resolution.cost)
  cells[offset + 3] = -rounded('margin', Math.min(objectives.margin, wantedMargin), resolution.margin)
}

function rounded(name: string, value: number, resolution: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, got ${value}`)
  // Adding 0 turns −0 into 0, so that equal cells are equal in every sense.
  return resolution > 0 ? Math.round(value / resolution) * resolution + 0 : value
}

/** Order inside one cell: negative when `a` is kept before `b`. */
export function tieOrder(a: Objectives, aNumber: number, b: Objectives, bNumber: number): number {
  return a.cost - b.cost || b.speed - a.speed || b.time - a.time || b.margin - a.margin || aNumber - bNumber
}
