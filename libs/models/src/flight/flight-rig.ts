// One setup made ready to be flown through time, and the state it is in: charge, pack, motor and controller temperatures.
// The electrical state follows from it: resting voltage and cell resistance from charge and pack temperature, copper from the
// winding, the speed constant from the magnets (as warm as the case), the path resistance from the board.
import { STANDARD_GRAVITY } from '../constants.js'
import { pathResistance } from '../esc/esc-losses.js'
import { PACK_START_TEMPERATURE } from '../evaluation/assumed-state.js'
import type { Parts } from '../evaluation/evaluator.js'
import { fluxFactor } from '../motor/magnet.js'
import { speedConstantAt, windingResistance } from '../motor/motor-equations.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import { chargeResistanceFactor, resistanceFactor } from '../pack/cell-resistance.js'
import { openCircuitVoltage } from '../pack/open-circuit-voltage.js'
import type { Circumstances } from '../sweep/problem.js'
import type { HeatPath, HeatState } from '../thermal/two-node.js'

/** What is flown; SI. */
export interface TimelineInput {
  readonly parts: Parts
  readonly circumstances: Circumstances
  /** Duty at full throttle: 1, or the cap that the transmitter is set to. */
  readonly duty: number
  /** Take-off mass, kg. */
  readonly mass: number
  /** Stall speed without flaps, m/s. */
  readonly stall: number
  /** Drag without the induced part over V², N·s²/m², and induced drag times V², N·m²/s². */
  readonly parasite: number
  readonly induced: number
  /** Ground roll, m; null when launched. */
  readonly roll: number | null
  /** Half turns between a pass and the next, 1 unless given: passes to and fro. */
  readonly halfTurns?: number
}

/** The input with what stays the same all flight. */
export interface Rig {
  readonly input: TimelineInput
  readonly speedConstant: number
  readonly motorPath: HeatPath
  readonly escPath: HeatPath
  readonly air: number
  /** N */
  readonly weight: number
}

/** Charge A·s; pack K; winding (inner) and case (outer), board (inner) and heat sink (outer) above the air, K. */
export interface FlightState {
  charge: number
  pack: number
  readonly motor: HeatState
  readonly esc: HeatState
}

/**
 * @throws RangeError for a duty outside 0 to 1, a mass or stall speed that is not above 0, or fewer half turns than none
 */
export function rigOf(input: TimelineInput): Rig {
  const { duty, mass, stall, parts, circumstances, halfTurns = 1 } = input
  if (!(duty > 0 && duty <= 1)) throw new RangeError(`duty of a flight must lie above 0 and at most 1, got ${duty}`)
  if (!(mass > 0)) throw new RangeError(`mass of a flight must be above 0 kg, got ${mass}`)
  if (!(stall > 0)) throw new RangeError(`stall speed of a flight must be above 0 m/s, got ${stall}`)
  if (!(halfTurns >= 0)) throw new RangeError(`half turns after a pass must be at least 0, got ${halfTurns}`)
  const { motor, esc } = parts
  return {
    input,
    speedConstant: speedConstantAt(motor, parts.timing),
    motorPath: {
      innerCapacity: motor.windingHeatCapacity,
      outerCapacity: motor.caseHeatCapacity,
      between: motor.windingToCaseConductance,
      toAir: motor.caseToAirConductance,
    },
    escPath: {
      innerCapacity: esc.boardHeatCapacity,
      outerCapacity: esc.sinkHeatCapacity,
      between: esc.boardToSinkConductance,
      toAir: esc.sinkToAirConductance,
    },
    air: circumstances.airTemperature,
    weight: mass * STANDARD_GRAVITY,
  }
}

/** Full pack at its starting temperature, motor and controller as cold as the air. */
export function startingState(rig: Rig): FlightState {
  return {
    charge: rig.input.parts.source.capacity,
    pack: Math.max(rig.air, PACK_START_TEMPERATURE),
    motor: { inner: 0, outer: 0 },
    esc: { inner: 0, outer: 0 },
  }
}

export function copyOf(state: FlightState): FlightState {
  return { ...state, motor: { ...state.motor }, esc: { ...state.esc } }
}

/** Resistance of all cells, Ω. */
export function cellResistanceAt(rig: Rig, { charge, pack }: Pick<FlightState, 'charge' | 'pack'>): number {
  const { source } = rig.input.parts
  return source.cellResistance * resistanceFactor(pack) * chargeResistanceFactor(shareOf(rig, charge))
}

/** Open-circuit voltage of the pack with a charge (A·s) left, V. */
export function openVoltageAt(rig: Rig, charge: number): number {
  const { source } = rig.input.parts
  return source.cells * (openCircuitVoltage(shareOf(rig, charge)) + source.cellVoltageShift)
}

/** Fills the electrical state but for the duty. */
export function fillTrain(rig: Rig, state: FlightState, train: PowerTrain): void {
  const { motor, esc, source } = rig.input.parts
  train.speedConstant = rig.speedConstant / fluxFactor(rig.air + state.motor.outer)
  train.idleCurrent = motor.noLoadCurrent
  train.idleCurrentSlope = motor.noLoadCurrentSlope
  train.motorResistance = windingResistance(motor, rig.air + state.motor.inner)
  train.pathResistance = pathResistance(esc, rig.air + state.esc.inner)
  train.quiescentPower = esc.quiescentPower
  train.proportionalLoss = esc.proportionalLoss
  train.openVoltage = openVoltageAt(rig, state.charge)
  train.sourceResistance = cellResistanceAt(rig, state) + source.leadResistance
}

function shareOf(rig: Rig, charge: number): number {
  return Math.min(1, Math.max(0, charge / rig.input.parts.source.capacity))
}
