// One step of a flight: an operating point is solved, its currents hold for the step, the heat is exact over it. The point
// is that of the charge and the temperatures in the middle of the step, foreseen from the point at its start (magnets that
// warm by 30 K in one pass raise the current by a tenth); a step never takes more than a twentieth of the charge.
import { LEAST_SPEED_FACTOR } from '../evaluation/assumed-state.js'
import { escHeat, motorHeat, type Running } from '../evaluation/flight-heat.js'
import { solveAtDuty } from '../operating-point/at-duty.js'
import { solveAtSpeed } from '../operating-point/at-speed.js'
import { solveLevel } from '../operating-point/level.js'
import { emptyOperatingPoint } from '../operating-point/operating-point.js'
import { emptyPowerTrain, setDuty } from '../operating-point/power-train.js'
import { advance, type Peaks, type PhaseMap, phaseMap } from '../thermal/two-node.js'
import { notePeaks } from '../thermal/within-phase.js'
import { cellResistanceAt, copyOf, type FlightState, fillTrain, openVoltageAt, type Rig } from './flight-rig.js'

/** Largest share of the capacity that one step takes. */
const STEP_SHARE = 0.05

/** How the throttle is set: full and as fast as it goes, full at a speed (climb, take-off), or what a thrust needs. */
export type Power =
  | { readonly kind: 'top' }
  | { readonly kind: 'full'; readonly speed: number }
  | { readonly kind: 'hold'; readonly speed: number; readonly thrust: number }

export interface Step extends Running {
  readonly time: number
  readonly motor: PhaseMap
  readonly esc: PhaseMap
  /** Rise of the pack temperature, K. */
  readonly packRise: number
  /** Pack voltage at the end, V. */
  readonly voltage: number
}

/** Highest temperatures so far: motor and controller above the air, pack, K. */
export interface FlightPeaks {
  readonly motor: Peaks
  readonly esc: Peaks
  pack: number
}

/**
 * Plans the next step of at most a time (s), ending where the charge reaches a floor (A·s); null when there is no such
 * operating point at this state, or only with more throttle than there is.
 */
export function planStep(rig: Rig, state: FlightState, power: Power, time: number, floor: number): Step | null {
  const first = runningAt(rig, state, power)
  if (first === null) return null
  const { busCurrent } = first.point
  const steps = Math.max(1, Math.ceil((busCurrent * time) / (STEP_SHARE * rig.input.parts.source.capacity)))
  const length = Math.min(time / steps, (state.charge - floor) / busCurrent)
  const middle = halfway(rig, state, first, length)
  const running = runningAt(rig, middle, power)
  if (running === null) return null
  return stepOf(rig, state, middle, running, Math.min(length, (state.charge - floor) / running.point.busCurrent))
}

/** Takes the state through a step and raises the peaks. */
export function takeStep(state: FlightState, step: Step, peaks: FlightPeaks): void {
  for (const part of ['motor', 'esc'] as const) {
    const { inner, outer } = state[part]
    advance(step[part], state[part])
    notePeaks(step[part], inner, outer, state[part].inner, state[part].outer, peaks[part])
  }
  state.pack += step.packRise
  state.charge -= step.point.busCurrent * step.time
  peaks.pack = Math.max(peaks.pack, state.pack)
}

/** The operating point of a throttle setting at a state; null when there is none. */
export function runningAt(rig: Rig, state: FlightState, power: Power): Running | null {
  const { parts, circumstances, duty, parasite, induced, stall } = rig.input
  const { duct, advanceRatio } = parts.node
  const { density } = circumstances
  const train = emptyPowerTrain()
  const point = emptyOperatingPoint()
  const running = { train, point }
  fillTrain(rig, state, train)
  setDuty(train, parts.esc, duty)
  if (power.kind === 'full') return solveAtDuty(duct, density, power.speed, train, point) === 'ok' ? running : null
  if (power.kind === 'hold') {
    const outcome = solveAtSpeed(duct, density, power.speed, power.thrust, train, parts.esc, point)
    return outcome === 'ok' && point.duty <= duty ? running : null
  }
  // From above: no faster than an unloaded motor drives it.
  const start = advanceRatio * duty * train.openVoltage * train.speedConstant * duct.radius
  const least = LEAST_SPEED_FACTOR * stall
  return solveLevel(duct, density, parasite, induced, train, start, least, point) === 'ok' ? running : null
}

/** The state in the middle of a step, as far as the point at its start tells. */
function halfway(rig: Rig, state: FlightState, running: Running, time: number): FlightState {
  const middle = copyOf(state)
  const { motor, esc } = heatMaps(rig, running, 0.5 * time)
  advance(motor, middle.motor)
  advance(esc, middle.esc)
  middle.pack += packRise(rig, state, running, 0.5 * time)
  middle.charge -= 0.5 * running.point.busCurrent * time
  return middle
}

function stepOf(rig: Rig, state: FlightState, middle: FlightState, running: Running, time: number): Step {
  const end = state.charge - running.point.busCurrent * time
  const fall = openVoltageAt(rig, middle.charge) - openVoltageAt(rig, end)
  return {
    ...running,
    time,
    ...heatMaps(rig, running, time),
    packRise: packRise(rig, middle, running, time),
    voltage: running.point.busVoltage - fall,
  }
}

function heatMaps(rig: Rig, running: Running, time: number): Pick<Step, 'motor' | 'esc'> {
  const { motor, esc, node } = rig.input.parts
  return {
    motor: phaseMap(rig.motorPath, motorHeat(motor, node.duct.radius, rig.air, running, time)),
    esc: phaseMap(rig.escPath, escHeat(esc, rig.air, running, time)),
  }
}

function packRise(rig: Rig, state: FlightState, running: Running, time: number): number {
  return (running.point.busCurrent ** 2 * cellResistanceAt(rig, state) * time) / rig.input.parts.source.heatCapacity
}
