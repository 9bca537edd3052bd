// Measurements of a fan on a bench as they go into a fit: points with what was read at each, how well instruments and
// inputs are known, values held from elsewhere, and one residual for each of them over its standard uncertainty.
import { type BenchReading, type BenchUnknowns, type PreparedRig, readingAt } from './bench-model.js'

/** One steady reading; null where nothing was read. Voltage either at the pack or at the motor. */
export interface BenchPoint {
  readonly nozzleRatio: number
  readonly voltage: number | null
  readonly motorVoltage: number | null
  readonly current: number | null
  readonly shaftSpeed: number | null
  readonly thrust: number | null
}

export const MEASURED = ['shaftSpeed', 'thrust', 'current', 'voltage', 'motorVoltage'] as const
export type Measured = (typeof MEASURED)[number]

/**
 * Standard uncertainties, relative but for duct loss, φ_p and κ. The first four are of one reading, apart from the others; a scale
 * is by how much an instrument may read everything high or low. 0 takes a scale, or what follows it, as exact.
 */
export interface BenchUncertainties {
  readonly thrust: number
  readonly shaftSpeed: number
  readonly current: number
  readonly voltage: number
  readonly thrustScale: number
  readonly currentScale: number
  readonly voltageScale: number
  readonly speedConstant: number
  readonly density: number
  readonly ductLoss: number
  readonly phiPeak: number
  readonly kappa: number
}

/**
 * Assumed: a bench balance with the fan's gusts on it, an optical or electronic speed reading, a clamp or shunt, a meter at
 * the pack; their calibrations; a listed speed constant; a standard pressure on a day that is not; a guessed duct;
 * an efficiency island between those of fans of one kind.
 */
export const BENCH_UNCERTAINTIES: BenchUncertainties = {
  thrust: 0.03,
  shaftSpeed: 0.01,
  current: 0.03,
  voltage: 0.01,
  thrustScale: 0.02,
  currentScale: 0.02,
  voltageScale: 0.005,
  speedConstant: 0.02,
  density: 0.015,
  ductLoss: 0.03,
  phiPeak: 0.03,
  kappa: 0.1,
}

export const FITTED = ['psi0', 'psi1', 'etaPeak'] as const
export type Fitted = (typeof FITTED)[number]

/** A value known from elsewhere, with its standard uncertainty in its own unit. */
export interface HeldValue {
  readonly value: number
  readonly uncertainty: number
}

export interface BenchData {
  readonly rig: PreparedRig
  /** Duct loss of the rig, inlet lip included. */
  readonly ductLoss: number
  readonly points: readonly BenchPoint[]
  readonly uncertainties: BenchUncertainties
  readonly held: Partial<Readonly<Record<Fitted, HeldValue>>>
}

const SCALES = ['thrustScale', 'currentScale', 'voltageScale'] as const
const SYSTEMATIC = ['phiPeak', 'kappa', 'ductLoss', 'densityFactor', 'speedConstantFactor', ...SCALES] as const
type AllUnknowns = BenchUnknowns & Readonly<Record<(typeof SCALES)[number], number>>
type Unknown = keyof AllUnknowns
/** The scale a reading goes through. */
const SCALE_OF = {
  thrust: 'thrustScale',
  current: 'currentScale',
  voltage: 'voltageScale',
  motorVoltage: 'voltageScale',
} as const

/** What a residual is about: a reading at a point (counted from 0), or a value known from elsewhere. */
export type Observation =
  | { readonly kind: 'reading'; readonly point: number; readonly measured: Measured }
  | { readonly kind: 'known'; readonly unknown: Unknown }

/** A fit laid out as vectors: which unknown stands where, which residual is about what. */
export interface BenchSystem {
  /** Free unknowns; the first three are those fitted, shaft speeds of the points over their starts follow. */
  readonly free: readonly Unknown[]
  readonly observations: readonly Observation[]
  readonly start: readonly number[]
  readonly residuals: (x: readonly number[]) => number[]
  readonly unknownsOf: (x: readonly number[]) => AllUnknowns
  readonly shaftSpeedOf: (x: readonly number[], point: number) => number
}

/** Where a fan of no known kind starts. Assumed: the middle of believable fans. */
const CLASS_START: Readonly<Record<Fitted, number>> = { psi0: 0.7, psi1: 0.65, etaPeak: 0.7 }

/** Lays out a fit. */
export function benchSystem(data: BenchData): BenchSystem {
  const known = knownValues(data)
  const free: Unknown[] = [...FITTED, ...SYSTEMATIC.filter((unknown) => known[unknown]!.uncertainty > 0)]
  const fixed = {
    phiPeak: data.rig.fan.phiPeak,
    kappa: data.rig.fan.kappa,
    ductLoss: data.ductLoss,
    densityFactor: 1,
    speedConstantFactor: 1,
    thrustScale: 1,
    currentScale: 1,
    voltageScale: 1,
    ...CLASS_START,
    ...Object.fromEntries(
      FITTED.flatMap((unknown) => (data.held[unknown] ? [[unknown, data.held[unknown].value]] : [])),
    ),
  }
  const unknownsOf = (x: readonly number[]): AllUnknowns => ({
    ...fixed,
    ...Object.fromEntries(free.map((unknown, i) => [unknown, x[i]!])),
  })
  const speeds = data.points.map((point) => startSpeed(data.rig, fixed, point))
  const shaftSpeedOf = (x: readonly number[], point: number) => speeds[point]! * x[free.length + point]!
  const observations: Observation[] = [...readingsOf(data), ...free.flatMap((unknown) => knownRow(known, unknown))]
  const residuals = (x: readonly number[]): number[] => {
    const unknowns = unknownsOf(x)
    const shown = data.points.map((point, i) => readingAt(data.rig, unknowns, point.nozzleRatio, shaftSpeedOf(x, i)))
    return observations.map((observation) => {
      if (observation.kind === 'known') {
        const { value, uncertainty } = known[observation.unknown]!
        return (unknowns[observation.unknown] - value) / uncertainty
      }
      const { point, measured } = observation
      const value = data.points[point]![measured]!
      const model =
        measured === 'shaftSpeed' ? shaftSpeedOf(x, point) : shown[point]![measured]! * unknowns[SCALE_OF[measured]]
      return (model - value) / (uncertaintyOf(data.uncertainties, measured) * value)
    })
  }
  const start = [...free.map((unknown) => fixed[unknown]), ...speeds.map(() => 1)]
  return { free, observations, start, residuals, unknownsOf, shaftSpeedOf }
}

/** Relative standard uncertainty of a reading. */
export function uncertaintyOf(uncertainties: BenchUncertainties, measured: Measured): number {
  return uncertainties[measured === 'motorVoltage' ? 'voltage' : measured]
}

function knownValues(data: BenchData): Partial<Record<Unknown, HeldValue>> {
  const { uncertainties } = data
  const motor = data.rig.motor !== null
  const scale = (uncertainty: number): HeldValue => ({ value: 1, uncertainty })
  return {
    ...data.held,
    phiPeak: { value: data.rig.fan.phiPeak, uncertainty: uncertainties.phiPeak },
    kappa: { value: data.rig.fan.kappa, uncertainty: uncertainties.kappa },
    ductLoss: { value: data.ductLoss, uncertainty: uncertainties.ductLoss },
    densityFactor: scale(uncertainties.density),
    thrustScale: scale(uncertainties.thrustScale),
    speedConstantFactor: scale(motor ? uncertainties.speedConstant : 0),
    currentScale: scale(motor ? uncertainties.currentScale : 0),
    voltageScale: scale(motor ? uncertainties.voltageScale : 0),
  }
}

function knownRow(known: Partial<Record<Unknown, HeldValue>>, unknown: Unknown): Observation[] {
  return known[unknown] === undefined ? [] : [{ kind: 'known', unknown }]
}

/** Readings that the rig can say something about: without a motor, current and voltage tell nothing. */
function readingsOf({ points, rig }: BenchData): Observation[] {
  return points.flatMap((point, i) =>
    MEASURED.filter((measured) => point[measured] !== null)
      .filter((measured) => rig.motor !== null || measured === 'shaftSpeed' || measured === 'thrust')
      .map((measured): Observation => ({ kind: 'reading', point: i, measured })),
  )
}

/** Shaft speed to start from: as read, or the one at which a fan of the class shows the first reading there is. */
function startSpeed(rig: PreparedRig, unknowns: BenchUnknowns, point: BenchPoint): number {
  if (point.shaftSpeed !== null) return point.shaftSpeed
  const shown = (speed: number): BenchReading => readingAt(rig, unknowns, point.nozzleRatio, speed)
  const measured = MEASURED.find((each) => each !== 'shaftSpeed' && point[each] !== null && shown(100)[each] !== null)
  if (measured === undefined || measured === 'shaftSpeed') return 100 / rig.radius
  let [low, high] = [1, 400 / rig.radius]
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high)
    if (shown(middle)[measured]! < point[measured]!) low = middle
    else high = middle
  }
  return 0.5 * (low + high)
}
