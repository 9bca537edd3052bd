// Bounds of a quantity over a sample. Definition: the sorted n values stand at shares 0, 1/(n−1), …, 1, and lie on straight
// lines between (Hyndman & Fan, type 7, from memory). Infinite values are values like any other: a bound that falls on or
// next to one is infinite. What could not be worked out (NaN) is left out and counted.

/** Bounds between which nine of ten values lie. */
export interface Band {
  /** 5 % and 95 % bounds, in the unit of the quantity. */
  readonly low: number
  readonly high: number
  /** Samples in which the quantity could not be worked out. */
  readonly missing: number
}

export const LOW_SHARE = 0.05
export const HIGH_SHARE = 0.95

type Rounding = (value: number) => number

/**
 * The band of a quantity; null when no sample gives a value.
 * @param round what each value is rounded by before; never turns two around, so the bounds are rounded only where they lie
 */
export function band(values: ArrayLike<number>, round: Rounding = (value) => value): Band | null {
  const sorted = Float64Array.from(values)
    .filter((value) => !Number.isNaN(value))
    .sort()
  if (sorted.length === 0) return null
  const missing = values.length - sorted.length
  return { low: quantile(sorted, LOW_SHARE, round), high: quantile(sorted, HIGH_SHARE, round), missing }
}

/**
 * Value below which a share of a sample lies.
 * @param sorted ascending, without NaN, at least one
 * @param share 0 to 1
 * @param round what each value is rounded by before
 * @throws RangeError for an empty sample or a share outside 0 to 1
 */
export function quantile(sorted: ArrayLike<number>, share: number, round: Rounding = (value) => value): number {
  if (sorted.length === 0) throw new RangeError('sample must hold at least one value, got none')
  if (!(share >= 0 && share <= 1)) throw new RangeError(`share must lie between 0 and 1, got ${share}`)
  const place = share * (sorted.length - 1)
  const below = round(sorted[Math.floor(place)] as number)
  const above = round(sorted[Math.ceil(place)] as number)
  // Equal neighbours first: the difference of two infinities is no number.
  return below === above ? below : below + (place - Math.floor(place)) * (above - below)
}
