// What a speed controller takes between pack and motor. The bus delivers
//   P_bus = δ·V_bus·I + [quiescent + proportional·P_bus] + part-throttle losses,
// and the motor sees V = δ·V_bus − I·R. At full throttle nothing switches; below it every period switches the bus
// voltage twice and the current freewheels for the rest: through a diode, when only one of the two switches conducts, or
// synchronously, when both do but for the dead times.
// Source: buck-converter loss formulas of the data sheets ROHM 64AN035E, TI LM2735-Q1 and TI LMR12015.
import { ZERO_CELSIUS } from '../constants.js'
import type { Esc } from './esc.js'

/** Temperature at which a path resistance is listed, K (25 °C). */
const RESISTANCE_REFERENCE = ZERO_CELSIUS + 25

/**
 * Extra iron and ripple loss in the motor at part throttle, as a share of V·I·4δ(1 − δ).
 * Assumed: makes a cap of 70 % cost about 2 % of the power, between the transistor losses alone (0.3 %) and
 * what installations lose in practice (common practice, no source).
 */
export const RIPPLE_LOSS_SHARE = 0.025

/** Path resistance at a temperature (K), Ω. */
export function pathResistance(
  esc: Pick<Esc, 'resistance' | 'resistanceTemperatureCoefficient'>,
  temperature: number,
): number {
  return esc.resistance * (1 + esc.resistanceTemperatureCoefficient * (temperature - RESISTANCE_REFERENCE))
}

/** Energy of both edges of each period as a share of V·I: ½·(tr + tf)·f; nothing switches at full throttle. */
export function switchingShare(esc: Pick<Esc, 'switchingTime' | 'switchingFrequency'>, duty: number): number {
  return duty >= 1 ? 0 : 0.5 * esc.switchingTime * esc.switchingFrequency
}

/** Voltage lost on average while freewheeling: Vf·(1 − δ) through a diode, 2·t_dead·f·Vf when synchronous. */
export function freewheelVoltage(esc: Pick<Esc, 'freewheelDrop' | 'deadTimeDrop'>, duty: number): number {
  return duty >= 1 ? 0 : esc.freewheelDrop * (1 - duty) + esc.deadTimeDrop
}

/** Share of the path resistance that carries the current, on average over a period. */
export function conductingShare(esc: Pick<Esc, 'freewheelResistanceShare'>, duty: number): number {
  return duty >= 1 ? 1 : duty + esc.freewheelResistanceShare * (1 - duty)
}

/** Ripple loss in the motor as a share of V·I. */
export function rippleShare(duty: number): number {
  return 4 * RIPPLE_LOSS_SHARE * duty * (1 - duty)
}
