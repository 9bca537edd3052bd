// The least cruise after each pass that keeps every temperature limit over the planned passes. Motor and controller cool in
// cruise, the more the longer; the pack gives nothing away (assumed), so a longer cruise only heats it: a pack too hot has
// no cure here, nor has a part that one pass from cold brings over its limit.
// The charge falls as it is flown; passes beyond what it lasts go on at the charge to be kept.
import { copyOf, type FlightState, type Rig } from './flight-rig.js'
import { type FlightPeaks, type Power, planStep, takeStep } from './flight-step.js'
import { storeLimits } from './full-throttle-hold.js'

/** Passes of one kind with cruise between them. */
export interface Passes {
  readonly count: number
  /** Of a pass, and of the cruise that is planned after it, s. */
  readonly passTime: number
  readonly cruiseTime: number
  readonly cruise: Power
  /** Charge to be kept, A·s. */
  readonly floor: number
}

/** Longest cruise between passes looked at, s. */
export const LONGEST_COOL_DOWN = 300
/** How exactly the answer is wanted: s, or K below the limit. */
const TIME_RESOLUTION = 0.25
const TEMPERATURE_RESOLUTION = 0.5
/** Cruise after the last pass, long enough for a case to reach its peak, s. */
const AFTERWARDS = 120

/** Least cruise time after each pass, s; 0 when none is needed, null when none up to the longest suffices. */
export function coolDownTime(rig: Rig, from: FlightState, passes: Passes): number | null {
  if (passes.passTime === 0) return 0
  // What one pass alone brings over a limit, no cruise between passes can mend.
  if (excessOf(rig, peaksOf(rig, from, { ...passes, count: 1 }, 0)) > 0) return null
  const excess = (time: number): number => excessOf(rig, peaksOf(rig, from, passes, time))
  const time = leastCooling(excess, passes.cruiseTime)
  if (time === null) return null
  return peaksOf(rig, from, passes, time).pack <= storeLimits(rig).pack ? time : null
}

/** Least time at which an excess temperature that falls with it is no longer above 0; regula falsi, Illinois halving. */
function leastCooling(excess: (time: number) => number, planned: number): number | null {
  let low = 0
  let atLow = excess(low)
  if (atLow <= 0) return 0
  let high = Math.max(10, Math.min(planned, LONGEST_COOL_DOWN))
  let atHigh = excess(high)
  while (atHigh > 0) {
    if (high >= LONGEST_COOL_DOWN || atHigh === Number.POSITIVE_INFINITY) return null
    low = high
    atLow = atHigh
    high = Math.min(LONGEST_COOL_DOWN, 2.5 * high)
    atHigh = excess(high)
  }
  let reached = atHigh
  let kept = 0
  while (high - low > TIME_RESOLUTION && reached < -TEMPERATURE_RESOLUTION) {
    const time =
      atLow === Number.POSITIVE_INFINITY ? 0.5 * (low + high) : (low * atHigh - high * atLow) / (atHigh - atLow)
    const found = excess(time)
    if (found > 0) {
      low = time
      atLow = found
      if (kept > 0) atHigh *= 0.5
      kept = 1
    } else {
      high = time
      atHigh = found
      reached = found
      if (kept < 0) atLow *= 0.5
      kept = -1
    }
  }
  return high
}

/** How far motor and controller are over their limits at most, K; the pack is another matter. */
function excessOf(rig: Rig, { motor, esc }: FlightPeaks): number {
  const limits = storeLimits(rig)
  return rig.air + Math.max(motor.inner - limits.winding, motor.outer - limits.case, esc.inner - limits.board)
}

/** Highest temperatures over the passes; infinite where a pass cannot be flown. */
function peaksOf(rig: Rig, from: FlightState, passes: Passes, cruiseTime: number): FlightPeaks {
  const state = copyOf(from)
  const peaks: FlightPeaks = { motor: { ...from.motor }, esc: { ...from.esc }, pack: from.pack }
  for (let i = 1; i <= passes.count; i++) {
    const last = i === passes.count
    hold(rig, state, { kind: 'top' }, passes.passTime, passes.floor, peaks)
    const packSoFar = peaks.pack
    hold(rig, state, passes.cruise, last ? AFTERWARDS : cruiseTime, passes.floor, peaks)
    if (last) peaks.pack = packSoFar
  }
  return peaks
}

/** Holds a throttle setting for a time; the charge does not fall below the floor. */
function hold(rig: Rig, state: FlightState, power: Power, time: number, floor: number, peaks: FlightPeaks): void {
  let left = time
  while (left > 1e-9 * time) {
    const step = planStep(rig, state, power, left, Number.NEGATIVE_INFINITY)
    if (step === null) {
      peaks.motor.inner = Number.POSITIVE_INFINITY
      return
    }
    takeStep(state, step, peaks)
    state.charge = Math.max(state.charge, floor)
    left -= step.time
  }
}
