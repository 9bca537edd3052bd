// How far the loads stay below what the structure allows. Each criterion is a share of its allowed load: dynamic pressure
// against each speed limit, wing root bending at a load factor, thrust on the fan mount. The margin is the part left
// unused, 1 − share; the criterion with the least margin binds.
// Left out: an airframe nobody has tested may be weaker than its row says.
import { SEA_LEVEL_DENSITY } from '../atmosphere/standard-atmosphere.js'
import { CRITERION_SCATTER, loadDivisor } from './criterion-scatter.js'
import { ELLIPTIC_ROOT_MOMENT, rootBendingMoment } from './loads.js'
import { SPEED_CRITERIA } from './speed-limits.js'

export { ELLIPTIC_ROOT_MOMENT, rootBendingMoment }

/** Ultimate over allowed load. Assumed: the usual factor of safety of aircraft structures. */
export const SAFETY_FACTOR = CRITERION_SCATTER['wing-bending'].factor

/** Criteria in the order of testing. */
export const MARGIN_CRITERIA = [...SPEED_CRITERIA, 'wing-bending', 'fan-mount'] as const
export type MarginCriterion = (typeof MARGIN_CRITERIA)[number]

const BENDING_DIVISOR = loadDivisor('wing-bending')
const MOUNT_DIVISOR = loadDivisor('fan-mount')

/** Dynamic pressure over that at the design speed (an equivalent air speed at sea level). */
export function pressureShare(speed: number, density: number, designSpeed: number): number {
  return (density * speed * speed) / (SEA_LEVEL_DENSITY * designSpeed * designSpeed)
}

/** Allowed load factor of a wing at a weight (N) and span (m), from its ultimate root moment (N·m). */
export function allowedLoadFactor(rootMomentUltimate: number, weight: number, span: number): number {
  return rootMomentUltimate / (BENDING_DIVISOR * rootBendingMoment(ELLIPTIC_ROOT_MOMENT, 1, weight, span))
}

/** Thrust that a mount of a stated load may carry, N. */
export function allowedMountLoad(mountLoad: number): number {
  return mountLoad / MOUNT_DIVISOR
}
