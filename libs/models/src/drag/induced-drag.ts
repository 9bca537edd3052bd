// Drag of making lift with a finite span, and how good a span is when nobody measured it.
// Source: CL²/(π·A·e), McCormick; e of a straight wing 1.78(1 − 0.045·A^0.68) − 0.64, Raymer; both from memory.
// Assumed: an estimated e is at most 0.85, since the formula passes that for the short wings of jets and exceeds 1 below an
// aspect ratio of about 3.

export const OSWALD_CAP = 0.85

/**
 * Induced drag coefficient on the wing area.
 * @throws RangeError when aspect ratio or e is not above 0
 */
export function inducedDrag(liftCoefficient: number, aspectRatio: number, oswald: number): number {
  requirePositive('aspectRatio', aspectRatio)
  requirePositive('oswald', oswald)
  if (!Number.isFinite(liftCoefficient)) {
    throw new RangeError(`liftCoefficient must be finite, got ${liftCoefficient}`)
  }
  return liftCoefficient ** 2 / (Math.PI * aspectRatio * oswald)
}

/** Span efficiency of a straight wing by the formula alone. */
export function straightWingOswald(aspectRatio: number): number {
  requirePositive('aspectRatio', aspectRatio)
  return 1.78 * (1 - 0.045 * aspectRatio ** 0.68) - 0.64
}

/**
 * Span efficiency to work with when none is known.
 * @param aspectRatio span² over wing area, above 0 and at most 20, beyond which the formula was not made
 * @throws RangeError outside that range
 */
export function estimatedOswald(aspectRatio: number): number {
  if (!(aspectRatio > 0 && aspectRatio <= 20)) {
    throw new RangeError(`aspectRatio must be above 0 and at most 20, got ${aspectRatio}`)
  }
  return Math.min(OSWALD_CAP, straightWingOswald(aspectRatio))
}

function requirePositive(quantity: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${quantity} must be above 0 and finite, got ${value}`)
}
