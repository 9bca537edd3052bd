// Heat given to a stream of air by a plate and by a cylinder across it, and from these the conductance of a motor can:
// a check from outside on the conductances that a catalogue gives, which are assumed.
// Laminar and mixed plate as in Çengel, Heat and Mass Transfer, chapter 7; cylinder by Churchill and Bernstein (1977).
// Valid for a smooth surface of one temperature in an even stream, properties taken at the film temperature. Left out:
// turbulence of a rotor's wake, which gives more; blocked or finned surfaces; radiation and free convection.

/** Reynolds number at which a plate's boundary layer is taken to turn turbulent. */
export const TRANSITION_REYNOLDS = 5e5
/** Highest Reynolds number of the plate correlation. */
const PLATE_REYNOLDS_MAX = 1e7
/** Range of Prandtl numbers of the plate correlations. */
const PLATE_PRANDTL = { min: 0.6, max: 60 } as const
/** Least product of Reynolds and Prandtl numbers of the cylinder correlation, and its highest Reynolds number. */
const CYLINDER_PECLET_MIN = 0.2
const CYLINDER_REYNOLDS_MAX = 1e7

/** Air at the film temperature: conductivity W/(m·K), kinematic viscosity m²/s, Prandtl number. */
export interface FilmAir {
  readonly conductivity: number
  readonly kinematicViscosity: number
  readonly prandtl: number
}

/** A can standing in a stream: along it from one end, or across it. Lengths m. */
export interface CanInStream {
  readonly diameter: number
  readonly length: number
  readonly flow: 'axial' | 'cross'
}

/**
 * Mean Nusselt number of a plate with a laminar boundary layer: 0.664·Re^½·Pr^⅓.
 * @throws RangeError when Re is not in (0, 5e5] or Pr not in [0.6, 60]
 */
export function laminarPlateNusselt(reynolds: number, prandtl: number): number {
  aboveZero('Reynolds number of a plate', reynolds)
  within('Reynolds number of a laminar plate', reynolds, 0, TRANSITION_REYNOLDS)
  within('Prandtl number of a plate', prandtl, PLATE_PRANDTL.min, PLATE_PRANDTL.max)
  return 0.664 * Math.sqrt(reynolds) * Math.cbrt(prandtl)
}

/**
 * Mean Nusselt number of a plate that is laminar up to 5e5 and turbulent behind: (0.037·Re^0.8 − 871)·Pr^⅓.
 * @throws RangeError when Re is not in [5e5, 1e7] or Pr not in [0.6, 60]
 */
export function mixedPlateNusselt(reynolds: number, prandtl: number): number {
  within('Reynolds number of a mixed plate', reynolds, TRANSITION_REYNOLDS, PLATE_REYNOLDS_MAX)
  within('Prandtl number of a plate', prandtl, PLATE_PRANDTL.min, PLATE_PRANDTL.max)
  return (0.037 * reynolds ** 0.8 - 871) * Math.cbrt(prandtl)
}

/**
 * Mean Nusselt number of a cylinder across a stream, on its diameter (Churchill and Bernstein).
 * @throws RangeError when Pr is not above 0 or Re not in [0.2/Pr, 1e7]
 */
export function cylinderNusselt(reynolds: number, prandtl: number): number {
  aboveZero('Prandtl number of a cylinder', prandtl)
  within('Reynolds number of a cylinder', reynolds, CYLINDER_PECLET_MIN / prandtl, CYLINDER_REYNOLDS_MAX)
  const laminar = (0.62 * Math.sqrt(reynolds) * Math.cbrt(prandtl)) / (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
  return 0.3 + laminar * (1 + (reynolds / 282_000) ** (5 / 8)) ** 0.8
}

/**
 * Conductance from the side and both end faces of a can to a stream, W/K. Along the can its side is a plate of the can's
 * length; across it, a cylinder. Assumed: the end faces give as much per area as the side.
 * @param speed m/s
 * @throws RangeError when a size or the speed is not above 0, or the flow lies outside the correlations
 */
export function canConductance(can: CanInStream, speed: number, air: FilmAir): number {
  aboveZero('can diameter in m', can.diameter)
  aboveZero('can length in m', can.length)
  aboveZero('stream speed in m/s', speed)
  aboveZero('conductivity in W/(m·K)', air.conductivity)
  aboveZero('kinematic viscosity in m²/s', air.kinematicViscosity)
  const size = can.flow === 'axial' ? can.length : can.diameter
  const reynolds = (speed * size) / air.kinematicViscosity
  const nusselt = can.flow === 'axial' ? plateNusselt(reynolds, air.prandtl) : cylinderNusselt(reynolds, air.prandtl)
  const area = Math.PI * can.diameter * (can.length + 0.5 * can.diameter)
  return ((nusselt * air.conductivity) / size) * area
}

function plateNusselt(reynolds: number, prandtl: number): number {
  return reynolds <= TRANSITION_REYNOLDS ? laminarPlateNusselt(reynolds, prandtl) : mixedPlateNusselt(reynolds, prandtl)
}

function within(quantity: string, value: number, min: number, max: number): void {
  if (value >= min && value <= max) return
  throw new RangeError(`${quantity} must lie between ${min} and ${max}, got ${value}`)
}

function aboveZero(quantity: string, value: number): void {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return
  throw new RangeError(`${quantity} must be above 0 and finite, got ${value}`)
}
