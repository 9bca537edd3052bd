// The speeds that follow from the stall: lift-off and landing. Lift-off clean at 1.2 times the stall speed, approach and
// landing at 1.3 times it with flaps down (common practice, no source).
import { LIFT_OFF_FACTOR, stallSpeed } from './take-off.js'

/** Approach and landing speed over stall speed. */
export const LANDING_FACTOR = 1.3

/** m/s */
export interface StallSpeeds {
  readonly clean: number
  readonly flaps: number
  readonly liftOff: number
  readonly landing: number
}

/**
 * Speeds of a weight (N) in an air (kg/m³).
 * @throws RangeError for a highest lift coefficient with flaps below the one without
 */
export function stallSpeeds(
  airframe: {
    readonly wingArea: number
    readonly liftCoefficientMax: number
    readonly liftCoefficientMaxFlaps: number
  },
  weight: number,
  density: number,
): StallSpeeds {
  const { wingArea, liftCoefficientMax, liftCoefficientMaxFlaps } = airframe
  if (!(liftCoefficientMaxFlaps >= liftCoefficientMax)) {
    throw new RangeError(
      `liftCoefficientMaxFlaps must be at least liftCoefficientMax (${liftCoefficientMax}), got ${liftCoefficientMaxFlaps}`,
    )
  }
  const clean = stallSpeed(weight, density, wingArea, liftCoefficientMax)
  const flaps = stallSpeed(weight, density, wingArea, liftCoefficientMaxFlaps)
  return { clean, flaps, liftOff: LIFT_OFF_FACTOR * clean, landing: LANDING_FACTOR * flaps }
}
