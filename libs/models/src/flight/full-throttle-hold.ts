// How long full throttle can be held in one go, flying level, and what ends it: a temperature limit of winding, magnets
// (as warm as the case), board or pack, the charge to be kept, or a pack that no longer carries level flight. The time is the
// root on the exact course of each temperature, not the end of a step.
import { timeToReach } from '../thermal/within-phase.js'
import { copyOf, type FlightState, type Rig } from './flight-rig.js'
import { type FlightPeaks, planStep, type Step, takeStep } from './flight-step.js'

/** The four temperatures that have limits. */
export const STORES = ['winding', 'case', 'board', 'pack'] as const
export type Store = (typeof STORES)[number]

export interface FullThrottleHold {
  /** s */
  readonly time: number
  readonly endedBy: Store | 'charge' | 'underpowered'
}

/** Longer than any pack lasts at full throttle, s. */
const STEP_TIME = 3600

/** Temperature limits, K. */
export function storeLimits(rig: Rig): Readonly<Record<Store, number>> {
  const { motor, esc, source } = rig.input.parts
  return {
    winding: motor.windingTemperatureLimit,
    case: motor.magnetTemperatureLimit,
    board: esc.boardTemperatureLimit,
    pack: source.temperatureLimit,
  }
}

/** Holds full throttle from a state until the first limit, or until the charge is down to a floor, A·s. */
export function fullThrottleHold(rig: Rig, from: FlightState, floor: number): FullThrottleHold {
  const state = copyOf(from)
  const peaks: FlightPeaks = { motor: { inner: 0, outer: 0 }, esc: { inner: 0, outer: 0 }, pack: 0 }
  let time = 0
  while (state.charge > floor) {
    const step = planStep(rig, state, { kind: 'top' }, STEP_TIME, floor)
    if (step === null) return { time, endedBy: 'underpowered' }
    const first = firstLimit(rig, state, step)
    if (first !== null) return { time: time + first.time, endedBy: first.store }
    takeStep(state, step, peaks)
    time += step.time
    // What the last step leaves over is rounding.
    if (state.charge - floor < 1e-9 * rig.input.parts.source.capacity) break
  }
  return { time, endedBy: 'charge' }
}

/** The first temperature limit met in a step, and when. */
function firstLimit(rig: Rig, state: FlightState, step: Step): { time: number; store: Store } | null {
  const limits = storeLimits(rig)
  const packTime = state.pack >= limits.pack ? 0 : ((limits.pack - state.pack) / step.packRise) * step.time
  const times: Readonly<Record<Store, number | null>> = {
    winding: timeToReach(step.motor, state.motor, 'inner', limits.winding - rig.air),
    case: timeToReach(step.motor, state.motor, 'outer', limits.case - rig.air),
    board: timeToReach(step.esc, state.esc, 'inner', limits.board - rig.air),
    pack: packTime <= step.time ? packTime : null,
  }
  let first: { time: number; store: Store } | null = null
  for (const store of STORES) {
    const time = times[store]
    if (time !== null && (first === null || time < first.time)) first = { time, store }
  }
  return first
}
