// What a flight is made of: take-off, climb, the legs that repeat, approach. Each leg is a throttle setting and a time.
// Assumed: speed changes at once between legs; turns are flown at cruise speed, banked 60° or as far as stall margin,
// structure and thrust allow; the approach takes the power of level flight at 1.3 times the stall speed, since gear and
// flaps cost about what the descent gives.
import { CRUISE_STALL_FACTOR } from '../evaluation/assumed-state.js'
import { tightestTurn, turnLoadFactor } from '../structure/loads.js'
import { bestClimb } from './climb.js'
import type { PhaseName } from './flight-log.js'
import type { FlightState, Rig } from './flight-rig.js'
import { type Power, runningAt } from './flight-step.js'
import { LANDING_FACTOR } from './stall.js'
import { LIFT_OFF_FACTOR, MEAN_FORCE_SPEED, rollTime } from './take-off.js'
import { halfTurnTime, stallLoadFactor, sustainedLoadFactor, turnDrag } from './turn.js'

export interface Leg {
  readonly phase: PhaseName
  readonly power: Power
  /** s */
  readonly time: number
}

/** Load factor of turns where nothing asks for less: 60° of bank. Assumed. */
const TURN_LOAD_FACTOR = 2
/** A turn keeps this factor from the stall speed, and from the load factor that full throttle sustains. Assumed. */
const TURN_MARGIN = 1.1

/** Roll at full throttle; no time when launched, null when it never lifts off. */
export function takeOffLeg(rig: Rig): Leg | null {
  const { roll, stall } = rig.input
  const liftOff = LIFT_OFF_FACTOR * stall
  const power: Power = { kind: 'full', speed: MEAN_FORCE_SPEED * liftOff }
  if (roll === null) return { phase: 'take-off', power, time: 0 }
  return roll < Number.POSITIVE_INFINITY ? { phase: 'take-off', power, time: rollTime(roll, liftOff) } : null
}

/** Best climb at full throttle to the height of the profile; null when it does not climb. */
export function climbLeg(rig: Rig, state: FlightState): Leg | null {
  const { parasite, induced, stall, circumstances } = rig.input
  const { climbHeight } = circumstances.profile
  const slowest = CRUISE_STALL_FACTOR * stall
  const fastest = runningAt(rig, state, { kind: 'top' })?.point.speed ?? 0
  if (!(fastest > slowest)) return null
  const excess = (speed: number): number => {
    const thrust = runningAt(rig, state, { kind: 'full', speed })?.point.thrust ?? 0
    return thrust - parasite * speed * speed - induced / (speed * speed)
  }
  if (climbHeight === 0) return { phase: 'climb', power: { kind: 'full', speed: slowest }, time: 0 }
  const best = bestClimb(slowest, fastest, excess, rig.weight)
  if (!(best.rate > 0)) return null
  return { phase: 'climb', power: { kind: 'full', speed: best.speed }, time: climbHeight / best.rate }
}

/** Pass, turn and cruise; what has no time is left out. */
export function repeatedLegs(rig: Rig, state: FlightState, passTime: number, cruiseTime: number): readonly Leg[] {
  const { halfTurns = 1 } = rig.input
  const speed = cruiseSpeed(rig)
  const n = turningFactor(rig, state, speed)
  const turnTime = halfTurns > 0 ? Math.min(cruiseTime, halfTurns * halfTurnTime(speed, tightestTurn(speed, n))) : 0
  const legs: readonly Leg[] = [
    { phase: 'pass', power: { kind: 'top' }, time: passTime },
    { phase: 'turn', power: holdPower(rig, speed, n), time: turnTime },
    { phase: 'cruise', power: cruisePower(rig), time: cruiseTime - turnTime },
  ]
  return legs.filter(({ time }) => time > 0)
}

export function approachLeg(rig: Rig): Leg {
  const { stall, circumstances } = rig.input
  const power = holdPower(rig, LANDING_FACTOR * stall, 1)
  return { phase: 'approach', power, time: circumstances.profile.approachTime }
}

export function cruisePower(rig: Rig): Power {
  return holdPower(rig, cruiseSpeed(rig), 1)
}

/** Charge to keep for the approach and the reserve, A·s; the approach at the current it takes at the reserve. */
export function chargeToKeep(rig: Rig, state: FlightState): number {
  const { parts, circumstances } = rig.input
  const reserve = circumstances.profile.reserve * parts.source.capacity
  const { power, time } = approachLeg(rig)
  return reserve + time * (runningAt(rig, { ...state, charge: reserve }, power)?.point.busCurrent ?? 0)
}

/** Load factor of the turns at a speed. */
function turningFactor(rig: Rig, state: FlightState, speed: number): number {
  const { parasite, induced, stall, circumstances } = rig.input
  const { loadFactor, turnRadius } = circumstances.profile
  const thrust = runningAt(rig, state, { kind: 'full', speed })?.point.thrust ?? 0
  const wanted = turnRadius < Number.POSITIVE_INFINITY ? turnLoadFactor(speed, turnRadius) : TURN_LOAD_FACTOR
  const flyable = Math.min(
    stallLoadFactor(speed, TURN_MARGIN * stall),
    sustainedLoadFactor(parasite, induced, speed, thrust) / TURN_MARGIN,
  )
  return Math.max(1, Math.min(wanted, TURN_LOAD_FACTOR, loadFactor, flyable))
}

function cruiseSpeed(rig: Rig): number {
  return Math.max(rig.input.circumstances.profile.cruiseSpeed, CRUISE_STALL_FACTOR * rig.input.stall)
}

/** As much throttle as level flight at a speed and load factor takes. */
function holdPower(rig: Rig, speed: number, loadFactor: number): Power {
  return { kind: 'hold', speed, thrust: turnDrag(rig.input.parasite, rig.input.induced, speed, loadFactor) }
}
