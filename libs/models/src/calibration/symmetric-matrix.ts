// Small dense symmetric matrices: Cholesky factor, inverse, and eigenvalues by Jacobi rotations. For normal matrices of
// fits, whose size is the number of unknowns; a matrix is a list of rows.

export type Matrix = readonly (readonly number[])[]

/** Lower factor L with L·Lᵀ the matrix; null unless it is positive definite. */
export function choleskyFactor(matrix: Matrix): number[][] | null {
  const lower: number[][] = matrix.map((row) => row.map(() => 0))
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!
      if (i === j && !(rest > 0)) return null
      lower[i]![j] = i === j ? Math.sqrt(rest) : rest / lower[j]![j]!
    }
  }
  return lower
}

/** Solution of L·Lᵀ·x = right. */
export function choleskySolve(lower: Matrix, right: readonly number[]): number[] {
  const x = [...right]
  for (let i = 0; i < x.length; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i]! -= lower[k]![i]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  return x
}

/** Inverse from the lower factor. */
export function choleskyInverse(lower: Matrix): number[][] {
  return lower.map((_, i) =>
    choleskySolve(
      lower,
      lower.map((_row, k) => (k === i ? 1 : 0)),
    ),
  )
}

export interface Eigen {
  readonly value: number
  /** Of unit length. */
  readonly vector: readonly number[]
}

/**
 * Eigenvalues with their vectors, in no particular order.
 * @throws RangeError when the matrix holds something that is no number
 */
export function symmetricEigen(matrix: Matrix): Eigen[] {
  if (matrix.flat().some((value) => !Number.isFinite(value)))
    throw new RangeError('matrix must hold finite numbers only')
  const a = matrix.map((row) => [...row])
  const vectors = matrix.map((row, i) => row.map((_, k) => (k === i ? 1 : 0)))
  const size = Math.hypot(...a.flat())
  for (let sweep = 0; sweep < 60 && offDiagonal(a) > 1e-15 * size; sweep++) {
    for (let p = 0; p < a.length; p++) for (let q = p + 1; q < a.length; q++) rotate(a, vectors, p, q)
  }
  return a.map((row, i) => ({ value: row[i]!, vector: vectors.map((each) => each[i]!) }))
}

function offDiagonal(a: Matrix): number {
  return Math.hypot(...a.flatMap((row, i) => row.filter((_, k) => k !== i)))
}

/** Turns the plane of p and q so that their common element vanishes. */
function rotate(a: number[][], vectors: number[][], p: number, q: number): void {
  const common = a[p]![q]!
  if (common === 0) return
  const theta = (a[q]![q]! - a[p]![p]!) / (2 * common)
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1))
  const c = 1 / Math.sqrt(t * t + 1)
  const s = t * c
  for (const row of a) turnPair(row, p, q, c, s)
  const [first, second] = [a[p]!, a[q]!]
  for (let k = 0; k < first.length; k++) {
    const [x, y] = [first[k]!, second[k]!]
    first[k] = c * x - s * y
    second[k] = s * x + c * y
  }
  for (const row of vectors) turnPair(row, p, q, c, s)
}

function turnPair(row: number[], p: number, q: number, c: number, s: number): void {
  const [x, y] = [row[p]!, row[q]!]
  row[p] = c * x - s * y
  row[q] = s * x + c * y
}
