// The solver under the fits: matrices by their definitions, straight lines against the closed form, and a curve whose
// unknowns are known; and what has no solution.
import { covarianceOf, redundancies, solveLeastSquares, stateAt } from '@ductwright/models/calibration/least-squares'
import { fitLine } from '@ductwright/models/calibration/line-fit'
import {
  choleskyFactor,
  choleskyInverse,
  choleskySolve,
  type Matrix,
  symmetricEigen,
} from '@ductwright/models/calibration/symmetric-matrix'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const square = fc.integer({ min: 1, max: 6 }).chain((n) => {
  const row = fc.array(within(-2, 2), { minLength: n, maxLength: n })
  return fc.array(row, { minLength: n, maxLength: n })
})

const product = (a: Matrix, b: Matrix) =>
  a.map((row) => b[0]!.map((_, k) => row.reduce((sum, value, i) => sum + value * b[i]![k]!, 0)))
const transposed = (a: Matrix) => a[0]!.map((_, k) => a.map((row) => row[k]!))
/** B·Bᵀ + 1, which is positive definite. */
const definite = square.map((b) => product(b, transposed(b)).map((row, i) => row.map((v, k) => (i === k ? v + 1 : v))))

describe('symmetric matrices', () => {
  it('eigenvectors keep their direction, are of unit length, and the values add up to the trace', () => {
    fc.assert(
      fc.property(definite, (matrix) => {
        const eigen = symmetricEigen(matrix)
        for (const { value, vector } of eigen) {
          const turned = product(
            matrix,
            vector.map((part) => [part]),
          )
          for (const [i, part] of vector.entries()) expect(turned[i]![0]).toBeCloseTo(value * part, 10)
          expect(Math.hypot(...vector)).toBeCloseTo(1, 12)
        }
        const trace = matrix.reduce((sum, row, i) => sum + row[i]!, 0)
        expect(eigen.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(trace, 10)
      }),
    )
  })

  it('factor, solution and inverse undo the matrix', () => {
    fc.assert(
      fc.property(definite, (matrix) => {
        const factor = choleskyFactor(matrix)
        if (factor === null) throw new Error('positive definite by construction')
        const unit = product(matrix, choleskyInverse(factor))
        for (const [i, row] of unit.entries())
          for (const [k, value] of row.entries()) expect(value).toBeCloseTo(i === k ? 1 : 0, 8)
        const right = matrix.map((_, i) => i + 1)
        const back = product(
          matrix,
          choleskySolve(factor, right).map((part) => [part]),
        )
        for (const [i, value] of right.entries()) expect(back[i]![0]).toBeCloseTo(value, 8)
      }),
    )
  })

  it('have no factor when a direction is missing, and no eigenvalues when they hold no numbers', () => {
    expect(
      choleskyFactor([
        [1, 1],
        [1, 1],
      ]),
    ).toBeNull()
    expect(choleskyFactor([[-1]])).toBeNull()
    expect(() => symmetricEigen([[Number.NaN]])).toThrow(RangeError)
    expect(
      symmetricEigen([
        [1, 1],
        [1, 1],
      ])
        .map(({ value }) => Math.round(value))
        .sort(),
    ).toEqual([0, 2])
  })
})

describe('least squares', () => {
  const x = [0, 0.2, 0.5, 0.9, 1.4, 2]
  const y = [1.1, 0.9, 0.7, 0.25, 0.05, -0.6]

  it('a straight line comes out as in closed form, with the same uncertainties (JCGM 100:2008, H.3)', () => {
    const line = fitLine(x, y)
    const residuals = ([a, b]: readonly number[]) => x.map((at, i) => (a! + b! * at - y[i]!) / line.scatter)
    const solved = solveLeastSquares(residuals, [0, 0])
    const covariance = covarianceOf(solved?.normal ?? [])
    expect(solved?.unknowns[0]).toBeCloseTo(line.intercept, 9)
    expect(solved?.unknowns[1]).toBeCloseTo(line.slope, 9)
    expect(Math.sqrt(covariance?.[0]?.[0] ?? 0)).toBeCloseTo(line.interceptUncertainty, 9)
    expect(Math.sqrt(covariance?.[1]?.[1] ?? 0)).toBeCloseTo(line.slopeUncertainty, 9)
    expect(solved?.sumOfSquares).toBeCloseTo(line.degreesOfFreedom, 9)
    const redundancy = redundancies(solved?.jacobian ?? [], covariance ?? [])
    expect(redundancy.reduce((sum, part) => sum + part, 0)).toBeCloseTo(line.degreesOfFreedom, 9)
  })

  it('the unknowns of a decay are found from far off', () => {
    fc.assert(
      fc.property(within(0.5, 2), within(0.3, 3), (size, rate) => {
        const residuals = ([a, b]: readonly number[]) =>
          x.map((at) => 100 * (a! * Math.exp(-b! * at) - size * Math.exp(-rate * at)))
        const solved = solveLeastSquares(residuals, [1, 1])
        expect(solved?.unknowns[0]).toBeCloseTo(size, 8)
        expect(solved?.unknowns[1]).toBeCloseTo(rate, 8)
      }),
    )
  })

  it('what nothing depends on, or what is no number, has no solution', () => {
    expect(solveLeastSquares(() => [1, 2], [0])).toBeNull()
    expect(solveLeastSquares(() => [Number.NaN], [0])).toBeNull()
    expect(covarianceOf(stateAt(([a]) => [a!, 2 * a!], [1, 1]).normal)).toBeNull()
  })
})
