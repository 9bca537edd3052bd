// Heat in two stores, inner (winding, board) and outer (case, heat sink): the inner one is heated by the current through
// a resistance that rises with its own temperature, the outer one by the remaining losses and cooled by the air.
//   C1·x' = q1 + g·x − G12·(x − y),   C2·y' = q2 + G12·(x − y) − G2·y,   x, y above the air
// Every flight phase has constant coefficients, so it is an exact exponential, resistance feedback included; repeated
// passes are powers of one affine map. A positive eigenvalue is runaway: there is no steady temperature.
import { integral, notePeaks } from './within-phase.js'

/** Heat stores and conductances: J/K, W/K. */
export interface HeatPath {
  readonly innerCapacity: number
  readonly outerCapacity: number
  readonly between: number
  readonly toAir: number
}

/** Heat of one phase: W at air temperature into each store, and W/K of feedback in the inner one. */
export interface PhaseHeat {
  readonly inner: number
  readonly feedback: number
  readonly outer: number
  /** s */
  readonly time: number
}

/** Exact map of one phase: state ← m·state + v, for (inner, outer) above the air. */
export interface PhaseMap {
  readonly m11: number
  readonly m12: number
  readonly m21: number
  readonly m22: number
  readonly v1: number
  readonly v2: number
  /** Largest eigenvalue, 1/s; at or above 0 there is no steady temperature. */
  readonly rate: number
  /** The other eigenvalue, 1/s; always negative. */
  readonly fast: number
  /** The equation itself, x' = a11·x + a12·y + b1 and y' = a21·x + a22·y + b2, and the length of the phase, s. */
  readonly a11: number
  readonly a12: number
  readonly a21: number
  readonly a22: number
  readonly b1: number
  readonly b2: number
  readonly time: number
}

/** Temperatures above the air, K. */
export interface HeatState {
  inner: number
  outer: number
}

/** Map of one phase. */
export function phaseMap(path: HeatPath, heat: PhaseHeat): PhaseMap {
  const a11 = (heat.feedback - path.between) / path.innerCapacity
  const a12 = path.between / path.innerCapacity
  const a21 = path.between / path.outerCapacity
  const a22 = -(path.between + path.toAir) / path.outerCapacity
  const mean = 0.5 * (a11 + a22)
  // The off-diagonals are positive, so the eigenvalues are real and apart.
  const half = Math.sqrt(0.25 * (a11 - a22) ** 2 + a12 * a21)
  const fast = mean - half
  const slow = mean + half
  const ef = Math.exp(fast * heat.time)
  const es = Math.exp(slow * heat.time)
  const sf = integral(fast, heat.time)
  const ss = integral(slow, heat.time)
  const width = 2 * half
  // Projections on the slow eigenvector: (A − fast)/width; on the fast one: (slow − A)/width.
  const p11 = (a11 - fast) / width
  const p12 = a12 / width
  const p21 = a21 / width
  const p22 = (a22 - fast) / width
  const b1 = heat.inner / path.innerCapacity
  const b2 = heat.outer / path.outerCapacity
  const s11 = ss * p11 + sf * (1 - p11)
  const s12 = (ss - sf) * p12
  const s21 = (ss - sf) * p21
  const s22 = ss * p22 + sf * (1 - p22)
  return {
    m11: es * p11 + ef * (1 - p11),
    m12: (es - ef) * p12,
    m21: (es - ef) * p21,
    m22: es * p22 + ef * (1 - p22),
    v1: s11 * b1 + s12 * b2,
    v2: s21 * b1 + s22 * b2,
    rate: slow,
    fast,
    a11,
    a12,
    a21,
    a22,
    b1,
    b2,
    time: heat.time,
  }
}

/** Takes a state through a whole phase. */
export function advance(map: PhaseMap, state: HeatState): void {
  const x = state.inner
  const y = state.outer
  state.inner = map.m11 * x + map.m12 * y + map.v1
  state.outer = map.m21 * x + map.m22 * y + map.v2
}

/** Highest inner and outer temperature above the air, K. */
export interface Peaks {
  inner: number
  outer: number
}

/**
 * Runs cycles of a hot and a cool phase from the temperature of the air into `peaks`, peaks inside the phases included; the
 * cool phase may have no length.
 */
export function cyclePeaks(hot: PhaseMap, cool: PhaseMap | null, cycles: number, peaks: Peaks): void {
  let x = 0
  let y = 0
  peaks.inner = 0
  peaks.outer = 0
  for (let i = 0; i < cycles; i++) {
    const hotX = hot.m11 * x + hot.m12 * y + hot.v1
    const hotY = hot.m21 * x + hot.m22 * y + hot.v2
    notePeaks(hot, x, y, hotX, hotY, peaks)
    x = hotX
    y = hotY
    if (cool === null) continue
    x = cool.m11 * hotX + cool.m12 * hotY + cool.v1
    y = cool.m21 * hotX + cool.m22 * hotY + cool.v2
    notePeaks(cool, hotX, hotY, x, y, peaks)
  }
}
