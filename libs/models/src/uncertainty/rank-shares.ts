// Which inputs a quantity follows: ranks instead of values, so that any rising or falling course counts as a straight line
// and infinite values do no harm, then a linear fit. With R² of the fit and its standardised slopes b, an input's share is
// R²·b²/Σb², which for independent inputs is its part of the variance; what the fit does not explain stays unassigned, so
// the shares add up to R², at most 1. Standardised rank regression after Saltelli and others, from memory.

export interface RankShare {
  /** Index of the input. */
  readonly index: number
  /** Share of the spread, 0 to 1. */
  readonly share: number
  /** Whether the quantity rises with the input. */
  readonly rises: boolean
}

/** Fewer samples than this many times the inputs say nothing. Assumed. */
const SAMPLES_PER_INPUT = 3

/**
 * Shares of the inputs in the spread of a quantity, largest first. Inputs that do not vary are left out; empty when the
 * quantity does not vary or the samples are fewer than three times the inputs.
 * @param inputs one column an input, as long as the quantity
 * @param quantity without NaN
 */
export function rankShares(inputs: readonly ArrayLike<number>[], quantity: ArrayLike<number>): RankShare[] {
  const varied = inputs.flatMap((column, index) => {
    const ranks = standardRanks(column)
    return ranks === null ? [] : [{ index, ranks }]
  })
  const outcome = standardRanks(quantity)
  if (outcome === null || quantity.length < SAMPLES_PER_INPUT * varied.length) return []
  const between = varied.map((a) => varied.map((b) => product(a.ranks, b.ranks)))
  const withOutcome = varied.map(({ ranks }) => product(ranks, outcome))
  const slopes = solveSymmetric(between, withOutcome)
  if (slopes === null) return []
  const explained = Math.min(1, product(slopes, withOutcome))
  const squares = product(slopes, slopes)
  return varied
    .map(({ index }, i) => {
      const slope = slopes[i] as number
      return { index, share: (explained * slope * slope) / squares, rises: slope > 0 }
    })
    .sort((a, b) => b.share - a.share || a.index - b.index)
}

/** Ranks with mean 0 and sum of squares 1, equal values sharing their mean rank; null when all are equal. */
function standardRanks(values: ArrayLike<number>): Float64Array | null {
  const order = Array.from(values, (_, i) => i).sort((a, b) => compare(values[a] as number, values[b] as number))
  const ranks = new Float64Array(values.length)
  for (let from = 0; from < order.length; ) {
    let to = from
    while (to < order.length && values[order[to] as number] === values[order[from] as number]) to++
    for (let i = from; i < to; i++) ranks[order[i] as number] = 0.5 * (from + to - 1) - 0.5 * (order.length - 1)
    from = to
  }
  const length = Math.sqrt(product(ranks, ranks))
  return length > 0 ? ranks.map((rank) => rank / length) : null
}

/** Not a difference: two infinities have none. */
function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0
}

function product(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number)
  return sum
}

/** Solves a symmetric positive definite system by Cholesky's factors; null when it is not definite. */
function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const lower: number[][] = []
  const half: number[] = []
  for (const [i, line] of matrix.entries()) {
    const row: number[] = []
    for (let j = 0; j < i; j++) {
      const above = lower[j] as number[]
      row.push(((line[j] as number) - product(row, above)) / (above[j] as number))
    }
    const rest = (line[i] as number) - product(row, row)
    if (!(rest > 1e-9)) return null
    half.push(((right[i] as number) - product(row, half)) / Math.sqrt(rest))
    row.push(Math.sqrt(rest))
    lower.push(row)
  }
  return backward(lower, half)
}

function backward(lower: readonly (readonly number[])[], half: readonly number[]): number[] {
  const solution = [...half]
  for (let i = half.length - 1; i >= 0; i--) {
    let rest = solution[i] as number
    for (let k = i + 1; k < half.length; k++) rest -= (lower[k]?.[i] as number) * (solution[k] as number)
    solution[i] = rest / (lower[i]?.[i] as number)
  }
  return solution
}
