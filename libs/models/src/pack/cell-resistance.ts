// Resistance of a lithium-polymer cell against temperature, an Arrhenius law with an activation energy of 20 kJ/mol, and
// against its state of charge. Assumed: one activation energy for every make; the resistance is that of the catalogue down
// to 30 % of charge and doubles from there to empty along a parabola.
import { ZERO_CELSIUS } from '../constants.js'

const GAS_CONSTANT = 8.31446
const ACTIVATION_ENERGY = 20_000
const REFERENCE_TEMPERATURE = ZERO_CELSIUS + 25

/** Resistance at a temperature (K) over that at 25 °C. */
export function resistanceFactor(temperature: number): number {
  return Math.exp((ACTIVATION_ENERGY / GAS_CONSTANT) * (1 / temperature - 1 / REFERENCE_TEMPERATURE))
}

/** State of charge under which the resistance rises. Assumed. */
const LOW_CHARGE = 0.3

/** Resistance at a state of charge (0 to 1) over that of a well-charged cell. */
export function chargeResistanceFactor(charge: number): number {
  const missing = Math.max(0, (LOW_CHARGE - charge) / LOW_CHARGE)
  return 1 + missing * missing
}
