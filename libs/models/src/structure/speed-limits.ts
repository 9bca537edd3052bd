// True air speeds that the structure of an airframe allows in given air, one per criterion, with design factor or scatter
// already taken off: a margin against them is the part of the allowed dynamic pressure left unused.
// In: structure, design speed, density, pressure and speed of sound. Out: speeds in the order of the criteria; what
// limits nothing is left out. Once an airframe and air, not once a setup.
// Left out: an airframe nobody has tested may be weaker than its row says; play, wear and crash damage.

import type { Airframe } from '../airframe/airframe.js'
import { type Air, SEA_LEVEL_DENSITY } from '../atmosphere/standard-atmosphere.js'
import type { AirframeStructure, ControlSurface } from './airframe-structure.js'
import { controlFlutterSpeed } from './control-flutter.js'
import { FULL_SPEED_DEFLECTION, torquePressure } from './control-forces.js'
import { loadDivisor } from './criterion-scatter.js'
import { divergenceSpeed } from './divergence.js'
import { panelFlutterSpeed } from './flutter.js'
import { speedAtPressure } from './loads.js'
import { requirePositive } from './refusals.js'

/** Criteria on speed in the order of testing. */
export const SPEED_CRITERIA = [
  'design-speed',
  'wing-flutter',
  'tail-flutter',
  'wing-divergence',
  'control-flutter',
  'servo-torque',
] as const
export type SpeedCriterion = (typeof SPEED_CRITERIA)[number]

export interface SpeedLimit {
  readonly criterion: SpeedCriterion
  /** True air speed, m/s. */
  readonly speed: number
}

/** The air limits depend on: kg/m³, m/s, Pa. */
export type LimitAir = Pick<Air, 'density' | 'soundSpeed' | 'pressure'>

/**
 * The speed each criterion allows in that air; none for an airframe that states neither structure nor design speed.
 * @throws RangeError naming the first quantity of structure, design speed or air outside its range
 */
export function speedLimits(
  airframe: Pick<Airframe, 'structure' | 'designSpeed'>,
  air: LimitAir,
): readonly SpeedLimit[] {
  const critical = criticalSpeeds(airframe, air)
  return SPEED_CRITERIA.map((criterion) => ({
    criterion,
    speed: (critical[criterion] ?? Number.POSITIVE_INFINITY) / Math.sqrt(loadDivisor(criterion)),
  })).filter(({ speed }) => speed < Number.POSITIVE_INFINITY)
}

/** Part of the allowed dynamic pressure left unused at a speed, under 0 above the limit. */
export function speedMargin(speed: number, limit: number): number {
  return 1 - (speed * speed) / (limit * limit)
}

/** True air speeds at which the computed limits are reached, without factor or scatter. */
function criticalSpeeds(
  { structure, designSpeed }: Pick<Airframe, 'structure' | 'designSpeed'>,
  air: LimitAir,
): Partial<Record<SpeedCriterion, number>> {
  requirePositive('air density', air.density, 'kg/m³')
  const stated = designSpeed === null ? {} : { 'design-speed': trueSpeed(designSpeed, air.density) }
  return structure === null ? stated : { ...stated, ...structuralSpeeds(structure, air) }
}

function trueSpeed(equivalentSpeed: number, density: number): number {
  requirePositive('design speed', equivalentSpeed, 'm/s')
  return equivalentSpeed * Math.sqrt(SEA_LEVEL_DENSITY / density)
}

function structuralSpeeds(structure: AirframeStructure, air: LimitAir): Partial<Record<SpeedCriterion, number>> {
  const { wing, tail, controls } = structure
  const carrying = (surface: ControlSurface) => (surface.name === 'aileron' ? wing.chord : tail.chord)
  const torque = (surface: ControlSurface) => torquePressure(surface, FULL_SPEED_DEFLECTION, 1)
  return {
    'wing-flutter': panelFlutterSpeed(wing, air),
    'tail-flutter': panelFlutterSpeed(tail, air),
    'wing-divergence': divergenceSpeed(wing, air.density),
    'control-flutter': Math.min(...controls.map((surface) => controlFlutterSpeed(surface, carrying(surface)))),
    'servo-torque': speedAtPressure(Math.min(...controls.map(torque)), air.density),
  }
}
