// Straight lines through measured pairs by ordinary least squares, with what the scatter says about their uncertainty:
// y = a + b·(x − x0), and y = k·x through the origin. In any units: a in those of y, b and k in y per x.
// Standard uncertainties rest on the scatter s of the fit (n − 2, or n − 1, degrees of freedom); x is taken as exact.
// Source: JCGM 100:2008, H.3.

export interface LineFit {
  /** Value at `reference`. */
  readonly intercept: number
  readonly slope: number
  readonly interceptUncertainty: number
  readonly slopeUncertainty: number
  /** Correlation of the two. */
  readonly correlation: number
  /** Standard deviation of the points about the line. */
  readonly scatter: number
  readonly reference: number
  readonly degreesOfFreedom: number
}

export interface ProportionFit {
  readonly slope: number
  readonly slopeUncertainty: number
  readonly scatter: number
  readonly degreesOfFreedom: number
}

/**
 * Line through three points or more.
 * @param reference x at which the intercept is wanted
 * @throws RangeError for fewer points, unlike lengths, values that are no numbers, or an x that never changes
 */
export function fitLine(x: readonly number[], y: readonly number[], reference = 0): LineFit {
  requirePairs(x, y, 3)
  const n = x.length
  const middle = sum(x) / n
  const spread = sum(x.map((value) => (value - middle) ** 2))
  if (!(spread > 0)) throw new RangeError(`x must take two different values or more, got ${x[0]} each time`)
  const height = sum(y) / n
  const slope = sum(x.map((value, i) => (value - middle) * (y[i]! - height))) / spread
  const residuals = x.map((value, i) => y[i]! - height - slope * (value - middle))
  const variance = sum(residuals.map((residual) => residual * residual)) / (n - 2)
  const arm = reference - middle
  const share = 1 / n + (arm * arm) / spread
  return {
    intercept: height + slope * arm,
    slope,
    interceptUncertainty: Math.sqrt(variance * share),
    slopeUncertainty: Math.sqrt(variance / spread),
    correlation: arm / spread / Math.sqrt(share / spread),
    scatter: Math.sqrt(variance),
    reference,
    degreesOfFreedom: n - 2,
  }
}

/** Value of a fitted line at an x, with its standard uncertainty (of the line, not of one more point). */
export function lineAt(fit: LineFit, x: number): { readonly value: number; readonly uncertainty: number } {
  const arm = x - fit.reference
  const variance =
    fit.interceptUncertainty ** 2 +
    (arm * fit.slopeUncertainty) ** 2 +
    2 * arm * fit.interceptUncertainty * fit.slopeUncertainty * fit.correlation
  // Where the two parts cancel, rounding can leave less than nothing.
  return { value: fit.intercept + fit.slope * arm, uncertainty: Math.sqrt(Math.max(0, variance)) }
}

/**
 * y = k·x through the origin, such as drag over dynamic pressure, whose k is the drag area.
 * @throws RangeError for fewer than two points, unlike lengths, values that are no numbers, or x that is always 0
 */
export function fitProportion(x: readonly number[], y: readonly number[]): ProportionFit {
  requirePairs(x, y, 2)
  const square = sum(x.map((value) => value * value))
  if (!(square > 0)) throw new RangeError('x must differ from 0 at least once, got 0 each time')
  const slope = sum(x.map((value, i) => value * y[i]!)) / square
  const residuals = x.map((value, i) => y[i]! - slope * value)
  const degreesOfFreedom = x.length - 1
  const scatter = Math.sqrt(sum(residuals.map((residual) => residual * residual)) / degreesOfFreedom)
  return { slope, slopeUncertainty: scatter / Math.sqrt(square), scatter, degreesOfFreedom }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

function requirePairs(x: readonly number[], y: readonly number[], least: number): void {
  if (x.length !== y.length) throw new RangeError(`x and y must be as many, got ${x.length} and ${y.length}`)
  if (x.length < least) throw new RangeError(`points must number ${least} or more, got ${x.length}`)
  const odd = [...x, ...y].find((value) => !Number.isFinite(value))
  if (odd !== undefined) throw new RangeError(`x and y must be finite numbers, got ${odd}`)
}
