// Speed up to which a control surface is stiff enough not to flap with the panel that carries it: its own frequency on
// linkage and servo, ω = √(k/I), reduced by half the mean chord of that panel and the speed, ω·c/(2V), stays at least 0.5.
// In: linkage stiffness, inertia about the hinge, chord. Out: rad/s, m/s true air speed.
// Left out: play, mass balance, friction; a worn linkage has less stiffness than its row says.
// Source: common practice, no source; the bound is assumed.
import type { ControlSurface } from './airframe-structure.js'
import { requirePositive } from './refusals.js'

/** Lowest reduced frequency of a surface. Assumed. */
export const LEAST_REDUCED_FREQUENCY = 0.5

/**
 * Natural frequency of a surface about its hinge, rad/s.
 * @throws RangeError when stiffness or inertia are not above 0
 */
export function surfaceFrequency(surface: Pick<ControlSurface, 'inertia' | 'linkageStiffness'>): number {
  requirePositive('linkage stiffness', surface.linkageStiffness, 'N·m/rad')
  requirePositive('inertia about the hinge', surface.inertia, 'kg·m²')
  return Math.sqrt(surface.linkageStiffness / surface.inertia)
}

/** Frequency (rad/s) over that of the flow past half the mean chord (m) of the carrying panel. */
export function reducedFrequency(frequency: number, chord: number, speed: number): number {
  requirePositive('mean chord', chord, 'm')
  requirePositive('speed', speed, 'm/s')
  return (frequency * chord) / (2 * speed)
}

/** Highest true air speed at which the reduced frequency is still high enough, m/s; chord is the carrying panel's. */
export function controlFlutterSpeed(
  surface: Pick<ControlSurface, 'inertia' | 'linkageStiffness'>,
  chord: number,
): number {
  requirePositive('mean chord', chord, 'm')
  return (surfaceFrequency(surface) * chord) / (2 * LEAST_REDUCED_FREQUENCY)
}
