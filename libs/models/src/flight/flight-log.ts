// The flight so far: clock, state, the phases flown, and where each temperature was highest. A phase is flown in as many
// steps as its charge takes; its currents, power, speed and duty are means over its time, its pack voltage the least.
import { copyOf, type FlightState, type Rig } from './flight-rig.js'
import { type FlightPeaks, type Power, planStep, type Step, takeStep } from './flight-step.js'
import { STORES, type Store } from './full-throttle-hold.js'

export type PhaseName = 'take-off' | 'climb' | 'pass' | 'turn' | 'cruise' | 'approach'

/** One phase; SI, temperatures K. */
export interface TimelinePhase {
  readonly phase: PhaseName
  readonly start: number
  readonly time: number
  readonly speed: number
  readonly duty: number
  readonly packVoltage: number
  readonly packCurrent: number
  readonly motorCurrent: number
  readonly packPower: number
  /** Share of the capacity left at the end. */
  readonly chargeLeft: number
  /** At the end. */
  readonly winding: number
  readonly case: number
  readonly board: number
  readonly pack: number
  /** The temperatures that are highest in this phase of all. */
  readonly peaks: readonly Store[]
}

/** Highest temperature of the flight, K, and the index of its phase; null when nothing was flown. */
export interface TimelinePeak {
  readonly temperature: number
  readonly phase: number | null
}

/** How flying a phase ended: in full, at the charge to be kept, or without power to fly on. */
export type PhaseEnd = 'done' | 'charge' | 'underpowered'

export class FlightLog {
  readonly state: FlightState
  clock = 0
  /** Passes flown to their end. */
  passes = 0
  readonly #rig: Rig
  readonly #phases: Omit<TimelinePhase, 'peaks'>[] = []
  readonly #peaks: Record<Store, { temperature: number; phase: number | null }>

  constructor(rig: Rig, state: FlightState) {
    this.#rig = rig
    this.state = state
    const peak = (temperature: number) => ({ temperature, phase: null })
    const { motor, esc, pack } = temperatures(rig, state)
    this.#peaks = { winding: peak(motor.inner), case: peak(motor.outer), board: peak(esc.inner), pack: peak(pack) }
  }

  /** A log that goes on from here without remembering what was. */
  fork(): FlightLog {
    const fork = new FlightLog(this.#rig, copyOf(this.state))
    fork.clock = this.clock
    return fork
  }

  /** Flies a phase for a time (s), or until the charge is down to a floor (A·s). */
  fly(phase: PhaseName, power: Power, time: number, floor: number): PhaseEnd {
    const { state } = this
    const rounding = 1e-9 * this.#rig.input.parts.source.capacity
    const peaks: FlightPeaks = { motor: { ...state.motor }, esc: { ...state.esc }, pack: state.pack }
    const sums = new PhaseSums()
    let end: PhaseEnd = 'done'
    while (time - sums.time > 1e-9 * time && end === 'done') {
      const step =
        state.charge - floor > rounding ? planStep(this.#rig, state, power, time - sums.time, floor) : 'charge'
      if (step === null) end = 'underpowered'
      else if (step === 'charge') end = 'charge'
      else {
        takeStep(state, step, peaks)
        sums.add(step)
      }
    }
    if (sums.time > 0) this.#record(phase, sums, peaks)
    return end
  }

  /** What the log adds up to. */
  summary() {
    const { capacity } = this.#rig.input.parts.source
    const phases = this.#phases.map((phase, index) => ({
      ...phase,
      peaks: STORES.filter((store) => this.#peaks[store].phase === index),
    }))
    const passes = phases.filter(({ phase }) => phase === 'pass')
    return {
      phases,
      time: this.clock,
      chargeUsed: capacity - this.state.charge,
      passes: this.passes,
      firstPassSpeed: passes[0]?.speed ?? null,
      lastPassSpeed: passes.at(-1)?.speed ?? null,
      packVoltage: phases.reduce<number | null>(
        (least, next) => Math.min(least ?? next.packVoltage, next.packVoltage),
        null,
      ),
      peaks: this.#peaks,
    }
  }

  #record(phase: PhaseName, sums: PhaseSums, peaks: FlightPeaks): void {
    const { motor, esc, pack } = temperatures(this.#rig, this.state)
    const highest = temperatures(this.#rig, peaks)
    this.#raise('winding', highest.motor.inner)
    this.#raise('case', highest.motor.outer)
    this.#raise('board', highest.esc.inner)
    this.#raise('pack', highest.pack)
    this.#phases.push({
      phase,
      start: this.clock,
      time: sums.time,
      speed: sums.speed / sums.time,
      duty: sums.duty / sums.time,
      packVoltage: sums.leastVoltage,
      packCurrent: sums.charge / sums.time,
      motorCurrent: sums.motorCharge / sums.time,
      packPower: sums.energy / sums.time,
      chargeLeft: this.state.charge / this.#rig.input.parts.source.capacity,
      winding: motor.inner,
      case: motor.outer,
      board: esc.inner,
      pack,
    })
    this.clock += sums.time
  }

  #raise(store: Store, temperature: number): void {
    if (temperature > this.#peaks[store].temperature) this.#peaks[store] = { temperature, phase: this.#phases.length }
  }
}

class PhaseSums {
  time = 0
  speed = 0
  duty = 0
  charge = 0
  motorCharge = 0
  energy = 0
  leastVoltage = Number.POSITIVE_INFINITY

  add({ time, point, voltage }: Step): void {
    this.time += time
    this.speed += time * point.speed
    this.duty += time * point.duty
    this.charge += time * point.busCurrent
    this.motorCharge += time * point.current
    this.energy += time * point.busCurrent * point.busVoltage
    this.leastVoltage = Math.min(this.leastVoltage, voltage)
  }
}

/** Temperatures in K; those of the motor and controller are kept above the air. */
function temperatures(rig: Rig, { motor, esc, pack }: Pick<FlightPeaks, 'motor' | 'esc' | 'pack'>) {
  const { air } = rig
  return {
    motor: { inner: air + motor.inner, outer: air + motor.outer },
    esc: { inner: air + esc.inner, outer: air + esc.outer },
    pack,
  }
}
