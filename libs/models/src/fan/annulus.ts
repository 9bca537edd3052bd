// Geometry of the fan annulus.
import type { Fan } from './fan.js'

/** Area between hub and tip, m². */
export function annulusArea(fan: Pick<Fan, 'tipDiameter' | 'hubDiameter'>): number {
  return (Math.PI / 4) * (fan.tipDiameter ** 2 - fan.hubDiameter ** 2)
}

/** Radius that halves the annulus area, m; blade speed there stands for the whole blade. */
export function meanRadius(fan: Pick<Fan, 'tipDiameter' | 'hubDiameter'>): number {
  return Math.sqrt((fan.tipDiameter ** 2 + fan.hubDiameter ** 2) / 8)
}

/** Nozzle exit diameter of a nozzle ratio (exit area over annulus area), m. */
export function exitDiameter(fan: Pick<Fan, 'tipDiameter' | 'hubDiameter'>, nozzleRatio: number): number {
  return Math.sqrt((4 * nozzleRatio * annulusArea(fan)) / Math.PI)
}
