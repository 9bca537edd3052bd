// How far the loads stay below what the structure is designed for. Each criterion is a share of its design load:
// dynamic pressure, wing root bending at a load factor, thrust on the fan mount. The margin is the part left unused,
// 1 − share; the criterion with the least margin binds.
// Left out: an airframe nobody has tested may be weaker than its row says; control surfaces are inside the design speed.
import { SEA_LEVEL_DENSITY } from '../atmosphere/standard-atmosphere.js'

/** Root bending moment of an elliptic lift distribution over n·W·b. */
export const ELLIPTIC_ROOT_MOMENT = 2 / (3 * Math.PI) / 2
/** Ultimate over allowed load. Assumed: the usual factor of safety of aircraft structures. */
export const SAFETY_FACTOR = 1.5

/** Criteria in the order of testing. */
export const MARGIN_CRITERIA = ['design-speed', 'wing-bending', 'fan-mount'] as const
export type MarginCriterion = (typeof MARGIN_CRITERIA)[number]

/** Dynamic pressure over that at the design speed (an equivalent air speed at sea level). */
export function pressureShare(speed: number, density: number, designSpeed: number): number {
  return (density * speed * speed) / (SEA_LEVEL_DENSITY * designSpeed * designSpeed)
}

/** Allowed load factor of a wing at a weight (N) and span (m), from its ultimate root moment (N·m). */
export function allowedLoadFactor(rootMomentUltimate: number, weight: number, span: number): number {
  return rootMomentUltimate / (SAFETY_FACTOR * ELLIPTIC_ROOT_MOMENT * weight * span)
}

/** Bending moment at the wing root, N·m: k·n·W·b. */
export function rootBendingMoment(shape: number, loadFactor: number, weight: number, span: number): number {
  return shape * loadFactor * weight * span
}
