// A flight as phases in time: take-off, climb, passes at full throttle with a turn and a cruise after each, approach. Charge
// and temperatures are carried from phase to phase, so the last pass tells what is left of the first. Passes and cruise
// share the time as the wanted share at full throttle says, until the wanted time is up or only the charge for approach
// and reserve is left.
import { flightCycle } from '../evaluation/flight-heat.js'
import { coolDownTime } from './cool-down.js'
import { approachLeg, chargeToKeep, climbLeg, cruisePower, type Leg, repeatedLegs, takeOffLeg } from './flight-legs.js'
import { FlightLog, type PhaseEnd, type TimelinePeak, type TimelinePhase } from './flight-log.js'
import { copyOf, rigOf, startingState, type TimelineInput } from './flight-rig.js'
import { type FullThrottleHold, fullThrottleHold, type Store } from './full-throttle-hold.js'

/** SI; temperatures K. */
export interface Timeline {
  readonly phases: readonly TimelinePhase[]
  /** From the start of the take-off to the end of the approach, s. */
  readonly time: number
  /** Why the passes ended: the wanted time was up, only approach and reserve were left, or it could not fly (on). */
  readonly endedBy: 'time' | 'charge' | 'underpowered'
  /** Flight time had the passes gone on until only approach and reserve were left, s. */
  readonly timeToReserve: number
  /** A·s */
  readonly chargeUsed: number
  /** Passes flown to their end. */
  readonly passes: number
  /** Mean speed of the first and the last pass; null without a pass. */
  readonly firstPassSpeed: number | null
  readonly lastPassSpeed: number | null
  /** Least pack voltage; null when nothing was flown. */
  readonly packVoltage: number | null
  readonly peaks: Readonly<Record<Store, TimelinePeak>>
  /** Full throttle in one go, from the end of the climb on. */
  readonly fullThrottle: FullThrottleHold
  /** Least cruise after each planned pass that keeps the temperature limits; 0: none needed, null: five minutes do not do. */
  readonly coolDown: number | null
}

/**
 * Flies the profile of the circumstances.
 * @throws RangeError for a duty outside 0 to 1, or a mass or stall speed that is not above 0
 */
export function flightTimeline(input: TimelineInput): Timeline {
  const rig = rigOf(input)
  const { profile } = input.circumstances
  const log = new FlightLog(rig, startingState(rig))
  const begun = flyOnce(log, takeOffLeg(rig)) && flyOnce(log, climbLeg(rig, log.state))
  const climbed = copyOf(log.state)
  const floor = chargeToKeep(rig, climbed)
  const cycle = flightCycle(profile.flightTime, profile.fullThrottleShare, profile.passTime)
  const pattern = new Pattern(begun ? repeatedLegs(rig, climbed, cycle.hotTime, cycle.coolTime) : [])
  const ended = pattern.fly(log, profile.flightTime - profile.approachTime, floor)
  const beyond = log.fork()
  pattern.fly(beyond, Number.POSITIVE_INFINITY, floor)
  const approach = approachLeg(rig)
  if (begun) log.fly(approach.phase, approach.power, approach.time, 0)
  const { cycles: count, hotTime: passTime, coolTime: cruiseTime } = cycle
  const passes = { count, passTime, cruiseTime, cruise: cruisePower(rig), floor }
  return {
    ...log.summary(),
    endedBy: ended === 'done' ? 'time' : ended,
    timeToReserve: beyond.clock + (begun ? approach.time : 0),
    fullThrottle: fullThrottleHold(rig, climbed, floor),
    coolDown: coolDownTime(rig, climbed, passes),
  }
}

/** Flies a leg that may not exist; whether it was flown to its end. */
function flyOnce(log: FlightLog, leg: Leg | null): boolean {
  return leg !== null && log.fly(leg.phase, leg.power, leg.time, 0) === 'done'
}

/** Legs flown over and over; it remembers how far it has come, in a leg cut short as well. */
class Pattern {
  readonly #legs: readonly Leg[]
  #index = 0
  #flown = 0

  constructor(legs: readonly Leg[]) {
    this.#legs = legs
  }

  /** Flies on until a time on the clock, the charge to keep, or until it cannot. */
  fly(log: FlightLog, until: number, floor: number): PhaseEnd {
    if (this.#legs.length === 0) return 'underpowered'
    while (log.clock < until) {
      const leg = this.#legs[this.#index] as Leg
      const left = leg.time - this.#flown
      const time = Math.min(left, until - log.clock)
      const end = log.fly(leg.phase, leg.power, time, floor)
      if (end !== 'done') return end
      if (time < left) {
        this.#flown += time
        return 'done'
      }
      if (leg.phase === 'pass') log.passes++
      this.#flown = 0
      this.#index = (this.#index + 1) % this.#legs.length
    }
    return 'done'
  }
}
