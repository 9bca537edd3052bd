// Whether measurements on a bench determine a fan: the information left for ψ0, ψ1 and η_p once everything else is free,
// N11 − N12·N22⁻¹·N21 of the normal matrix (JCGM 100:2008, 5.2), scaled by the widest uncertainty that still tells fans
// apart. An eigenvalue below 1 is a direction the measurements say less about than that; the unknowns in it are undetermined.
import type { BenchData, Fitted } from './bench-data.js'
import { FITTED } from './bench-data.js'
import { choleskyFactor, choleskySolve, type Matrix, symmetricEigen } from './symmetric-matrix.js'

/** Widest standard uncertainty worth reporting. Assumed: about twice the scatter between fans of one kind. */
export const WIDEST_UNCERTAINTY: Readonly<Record<Fitted, number>> = { psi0: 0.1, psi1: 0.2, etaPeak: 0.1 }
/** Share of an undetermined direction from which an unknown counts as part of it. */
const PART = 0.3
/** Nozzle ratios closer than this are one nozzle. */
const SAME_NOZZLE = 0.02

/** What would help: another reading, another nozzle, or a value held from elsewhere. */
export type Remedy =
  | 'thrust'
  | 'shaft-speed'
  | 'motor'
  | 'current'
  | 'second-nozzle'
  | 'wider-nozzles'
  | 'more-precision'

export interface Undetermined {
  readonly kind: 'undetermined'
  readonly unknowns: readonly Fitted[]
  readonly remedies: readonly Remedy[]
}

/**
 * What a normal matrix whose first three unknowns are the fitted ones leaves undetermined; null when nothing.
 * @param least eigenvalue from which a direction counts as determined
 */
export function undeterminedBy(data: BenchData, normal: Matrix, least = 1): Undetermined | null {
  const eigen = symmetricEigen(scaledInformation(normal))
  const loose = eigen.filter(({ value }) => value < least)
  if (loose.length === 0) return null
  const unknowns = FITTED.filter((_, i) => loose.some(({ vector }) => Math.abs(vector[i]!) > PART))
  return { kind: 'undetermined', unknowns, remedies: remediesFor(data, unknowns) }
}

/** Information on the fitted unknowns in units of the widest uncertainty. */
function scaledInformation(normal: Matrix): number[][] {
  const n = FITTED.length
  const rest = normal.slice(n)
  const factor = choleskyFactor(rest.map((row) => row.slice(n)))
  if (factor === null) throw new RangeError('each point must have a reading that the rig can use')
  const carried = FITTED.map((_, k) =>
    choleskySolve(
      factor,
      rest.map((row) => row[k]!),
    ),
  )
  return FITTED.map((a, i) =>
    FITTED.map((b, k) => {
      const taken = rest.reduce((sum, row, m) => sum + row[i]! * carried[k]![m]!, 0)
      return (normal[i]![k]! - taken) * WIDEST_UNCERTAINTY[a] * WIDEST_UNCERTAINTY[b]
    }),
  )
}

function remediesFor(data: BenchData, unknowns: readonly Fitted[]): Remedy[] {
  const { points, rig } = data
  const has = (measured: keyof (typeof points)[number]) => points.some((point) => point[measured] !== null)
  const paired = (a: 'thrust' | 'current') => points.some((point) => point[a] !== null && knowsSpeed(data, point))
  const flow = unknowns.includes('psi0') || unknowns.includes('psi1')
  const remedies: Remedy[] = []
  if (flow && !has('thrust')) remedies.push('thrust')
  if ((flow && has('thrust') && !paired('thrust')) || (!flow && has('current') && !paired('current')))
    remedies.push('shaft-speed')
  if (unknowns.includes('etaPeak') && rig.motor === null) remedies.push('motor')
  if (unknowns.includes('etaPeak') && !has('current')) remedies.push('current')
  if (unknowns.includes('psi1') && paired('thrust')) remedies.push(nozzleRemedy(data))
  return remedies.length > 0 ? remedies : ['more-precision']
}

function nozzleRemedy({ points }: BenchData): Remedy {
  const ratios = points.filter(({ thrust }) => thrust !== null).map(({ nozzleRatio }) => nozzleRatio)
  return Math.max(...ratios) - Math.min(...ratios) < SAME_NOZZLE ? 'second-nozzle' : 'wider-nozzles'
}

/** Shaft speed read, or to be had from the voltage of a known motor. */
function knowsSpeed({ rig }: BenchData, point: BenchData['points'][number]): boolean {
  const volts = point.voltage ?? point.motorVoltage
  return point.shaftSpeed !== null || (rig.motor !== null && volts !== null && point.current !== null)
}
