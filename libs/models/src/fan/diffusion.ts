// How hard the blade passages slow the flow: de Haller number and Lieblein diffusion factor from the velocity triangle
// at the mean radius without inlet swirl. Blades stall when either goes too far.
// Limits (de Haller W2/W1 ≥ 0.72; Lieblein ≤ 0.45 in design, 0.6 at most) are cited from memory.
import { pressureRise, stageEfficiency } from './characteristic.js'
import { type Ducted, flowCoefficient } from './duct-flow.js'
import type { Fan } from './fan.js'

/** De Haller number under which the report warns. Cited from memory. */
export const DE_HALLER_WARNING = 0.72
/** De Haller number under which a nozzle is refused: the blades would stall standing. Assumed. */
export const DE_HALLER_REFUSAL = 0.69
/** Blade solidity (chord over pitch) used in the diffusion factor. Assumed. */
const SOLIDITY = 1.16

/** Euler work coefficient: swirl speed behind the rotor over mean blade speed. */
export function eulerWork(fan: Fan, phi: number): number {
  return pressureRise(fan, phi) / stageEfficiency(fan, phi)
}

/** Relative flow speed behind the rotor over that before it. */
export function deHallerNumber(fan: Fan, phi: number): number {
  const swirl = eulerWork(fan, phi)
  return Math.sqrt((phi * phi + (1 - swirl) ** 2) / (phi * phi + 1))
}

/** Lieblein diffusion factor at the mean radius. */
export function diffusionFactor(fan: Fan, phi: number): number {
  return 1 - deHallerNumber(fan, phi) + eulerWork(fan, phi) / (2 * SOLIDITY * Math.sqrt(phi * phi + 1))
}

/** De Haller number of the ducted fan standing still, where the passages work hardest. */
export function standingDeHaller(duct: Ducted): number {
  return deHallerNumber(duct.fan, flowCoefficient(duct, 0))
}
