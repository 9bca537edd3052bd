// The linear brushless motor: back-EMF and torque per ampere are one constant, losses are copper and no-load.
// Source: maxon motor catalogue, "Key information" (May 2009), p. 36; resistance against temperature after IEC 60028.
import { COPPER_REFERENCE_TEMPERATURE, COPPER_TEMPERATURE_COEFFICIENT } from '../constants.js'
import type { Motor } from './motor.js'

/** Winding resistance at a temperature (K), Ω. */
export function windingResistance(motor: Pick<Motor, 'resistance'>, temperature: number): number {
  return motor.resistance * (1 + COPPER_TEMPERATURE_COEFFICIENT * (temperature - COPPER_REFERENCE_TEMPERATURE))
}

/**
 * Speed constant at a timing. Lead beyond the best angle weakens the field: Kv rises as 1/cos γ and torque per ampere
 * falls as cos γ. Assumed (field-weakening argument), anchored at the timing where the listed value holds.
 */
export function speedConstantAt(motor: Pick<Motor, 'speedConstant' | 'timingReference'>, timing: number): number {
  return (motor.speedConstant * Math.cos(motor.timingReference)) / Math.cos(timing)
}

/** No-load current at a shaft speed (rad/s), A. */
export function noLoadCurrent(motor: Pick<Motor, 'noLoadCurrent' | 'noLoadCurrentSlope'>, shaftSpeed: number): number {
  return motor.noLoadCurrent + motor.noLoadCurrentSlope * shaftSpeed
}

/** Motor efficiency (1 − I0/I)(1 − I·R/V). */
export function motorEfficiency(voltage: number, current: number, idleCurrent: number, resistance: number): number {
  return (1 - idleCurrent / current) * (1 - (current * resistance) / voltage)
}

/** Current of best efficiency √(I0·V/R), A. */
export function bestCurrent(voltage: number, idleCurrent: number, resistance: number): number {
  return Math.sqrt((idleCurrent * voltage) / resistance)
}

/** Best efficiency (1 − √(I0/Istall))². */
export function bestEfficiency(voltage: number, idleCurrent: number, resistance: number): number {
  return (1 - Math.sqrt((idleCurrent * resistance) / voltage)) ** 2
}
