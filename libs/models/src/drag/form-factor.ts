// Form factors: by how much the drag of a shape exceeds the friction of a flat plate with its wetted area. They cover
// thickness and the thicker boundary layer behind it, not interference, not induced drag, not compressibility.
// Source: Raymer, from memory; unswept, well under the speed of sound.

/**
 * Wing or tail: 1 + 0.6/(x/c)·(t/c) + 100·(t/c)⁴.
 * @param thicknessRatio thickness over chord, 0 to 0.3
 * @param thicknessPosition of the greatest thickness, share of the chord, 0.1 to 0.7
 * @throws RangeError outside those ranges
 */
export function wingFormFactor(thicknessRatio: number, thicknessPosition: number): number {
  requireWithin('thicknessRatio', thicknessRatio, 0, 0.3)
  requireWithin('thicknessPosition', thicknessPosition, 0.1, 0.7)
  return 1 + (0.6 / thicknessPosition) * thicknessRatio + 100 * thicknessRatio ** 4
}

/**
 * Body, the older form: 1 + 60/f³ + f/400. Far too high for a short body; kept to compare.
 * @param fineness length over greatest diameter, 2 to 40
 * @throws RangeError outside that range
 */
export function slenderBodyFormFactor(fineness: number): number {
  requireFineness(fineness)
  return 1 + 60 / fineness ** 3 + fineness / 400
}

/** Body, the later form: 0.9 + 5/f^1.5 + f/400. The one of the build-up. */
export function bodyFormFactor(fineness: number): number {
  requireFineness(fineness)
  return 0.9 + 5 / fineness ** 1.5 + fineness / 400
}

/** Nacelle or pod that air flows through: 1 + 0.35/f. */
export function nacelleFormFactor(fineness: number): number {
  requireFineness(fineness)
  return 1 + 0.35 / fineness
}

function requireFineness(fineness: number): void {
  requireWithin('fineness', fineness, 2, 40)
}

function requireWithin(quantity: string, value: number, least: number, most: number): void {
  if (!(value >= least && value <= most)) {
    throw new RangeError(`${quantity} must lie between ${least} and ${most}, got ${value}`)
  }
}
