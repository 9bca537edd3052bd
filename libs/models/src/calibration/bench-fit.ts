// The characteristic of a fan from a few standing measurements: ψ0, ψ1 and peak efficiency by weighted least squares on
// every reading at once, φ_p and κ held within what is known of them. Each point's shaft speed is an unknown of its own, so thrust, speed, current and
// voltage each count once with their own uncertainty; duct loss, air density, the motor's speed constant and the scales of
// the instruments are unknowns known beforehand within theirs. So the covariance (JCGM 100:2008, 5.2) holds what no number of points can average away.
// In: BenchData, SI. Out: estimates with standard uncertainties, or why there are none: the data do not determine them,
// contradict each other (a reading more than 4 standard deviations off the rest), or lead to no fan at all.
import {
  type BenchData,
  type BenchSystem,
  type BenchUncertainties,
  benchSystem,
  FITTED,
  type Fitted,
  type HeldValue,
  MEASURED,
  type Observation,
} from './bench-data.js'
import { type Undetermined, undeterminedBy } from './bench-determinacy.js'
import { type BenchReading, readingAt } from './bench-model.js'
import { covarianceOf, type LeastSquares, redundancies, solveLeastSquares, stateAt } from './least-squares.js'

/** Standard deviations from which a reading contradicts the rest. */
export const CONTRADICTION = 4
/** Redundancy below which an error of a reading could not show. */
const UNCHECKED = 1e-6
/** What a fan can be. Assumed: the range a catalogue of parts accepts. */
const BELIEVABLE: Readonly<Record<Fitted, readonly [number, number]>> = {
  psi0: [0.3, 1.2],
  psi1: [0.1, 2],
  etaPeak: [0.4, 0.92],
}
const POINTS_MOST = 40
/** Uncertainties that may be 0: what they belong to is then taken as exact. */
const INEXACT = [
  ...['thrustScale', 'currentScale', 'voltageScale', 'speedConstant'],
  ...['density', 'ductLoss', 'phiPeak', 'kappa'],
] as readonly (keyof BenchUncertainties)[]
/** Standard deviations of the upper 1 % bound of a normal variable. */
const UPPER_PERCENT = 2.3263

export interface Estimate {
  readonly value: number
  readonly uncertainty: number
  /** Part of what is known of it that came in with a held value: 0 measured alone, 1 held alone. */
  readonly priorShare: number
}

/** A reading or known value against the fit: difference over what it would be by chance; null when nothing checks it. */
export interface Deviation {
  readonly observation: Observation
  readonly deviation: number | null
}

export interface FittedFan {
  readonly kind: 'fitted'
  readonly estimates: Readonly<Record<Fitted, Estimate>>
  /** Rows and columns in the order of FITTED. */
  readonly correlation: readonly (readonly number[])[]
  readonly chiSquared: number
  readonly degreesOfFreedom: number
  /** Largest χ² that 99 % of consistent data stay below. */
  readonly chiSquaredLimit: number
  /** What the stated uncertainties were multiplied with, because readings scatter more than they allow; 1 when they do not. */
  readonly widening: number
  readonly points: readonly (BenchReading & { readonly shaftSpeed: number })[]
  readonly deviations: readonly Deviation[]
}

export type BenchFit =
  | FittedFan
  | Undetermined
  | { readonly kind: 'inconsistent'; readonly deviations: readonly (Deviation & { readonly deviation: number })[] }
  | { readonly kind: 'implausible'; readonly unknowns: readonly { readonly unknown: Fitted; readonly value: number }[] }
  | { readonly kind: 'not-converged' }

/**
 * Fits a fan.
 * @throws RangeError for readings, ratios or uncertainties that cannot be
 */
export function fitBench(data: BenchData): BenchFit {
  requireData(data)
  const system = benchSystem(data)
  // What is undetermined by a wide margin from the start would only send the solver astray.
  const hopeless = undeterminedBy(data, stateAt(system.residuals, system.start).normal, 0.01)
  if (hopeless !== null) return hopeless
  const solved = solveLeastSquares(system.residuals, system.start)
  if (solved === null) return { kind: 'not-converged' }
  const undetermined = undeterminedBy(data, solved.normal)
  if (undetermined !== null) return undetermined
  const covariance = covarianceOf(solved.normal)
  if (covariance === null) return { kind: 'not-converged' }
  const deviations = deviationsOf(system, solved, covariance)
  const off = deviations.filter((each) => Math.abs(each.deviation ?? 0) > CONTRADICTION)
  if (off.length > 0) return { kind: 'inconsistent', deviations: worst(off) }
  const beyond = FITTED.flatMap((unknown, i) => outside(unknown, solved.unknowns[i]!))
  if (beyond.length > 0) return { kind: 'implausible', unknowns: beyond }
  return fitted(data, system, solved, covariance, deviations)
}

function fitted(
  data: BenchData,
  system: BenchSystem,
  solved: LeastSquares,
  covariance: readonly (readonly number[])[],
  deviations: readonly Deviation[],
): FittedFan {
  const unknowns = system.unknownsOf(solved.unknowns)
  const degreesOfFreedom = system.observations.length - system.start.length
  const chiSquaredLimit = upperChiSquared(degreesOfFreedom)
  const scattered = degreesOfFreedom > 0 && solved.sumOfSquares > chiSquaredLimit
  const widening = scattered ? Math.sqrt(solved.sumOfSquares / degreesOfFreedom) : 1
  const sigma = FITTED.map((_, i) => Math.sqrt(covariance[i]![i]!))
  const estimate = (unknown: Fitted, i: number): Estimate => ({
    value: unknowns[unknown],
    uncertainty: widening * sigma[i]!,
    priorShare: priorShare(data.held[unknown], sigma[i]!),
  })
  return {
    kind: 'fitted',
    estimates: Object.fromEntries(
      FITTED.map((unknown, i) => [unknown, estimate(unknown, i)]),
    ) as FittedFan['estimates'],
    correlation: FITTED.map((_, i) => FITTED.map((_each, k) => covariance[i]![k]! / (sigma[i]! * sigma[k]!))),
    chiSquared: solved.sumOfSquares,
    degreesOfFreedom,
    chiSquaredLimit,
    widening,
    points: data.points.map(({ nozzleRatio }, i) => {
      const shaftSpeed = system.shaftSpeedOf(solved.unknowns, i)
      return { shaftSpeed, ...readingAt(data.rig, unknowns, nozzleRatio, shaftSpeed) }
    }),
    deviations,
  }
}

function priorShare(held: HeldValue | undefined, sigma: number): number {
  return held === undefined ? 0 : Math.min(1, (sigma / held.uncertainty) ** 2)
}

function deviationsOf(
  system: BenchSystem,
  solved: LeastSquares,
  covariance: readonly (readonly number[])[],
): Deviation[] {
  const redundancy = redundancies(solved.jacobian, covariance)
  return system.observations.map((observation, i) => ({
    observation,
    // Model minus reading inside the fit; people ask how far the reading is off.
    deviation: redundancy[i]! < UNCHECKED ? null : -solved.residuals[i]! / Math.sqrt(redundancy[i]!),
  }))
}

/** The contradictions as large as the largest: with few readings several explain the same contradiction equally well. */
function worst(off: readonly Deviation[]): (Deviation & { readonly deviation: number })[] {
  const sized = off.flatMap((each) => (each.deviation === null ? [] : [{ ...each, deviation: each.deviation }]))
  const most = Math.max(...sized.map(({ deviation }) => Math.abs(deviation)))
  return sized.filter(({ deviation }) => Math.abs(deviation) > 0.98 * most)
}

function outside(unknown: Fitted, value: number): { readonly unknown: Fitted; readonly value: number }[] {
  const [low, high] = BELIEVABLE[unknown]
  return value >= low && value <= high ? [] : [{ unknown, value }]
}

/** 99 % bound of χ², by the cube-root rule of Wilson and Hilferty (1931, from memory): within 2 % from one degree on. */
export function upperChiSquared(degreesOfFreedom: number): number {
  if (degreesOfFreedom <= 0) return 0
  const share = 2 / (9 * degreesOfFreedom)
  return degreesOfFreedom * (1 - share + UPPER_PERCENT * Math.sqrt(share)) ** 3
}

function requireData({ points, ductLoss, uncertainties, held }: BenchData): void {
  if (points.length < 1 || points.length > POINTS_MOST) {
    throw new RangeError(`points must number from 1 to ${POINTS_MOST}, got ${points.length}`)
  }
  for (const point of points) {
    requirePositive('nozzle ratio', point.nozzleRatio)
    for (const measured of MEASURED) if (point[measured] !== null) requirePositive(measured, point[measured])
  }
  if (!(ductLoss >= 0)) throw new RangeError(`duct loss must be 0 or more, got ${ductLoss}`)
  for (const quantity of ['thrust', 'shaftSpeed', 'current', 'voltage'] as const) {
    requirePositive(`uncertainty of ${quantity}`, uncertainties[quantity])
  }
  for (const quantity of INEXACT) {
    if (!(uncertainties[quantity] >= 0)) {
      throw new RangeError(`uncertainty of ${quantity} must be 0 or more, got ${uncertainties[quantity]}`)
    }
  }
  for (const [unknown, value] of Object.entries(held)) {
    requirePositive(unknown, value.value)
    requirePositive(`uncertainty of ${unknown}`, value.uncertainty)
  }
}

function requirePositive(quantity: string, value: number): void {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${quantity} must be above 0, got ${value}`)
}
