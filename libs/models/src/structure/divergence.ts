// Dynamic pressure at which a wing twists off because lift ahead of its elastic axis grows faster than the torsional
// stiffness holds it: q = (π/2l)²·GJ/(e·c·a0) held at the root, (π/l)²·GJ/(e·c·a0) held at both ends.
// In: length, chord, stiffness, offset of the elastic axis, lift slope. Out: Pa, or the true air speed in m/s.
// Valid for a straight, uniform beam in strip theory; taper and sweep are left out.
// Source: Hodges & Pierce; Megson.
import type { WingPanel } from './airframe-structure.js'
import { speedAtPressure } from './loads.js'
import { requirePositive } from './refusals.js'

/** A uniform wing held at the root, or at both ends as in a wind tunnel. */
export type Support = 'root' | 'both-ends'

/** What divergence depends on. */
export type TwistingWing = Pick<WingPanel, 'semispan' | 'chord' | 'torsionalStiffness' | 'elasticOffset' | 'liftSlope'>

/**
 * Dynamic pressure of divergence, Pa; Infinity when the elastic axis lies at or ahead of the quarter chord.
 * @throws RangeError when a length, the stiffness or the lift slope is not above 0, or the offset is no number
 */
export function divergencePressure(wing: TwistingWing, support: Support = 'root'): number {
  requirePositive('exposed semispan', wing.semispan, 'm')
  requirePositive('mean chord', wing.chord, 'm')
  requirePositive('torsional stiffness', wing.torsionalStiffness, 'N·m²')
  requirePositive('lift slope', wing.liftSlope, '1/rad')
  if (!(Math.abs(wing.elasticOffset) <= 1)) {
    throw new RangeError(`offset of the elastic axis must lie between -1 and 1 chord, got ${wing.elasticOffset}`)
  }
  if (wing.elasticOffset <= 0) return Number.POSITIVE_INFINITY
  const waveNumber = Math.PI / (support === 'root' ? 2 * wing.semispan : wing.semispan)
  return (waveNumber ** 2 * wing.torsionalStiffness) / (wing.elasticOffset * wing.chord ** 2 * wing.liftSlope)
}

/** True air speed of divergence in air of a density (kg/m³), m/s; Infinity when nothing diverges. */
export function divergenceSpeed(wing: TwistingWing, density: number, support: Support = 'root'): number {
  return speedAtPressure(divergencePressure(wing, support), density)
}
