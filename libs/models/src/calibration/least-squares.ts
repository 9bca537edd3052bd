// Weighted non-linear least squares: Gauss–Newton steps, damped after Levenberg and Marquardt while they do not lower the
// sum. Residuals come divided by their standard uncertainties, priors among them, so the inverse of the normal matrix JᵀJ
// is the covariance of the unknowns (JCGM 100:2008, 5.2) and the sum of squares tells whether the data agree.
// Unknowns should be of the order of 1: the Jacobian is by central differences of 1e-5, no step is longer than 0.2.
import { choleskyFactor, choleskyInverse, choleskySolve, type Matrix } from './symmetric-matrix.js'

const DIFFERENCE = 1e-5
const ITERATIONS_MOST = 200
const STEP_TOLERANCE = 1e-11
const DAMPING_MOST = 1e12
/** Longest step in any unknown: further, the slopes say nothing. */
const STEP_MOST = 0.2

export type Residuals = (unknowns: readonly number[]) => number[]

export interface LeastSquares {
  readonly unknowns: readonly number[]
  readonly residuals: readonly number[]
  /** Rows are residuals, columns unknowns. */
  readonly jacobian: Matrix
  /** JᵀJ. */
  readonly normal: Matrix
  readonly sumOfSquares: number
  readonly iterations: number
}

/** Unknowns that make the sum of squared residuals least, from a start; null when no step lowers it to a standstill. */
export function solveLeastSquares(residualsOf: Residuals, start: readonly number[]): LeastSquares | null {
  let unknowns = [...start]
  let state = stateAt(residualsOf, unknowns)
  let damping = 1e-6
  for (let i = 1; i <= ITERATIONS_MOST; i++) {
    const step = dampedStep(state, damping)
    if (step === null) damping *= 100
    else {
      const next = unknowns.map((value, k) => value + step[k]!)
      const sumOfSquares = sumSquared(residualsOf(next))
      const small = Math.max(...step.map(Math.abs)) <= STEP_TOLERANCE
      if (sumOfSquares <= state.sumOfSquares || small) {
        unknowns = next
        state = stateAt(residualsOf, unknowns)
        damping = damping < 1e-12 ? 0 : damping * 0.03
      } else damping = Math.max(1e-9, damping * 10)
      if (small) return { unknowns, ...state, iterations: i }
    }
    if (damping > DAMPING_MOST || !Number.isFinite(state.sumOfSquares)) return null
  }
  return null
}

/** Residuals and their normal matrix at given unknowns. */
export function stateAt(
  residualsOf: Residuals,
  unknowns: readonly number[],
): Omit<LeastSquares, 'unknowns' | 'iterations'> {
  const residuals = residualsOf(unknowns)
  const columns = unknowns.map((value, k) => {
    const at = (shift: number) => residualsOf(unknowns.map((each, m) => (m === k ? value + shift : each)))
    const [up, down] = [at(DIFFERENCE), at(-DIFFERENCE)]
    return up.map((each, i) => (each - down[i]!) / (2 * DIFFERENCE))
  })
  const jacobian = residuals.map((_, i) => columns.map((column) => column[i]!))
  const normal = columns.map((a) => columns.map((b) => dot(a, b)))
  return { residuals, jacobian, normal, sumOfSquares: sumSquared(residuals) }
}

/** Covariance of the unknowns; null when the residuals do not determine them. */
export function covarianceOf(normal: Matrix): number[][] | null {
  const factor = choleskyFactor(normal)
  return factor === null ? null : choleskyInverse(factor)
}

/** Part of each residual that the fit leaves standing, 0 (free to be met exactly) to 1: what an error in it would show. */
export function redundancies(jacobian: Matrix, covariance: Matrix): number[] {
  return jacobian.map((row) => {
    const reached = covariance.map((each) => dot(each, row))
    return Math.min(1, Math.max(0, 1 - dot(row, reached)))
  })
}

function dampedStep(state: Pick<LeastSquares, 'normal' | 'jacobian' | 'residuals'>, damping: number): number[] | null {
  const { normal, jacobian, residuals } = state
  const factor = choleskyFactor(
    normal.map((row, i) => row.map((value, k) => (i === k ? value * (1 + damping) : value))),
  )
  if (factor === null) return null
  const gradient = normal.map((_, k) => -residuals.reduce((sum, residual, i) => sum + residual * jacobian[i]![k]!, 0))
  const step = choleskySolve(factor, gradient)
  const shortened = STEP_MOST / Math.max(STEP_MOST, ...step.map(Math.abs))
  return step.map((part) => part * shortened)
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0)
}

function sumSquared(values: readonly number[]): number {
  return dot(values, values)
}
