// Temperatures over a flight of equal full-throttle passes, each followed by cruise: where the losses of motor, speed
// controller and pack go, phase by phase. The heat stores themselves are in thermal/.
import { COPPER_REFERENCE_TEMPERATURE, COPPER_TEMPERATURE_COEFFICIENT } from '../constants.js'
import type { Esc } from '../esc/esc.js'
import { conductingShare, pathResistance } from '../esc/esc-losses.js'
import type { Motor } from '../motor/motor.js'
import type { OperatingPoint } from '../operating-point/operating-point.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import type { Source } from '../pack/arrangement.js'
import { cyclePeaks, type HeatPath, type Peaks, type PhaseHeat, phaseMap } from '../thermal/two-node.js'
import { PACK_START_TEMPERATURE } from './assumed-state.js'

/** Passes of a flight and the length of each pass and of the cruise after it, s. */
export interface FlightCycle {
  readonly cycles: number
  readonly hotTime: number
  readonly coolTime: number
}

/** A solved point with the train that was solved. */
export interface Running {
  readonly point: OperatingPoint
  readonly train: PowerTrain
}

/** Splits a flight into whole passes that add up to its full-throttle share. */
export function flightCycle(flightTime: number, fullThrottleShare: number, passTime: number): FlightCycle {
  const onTime = flightTime * fullThrottleShare
  const cycles = Math.max(1, Math.round(onTime / passTime))
  return { cycles, hotTime: onTime / cycles, coolTime: (flightTime - onTime) / cycles }
}

/** Winding (inner) and case (outer) peaks above the air, K, into `peaks`. */
export function motorPeaks(
  motor: Motor,
  radius: number,
  air: number,
  cycle: FlightCycle,
  hot: Running,
  cool: Running,
  peaks: Peaks,
): void {
  const path = {
    innerCapacity: motor.windingHeatCapacity,
    outerCapacity: motor.caseHeatCapacity,
    between: motor.windingToCaseConductance,
    toAir: motor.caseToAirConductance,
  }
  run(
    path,
    motorHeat(motor, radius, air, hot, cycle.hotTime),
    motorHeat(motor, radius, air, cool, cycle.coolTime),
    cycle,
    peaks,
  )
}

/** Board (inner) and heat-sink (outer) peaks above the air, K, into `peaks`. */
export function escPeaks(esc: Esc, air: number, cycle: FlightCycle, hot: Running, cool: Running, peaks: Peaks): void {
  const path = {
    innerCapacity: esc.boardHeatCapacity,
    outerCapacity: esc.sinkHeatCapacity,
    between: esc.boardToSinkConductance,
    toAir: esc.sinkToAirConductance,
  }
  run(path, escHeat(esc, air, hot, cycle.hotTime), escHeat(esc, air, cool, cycle.coolTime), cycle, peaks)
}

/**
 * Pack temperature after the flight, K. Assumed: wrapped in the fuselage, it gives no heat to the air; its resistance
 * stays that of a warm pack.
 * @param resistance of all cells, warm, Ω
 */
export function packTemperature(
  source: Source,
  resistance: number,
  air: number,
  cycle: FlightCycle,
  hotCurrent: number,
  coolCurrent: number,
): number {
  const energy =
    cycle.cycles * resistance * (cycle.hotTime * hotCurrent * hotCurrent + cycle.coolTime * coolCurrent * coolCurrent)
  return Math.max(air, PACK_START_TEMPERATURE) + energy / source.heatCapacity
}

function run(path: HeatPath, hot: PhaseHeat, cool: PhaseHeat, cycle: FlightCycle, peaks: Peaks): void {
  const hotMap = phaseMap(path, hot)
  cyclePeaks(hotMap, cool.time > 0 ? phaseMap(path, cool) : null, cycle.cycles, peaks)
}

/** Copper loss in the winding, with feedback; no-load and ripple loss in the case. */
export function motorHeat(motor: Motor, radius: number, air: number, running: Running, time: number): PhaseHeat {
  const { point, train } = running
  const shaftSpeed = point.bladeSpeed / radius
  const copper = point.current * point.current * motor.resistance
  const idle = (train.idleCurrent + train.idleCurrentSlope * shaftSpeed) * (shaftSpeed / train.speedConstant)
  return {
    inner: copper * (1 + COPPER_TEMPERATURE_COEFFICIENT * (air - COPPER_REFERENCE_TEMPERATURE)),
    feedback: copper * COPPER_TEMPERATURE_COEFFICIENT,
    outer: idle + train.ripple * point.busVoltage * point.current,
    time,
  }
}

/** All losses on the board, conduction with feedback. */
export function escHeat(esc: Esc, air: number, running: Running, time: number): PhaseHeat {
  const { point, train } = running
  const square = point.current * point.current * conductingShare(esc, Math.min(1, point.duty))
  const turning =
    esc.quiescentPower +
    esc.proportionalLoss * point.busVoltage * point.busCurrent +
    (train.switching * point.busVoltage + train.freewheel) * point.current
  return {
    inner: square * pathResistance(esc, air) + turning,
    feedback: square * esc.resistance * esc.resistanceTemperatureCoefficient,
    outer: 0,
    time,
  }
}
