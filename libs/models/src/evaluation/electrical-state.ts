// The two electrical states a setup is worked out in: full (a full warm pack, cold windings: where limits are judged) and
// quoted (the stated charge, everything warm: where speed is compared). Fills a power train from parts; what depends on the
// circumstances alone is worked out once.
import type { Esc } from '../esc/esc.js'
import { pathResistance } from '../esc/esc-losses.js'
import { fluxFactor } from '../motor/magnet.js'
import type { Motor } from '../motor/motor.js'
import { speedConstantAt, windingResistance } from '../motor/motor-equations.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import type { Source } from '../pack/arrangement.js'
import { chargeResistanceFactor, resistanceFactor } from '../pack/cell-resistance.js'
import { openCircuitVoltage } from '../pack/open-circuit-voltage.js'
import type { Circumstances } from '../sweep/problem.js'
import {
  CUT_OFF_VOLTAGE,
  WARM_ESC_TEMPERATURE,
  WARM_MAGNET_TEMPERATURE,
  WARM_PACK_TEMPERATURE,
  WARM_WINDING_TEMPERATURE,
} from './assumed-state.js'

/** What of a controller and a source fills a train. */
export type FilledEsc = Pick<
  Esc,
  'resistance' | 'resistanceTemperatureCoefficient' | 'quiescentPower' | 'proportionalLoss'
>
export type FilledSource = Pick<Source, 'cells' | 'cellVoltageShift' | 'cellResistance' | 'leadResistance'>

export class ElectricalState {
  /** Warm cell resistance at the quoted charge and at the landing reserve over that listed. */
  readonly quotedCells: number
  readonly reserveCells: number
  /** Sag on the last pass that leaves a cell above its cut-off, V. */
  readonly allowedSag: number
  readonly #warmCells = resistanceFactor(WARM_PACK_TEMPERATURE)
  readonly #flux = fluxFactor(WARM_MAGNET_TEMPERATURE)
  readonly #fullVoltage = openCircuitVoltage(1)
  readonly #quotedVoltage: number

  constructor({ charge, profile }: Pick<Circumstances, 'charge' | 'profile'>) {
    this.#quotedVoltage = openCircuitVoltage(charge)
    this.quotedCells = this.#warmCells * chargeResistanceFactor(charge)
    this.reserveCells = this.#warmCells * chargeResistanceFactor(profile.reserve)
    this.allowedSag = openCircuitVoltage(profile.reserve) - CUT_OFF_VOLTAGE
  }

  /** Fills both trains; their duty is set apart. */
  fill(motor: Motor, timing: number, esc: FilledEsc, source: FilledSource, full: PowerTrain, quoted: PowerTrain): void {
    const speedConstant = speedConstantAt(motor, timing) / this.#flux
    common(full, speedConstant, motor, esc)
    common(quoted, speedConstant, motor, esc)
    full.openVoltage = source.cells * (this.#fullVoltage + source.cellVoltageShift)
    full.sourceResistance = source.cellResistance * this.#warmCells + source.leadResistance
    full.motorResistance = motor.resistance
    full.pathResistance = esc.resistance
    quoted.openVoltage = source.cells * (this.#quotedVoltage + source.cellVoltageShift)
    quoted.sourceResistance = source.cellResistance * this.quotedCells + source.leadResistance
    quoted.motorResistance = windingResistance(motor, WARM_WINDING_TEMPERATURE)
    quoted.pathResistance = pathResistance(esc, WARM_ESC_TEMPERATURE)
  }
}

function common(train: PowerTrain, speedConstant: number, motor: Motor, esc: FilledEsc): void {
  train.speedConstant = speedConstant
  train.idleCurrent = motor.noLoadCurrent
  train.idleCurrentSlope = motor.noLoadCurrentSlope
  train.quiescentPower = esc.quiescentPower
  train.proportionalLoss = esc.proportionalLoss
}
