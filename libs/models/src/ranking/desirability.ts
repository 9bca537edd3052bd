// Desirability: each objective mapped to 0…1 between ends that the request fixes (never the front, so an unrelated part
// cannot reshuffle ranks), combined by a weighted geometric mean, so that every score decomposes into its parts.
// Source: Derringer & Suich, Journal of Quality Technology 12 (1980), one-sided form with exponent 1.

/** Least value of one desirability: a setup that is worthless in one respect still ranks among its like. */
export const DESIRABILITY_FLOOR = 0.01

/** One-sided desirability: 0 at `worst`, 1 at `best` (either may be the larger), linear between, floored. */
export function desirability(value: number, worst: number, best: number): number {
  const share = worst === best ? (value === best ? 1 : 0) : (value - worst) / (best - worst)
  return Math.min(1, Math.max(DESIRABILITY_FLOOR, share))
}

/**
 * Weighted geometric mean of desirabilities.
 * @throws RangeError when there are not as many weights as values, or the weights do not add up to something above 0
 */
export function overallDesirability(values: readonly number[], weights: readonly number[]): number {
  const sum = weights.reduce((total, weight) => total + weight, 0)
  if (values.length !== weights.length || !(sum > 0)) {
    throw new RangeError(
      `weights must match the ${values.length} values and add up to more than 0, got ${weights.join(', ')}`,
    )
  }
  return Math.exp(values.reduce((total, value, i) => total + (weights[i] as number) * Math.log(value), 0) / sum)
}
