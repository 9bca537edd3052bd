// What two heat stores do inside a phase, between its start and its end. The slope of either temperature is a sum of two
// exponentials, S·e^(λs·t) + F·e^(λf·t), so it changes sign once at most: a temperature rises, falls, or has one extremum in
// between, whose time is a logarithm. A case keeps warming for a while after the current is cut: its peak lies there.
import type { HeatState, Peaks, PhaseMap } from './two-node.js'

/** Raises `peaks` (above the air, K) to the highest temperatures of a phase from (x, y) to (nextX, nextY), ends included. */
export function notePeaks(map: PhaseMap, x: number, y: number, nextX: number, nextY: number, peaks: Peaks): void {
  peaks.inner = Math.max(peaks.inner, x, nextX)
  peaks.outer = Math.max(peaks.outer, y, nextY)
  const innerTurns = map.a11 * x + map.a12 * y + map.b1 > 0 && map.a11 * nextX + map.a12 * nextY + map.b1 < 0
  if (innerTurns) peaks.inner = Math.max(peaks.inner, turningPoint(courseOf(map, x, y, 'inner')).value)
  const outerTurns = map.a21 * x + map.a22 * y + map.b2 > 0 && map.a21 * nextX + map.a22 * nextY + map.b2 < 0
  if (outerTurns) peaks.outer = Math.max(peaks.outer, turningPoint(courseOf(map, x, y, 'outer')).value)
}

/**
 * Time in the phase at which a store first reaches a temperature above the air (K) from below, s; null when it does not.
 * A store that starts at it or above has reached it at 0.
 */
export function timeToReach(map: PhaseMap, state: HeatState, store: keyof HeatState, level: number): number | null {
  const course = courseOf(map, state.inner, state.outer, store)
  if (course.start >= level) return 0
  let high = map.time
  const turns = course.slow + course.fast > 0 && slopeAt(course, high) < 0
  if (turns) high = turningPoint(course).time
  if (!(valueAt(course, high) >= level)) return null
  let low = 0
  // One crossing from below is left between the two: bisect until the interval has no middle.
  for (let middle = 0.5 * high; middle > low && middle < high; middle = 0.5 * (low + high)) {
    if (valueAt(course, middle) < level) low = middle
    else high = middle
  }
  return high
}

/** One temperature over a phase: where it starts, and the parts of its slope that go with each eigenvalue. */
interface Course {
  readonly start: number
  /** s */
  readonly length: number
  readonly slow: number
  readonly fast: number
  readonly slowRate: number
  readonly fastRate: number
}

function courseOf(map: PhaseMap, x: number, y: number, store: keyof HeatState): Course {
  const slopeX = map.a11 * x + map.a12 * y + map.b1
  const slopeY = map.a21 * x + map.a22 * y + map.b2
  const width = map.rate - map.fast
  const inner = store === 'inner'
  const slow = inner
    ? ((map.a11 - map.fast) * slopeX + map.a12 * slopeY) / width
    : (map.a21 * slopeX + (map.a22 - map.fast) * slopeY) / width
  const fast = (inner ? slopeX : slopeY) - slow
  return { start: inner ? x : y, length: map.time, slow, fast, slowRate: map.rate, fastRate: map.fast }
}

function valueAt(course: Course, time: number): number {
  return course.start + course.slow * integral(course.slowRate, time) + course.fast * integral(course.fastRate, time)
}

function slopeAt(course: Course, time: number): number {
  return course.slow * Math.exp(course.slowRate * time) + course.fast * Math.exp(course.fastRate * time)
}

/** Where the slope vanishes; asked only for a course whose slope changes sign. */
function turningPoint(course: Course): { readonly time: number; readonly value: number } {
  const ratio = -course.fast / course.slow
  const exact = Math.log(ratio) / (course.slowRate - course.fastRate)
  // Slopes that are nothing but rounding may not give a ratio, or one outside the phase.
  const time = ratio > 0 ? Math.min(course.length, Math.max(0, exact)) : 0
  return { time, value: valueAt(course, time) }
}

/** ∫0..t e^(λs) ds, also at λ = 0. */
export function integral(rate: number, time: number): number {
  const x = rate * time
  return Math.abs(x) < 1e-12 ? time : Math.expm1(x) / rate
}
