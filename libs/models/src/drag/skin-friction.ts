// Mean friction coefficient of a flat plate, laminar, turbulent, and laminar at first. In: Reynolds number on the length
// of the plate. Out: friction over dynamic pressure and wetted area. Incompressible, smooth but for the roughness factor.
// The laminar run counts with its own length: Cf = rough·[Ct(Re) − x·Ct(x·Re)] + x·Cl(x·Re), so the turbulent part keeps
// the layer it would have had from the leading edge on (Prandtl's argument, from memory), and roughness, which does not
// slow a laminar layer, counts on the turbulent part only.
// Sources, from memory: Blasius; Prandtl–Schlichting; ITTC-57.

/** Below this Reynolds number the turbulent line falls under the laminar one, so there the layer counts as laminar. */
const LEAST_TURBULENT = 1e4

/** Laminar plate, Blasius. */
export function laminarFriction(reynolds: number): number {
  requirePositive('reynolds', reynolds)
  return 1.328 / Math.sqrt(reynolds)
}

/**
 * Turbulent plate, Prandtl–Schlichting. The line of the build-up.
 * @throws RangeError at or below a Reynolds number of 10, where the line means nothing
 */
export function turbulentFriction(reynolds: number): number {
  requireAbove('reynolds', reynolds, 10)
  return 0.455 / Math.log10(reynolds) ** 2.58
}

/**
 * Turbulent plate, ITTC-57: a second line, to see what the choice of line is worth.
 * @throws RangeError at or below a Reynolds number of 100, where the line has its pole
 */
export function ittcFriction(reynolds: number): number {
  requireAbove('reynolds', reynolds, 100)
  return 0.075 / (Math.log10(reynolds) - 2) ** 2
}

/**
 * Plate whose first part is laminar.
 * @param reynolds on the whole length
 * @param laminarShare of the length, 0 to 1
 * @param roughness factor on the turbulent part, at least 1
 * @throws RangeError outside those ranges
 */
export function mixedFriction(reynolds: number, laminarShare: number, roughness: number): number {
  requirePositive('reynolds', reynolds)
  if (!(laminarShare >= 0 && laminarShare <= 1)) {
    throw new RangeError(`laminarShare must lie between 0 and 1, got ${laminarShare}`)
  }
  if (!(roughness >= 1 && roughness < Infinity)) {
    throw new RangeError(`roughness must be at least 1 and finite, got ${roughness}`)
  }
  if (laminarShare === 0) return roughness * fullFriction(reynolds)
  const run = laminarShare * reynolds
  const turbulent = fullFriction(reynolds) - laminarShare * fullFriction(run)
  return roughness * turbulent + laminarShare * laminarFriction(run)
}

// The higher of the two lines, so that a longer laminar run never costs friction, however slow the flow.
function fullFriction(reynolds: number): number {
  const laminar = laminarFriction(reynolds)
  return reynolds <= LEAST_TURBULENT ? laminar : Math.max(laminar, turbulentFriction(reynolds))
}

function requirePositive(quantity: string, value: number): void {
  requireAbove(quantity, value, 0)
}

function requireAbove(quantity: string, value: number, limit: number): void {
  if (!(value > limit && value < Infinity)) {
    throw new RangeError(`${quantity} must be above ${limit} and finite, got ${value}`)
  }
}
