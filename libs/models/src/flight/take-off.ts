// Stall speed and ground roll. Roll by the mean force at 0.7 of the lift-off speed with the lift coefficient that rolls
// shortest; Anderson, Introduction to Flight (cited from memory).
import { STANDARD_GRAVITY } from '../constants.js'

/** Lift-off speed over stall speed. */
export const LIFT_OFF_FACTOR = 1.2
/** Share of the lift-off speed at which the mean force acts. */
export const MEAN_FORCE_SPEED = 0.7

/** Speed at which lift at the highest lift coefficient equals the weight, m/s. */
export function stallSpeed(weight: number, density: number, wingArea: number, liftCoefficientMax: number): number {
  return Math.sqrt((2 * weight) / (density * wingArea * liftCoefficientMax))
}

/**
 * Ground roll to lift-off, m; Infinity when the thrust does not overcome friction and drag.
 * @param thrust at the mean-force speed, N
 * @param dragArea without induced drag, m²
 */
export function groundRoll(
  weight: number,
  density: number,
  stall: number,
  thrust: number,
  friction: number,
  wing: { readonly area: number; readonly span: number; readonly oswald: number; readonly dragArea: number },
): number {
  const liftOff = LIFT_OFF_FACTOR * stall
  const pressure = 0.5 * density * (MEAN_FORCE_SPEED * liftOff) ** 2
  const inducedFactor = wing.area / (Math.PI * wing.oswald * wing.span * wing.span)
  const lift = friction / (2 * inducedFactor)
  const drag = pressure * (wing.dragArea + wing.area * inducedFactor * lift * lift)
  const force = thrust - drag - friction * Math.max(0, weight - pressure * wing.area * lift)
  return force > 0 ? (0.5 * (weight / STANDARD_GRAVITY) * liftOff * liftOff) / force : Number.POSITIVE_INFINITY
}

/** Time of a ground roll, s, accelerated evenly. */
export function rollTime(roll: number, liftOff: number): number {
  return (2 * roll) / liftOff
}
