// Loads of flight on the structure: dynamic pressure, load factor of turns and pull-ups, bending moment at the wing root.
// In: speed, radius, density, weight, span. Out: Pa, load factor, N·m, and radii or speeds back from those.
// Left out: gusts, and the tail's share of the lift.
// Source: elementary statics; McCormick for turns.
import { STANDARD_GRAVITY } from '../constants.js'
import { requirePositive } from './refusals.js'

/** Root bending moment over n·W·b when the lift is spread as half an ellipse. */
export const ELLIPTIC_ROOT_MOMENT = 1 / (3 * Math.PI)
/** The same when the lift is spread evenly. */
export const UNIFORM_ROOT_MOMENT = 1 / 8

/** Bending moment at the wing root, N·m: k·n·W·b. */
export function rootBendingMoment(shape: number, loadFactor: number, weight: number, span: number): number {
  return shape * loadFactor * weight * span
}

/** Dynamic pressure, Pa. */
export function dynamicPressure(density: number, speed: number): number {
  return 0.5 * density * speed * speed
}

/**
 * Speed at which a dynamic pressure (Pa, may be Infinity) is reached, m/s.
 * @throws RangeError when the density is not above 0, or the pressure is negative or no number
 */
export function speedAtPressure(pressure: number, density: number): number {
  requirePositive('air density', density, 'kg/m³')
  if (!(pressure >= 0)) throw new RangeError(`dynamic pressure must be at least 0 Pa, got ${pressure}`)
  return Math.sqrt((2 * pressure) / density)
}

/**
 * Load factor of a level turn at a bank angle, rad.
 * @throws RangeError unless the bank is at least 0 and below a right angle
 */
export function bankLoadFactor(bank: number): number {
  if (!(bank >= 0 && bank < Math.PI / 2)) throw new RangeError(`bank must lie between 0 and π/2 rad, got ${bank}`)
  return 1 / Math.cos(bank)
}

/** Load factor of a level turn of a radius, m. */
export function turnLoadFactor(speed: number, radius: number): number {
  return Math.hypot(1, centripetal(speed, radius))
}

/** Load factor at the lowest point of a pull-up of a radius, m. */
export function pullUpLoadFactor(speed: number, radius: number): number {
  return 1 + centripetal(speed, radius)
}

/** Tightest radius of a level turn that a load factor allows, m; Infinity at a load factor of 1. */
export function tightestTurn(speed: number, loadFactor: number): number {
  requireFlight(speed, loadFactor)
  return (speed * speed) / (STANDARD_GRAVITY * Math.sqrt(loadFactor * loadFactor - 1))
}

/** Tightest radius of a pull-up that a load factor allows, m; Infinity at a load factor of 1. */
export function tightestPullUp(speed: number, loadFactor: number): number {
  requireFlight(speed, loadFactor)
  return (speed * speed) / (STANDARD_GRAVITY * (loadFactor - 1))
}

/** Acceleration towards the centre of the path, in units of g. */
function centripetal(speed: number, radius: number): number {
  requirePositive('speed', speed, 'm/s')
  requirePositive('radius', radius, 'm')
  return (speed * speed) / (STANDARD_GRAVITY * radius)
}

function requireFlight(speed: number, loadFactor: number): void {
  requirePositive('speed', speed, 'm/s')
  if (!(loadFactor >= 1)) throw new RangeError(`load factor of a curved path must be at least 1, got ${loadFactor}`)
}
