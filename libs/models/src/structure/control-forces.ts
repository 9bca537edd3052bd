// What a control surface asks of its servo: hinge moment Ch·q·Sf·cf, and the dynamic pressure at which the torque is
// used up. In: surface, deflection, dynamic pressure. Out: N·m, Pa.
// Valid for a sealed plain flap of a fifth of the chord at small angles; angle of attack, horns and gaps are left out.
// Source: slope from data on the NACA 0009 section with a flap of 0.2 chord.
import type { ControlSurface } from './airframe-structure.js'
import { requirePositive } from './refusals.js'

/** Hinge-moment coefficient per radian of deflection. NACA 0009, flap of 0.2 chord: −0.012 per degree. */
export const HINGE_MOMENT_SLOPE = (-0.012 * 180) / Math.PI
/** Deflection a surface must reach at full speed, rad. Assumed: 5°; ten are for speeds near the stall. */
export const FULL_SPEED_DEFLECTION = (5 * Math.PI) / 180

/** Moment that a servo must hold against the air, N·m; deflection in rad, dynamic pressure in Pa. */
export function hingeMoment(
  surface: Pick<ControlSurface, 'span' | 'chord'>,
  deflection: number,
  pressure: number,
): number {
  requirePositive('span of the control surface', surface.span, 'm')
  requirePositive('chord of the control surface', surface.chord, 'm')
  return -HINGE_MOMENT_SLOPE * deflection * pressure * surface.span * surface.chord ** 2
}

/**
 * Dynamic pressure at which a deflection takes the servo's torque over a factor, Pa.
 * @throws RangeError when torque, deflection, factor or the surface are not above 0
 */
export function torquePressure(
  surface: Pick<ControlSurface, 'span' | 'chord' | 'servoTorque'>,
  deflection: number,
  torqueFactor: number,
): number {
  requirePositive('servo torque', surface.servoTorque, 'N·m')
  requirePositive('deflection', deflection, 'rad')
  requirePositive('torque factor', torqueFactor, '')
  return surface.servoTorque / (torqueFactor * hingeMoment(surface, deflection, 1))
}
