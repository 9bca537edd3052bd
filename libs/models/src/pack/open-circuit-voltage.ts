// Open-circuit voltage of a lithium-polymer cell against its state of charge, by linear interpolation of a widely used
// resting-voltage chart (±0.03 V), and the published curve of Chen & Rincón-Mora for comparison.

/** Resting voltage every 5 % from empty to full, V. Widely used chart, no single source; ±0.03 V. */
const RESTING_VOLTAGE = [
  3.27, 3.61, 3.69, 3.71, 3.73, 3.75, 3.77, 3.79, 3.8, 3.82, 3.84, 3.85, 3.87, 3.91, 3.95, 3.98, 4.02, 4.08, 4.11, 4.15,
  4.2,
]

/**
 * Open-circuit voltage of one cell, V.
 * @param charge state of charge, 0 to 1
 * @throws RangeError outside that range
 */
export function openCircuitVoltage(charge: number): number {
  if (!(charge >= 0 && charge <= 1)) throw new RangeError(`state of charge must lie between 0 and 1, got ${charge}`)
  const position = charge * (RESTING_VOLTAGE.length - 1)
  const index = Math.min(Math.floor(position), RESTING_VOLTAGE.length - 2)
  const low = RESTING_VOLTAGE[index] as number
  const high = RESTING_VOLTAGE[index + 1] as number
  return low + (high - low) * (position - index)
}

/** Cell of Chen & Rincón-Mora, IEEE Transactions on Energy Conversion 21 (2006): open-circuit voltage, V. */
export function chenRinconMoraVoltage(charge: number): number {
  const s = charge
  return -1.031 * Math.exp(-35 * s) + 3.685 + 0.2156 * s - 0.1178 * s * s + 0.3201 * s ** 3
}
