// Resistance of a lithium-polymer cell against temperature: an Arrhenius law with an activation energy of 20 kJ/mol.
// Assumed: one activation energy for every make; resistance does not depend on the state of charge here.
import { ZERO_CELSIUS } from '../constants.js'

const GAS_CONSTANT = 8.31446
const ACTIVATION_ENERGY = 20_000
const REFERENCE_TEMPERATURE = ZERO_CELSIUS + 25

/** Resistance at a temperature (K) over that at 25 °C. */
export function resistanceFactor(temperature: number): number {
  return Math.exp((ACTIVATION_ENERGY / GAS_CONSTANT) * (1 / temperature - 1 / REFERENCE_TEMPERATURE))
}
