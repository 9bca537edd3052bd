// Magnets weaken as they warm: the flux of neodymium magnets falls by 0.12 %/K, so the speed constant rises and the torque
// per ampere falls by the same share. Source: makers' tables of neodymium grades give 0.10 to 0.12 %/K, from memory. Valid
// below the limit of the magnet grade, above which the loss stays.

/** Relative fall of the flux, 1/K. */
export const FLUX_TEMPERATURE_COEFFICIENT = 0.0012
/** Temperature at which a listed speed constant holds, K (20 °C). */
const REFERENCE_TEMPERATURE = 293.15

/** Flux at a magnet temperature (K) over that at 20 °C: the speed constant divides by it. */
export function fluxFactor(temperature: number): number {
  return 1 - FLUX_TEMPERATURE_COEFFICIENT * (temperature - REFERENCE_TEMPERATURE)
}
