// What is not known exactly about a setup: one table of the inputs that vary, how each varies, and why by that much. Every
// input is one quantity of its own; what belongs together (both parts of a no-load current, the losses of one duct) moves
// together. A normal input is cut off at three deviations, so that no factor turns negative; a uniform one stands where
// only bounds can be guessed (JCGM 100:2008, 4.3.7). What moves most comes first, because the first places of a sample are
// spread most evenly.
import { normalQuantile } from './normal-quantile.js'

export type Effect = 'factor' | 'shift'
export type Distribution = 'normal' | 'uniform'

/** A table row: input, effect, distribution, standard deviation (relative for a factor, SI for a shift), reason. */
type Row<Input extends string> = readonly [Input, Effect, Distribution, number, string]

function rows<Input extends string>(...table: Row<Input>[]): Row<Input>[] {
  return table
}

const TABLE = rows(
  ['drag-area', 'factor', 'normal', 0.12, 'Assumed: of the catalogue or built up from surfaces'],
  ['fan-pressure-rise', 'factor', 'normal', 0.03, 'Assumed: tip clearance and blade shape from copy to copy'],
  ['motor-speed-constant', 'factor', 'normal', 0.025, 'Assumed: magnets and winding from copy to copy'],
  ['cell-resistance', 'factor', 'normal', 0.2, 'Assumed: make, age and cycles; 5 % when measured by the owner'],
  ['fan-efficiency', 'factor', 'normal', 0.05, 'Assumed: published efficiencies of small fans scatter more'],
  ['motor-cooling', 'factor', 'uniform', 0.15, 'Assumed: air past the motor depends on the installation'],
  ['esc-cooling', 'factor', 'uniform', 0.2, 'Assumed: air past the heat sink depends on the installation'],
  ['esc-resistance', 'factor', 'normal', 0.15, 'Assumed: transistors, leads and connectors'],
  ['motor-resistance', 'factor', 'normal', 0.08, 'Assumed: leads and solder joints count with the winding'],
  ['no-load-current', 'factor', 'normal', 0.15, 'Assumed: bearings, iron and timing'],
  ['duct-loss', 'factor', 'normal', 0.15, 'Assumed: losses of duct, inlet and lip are handbook estimates'],
  ['ram-recovery', 'shift', 'normal', 0.02, 'Assumed: depends on where the inlet sits; never above 1'],
  ['cell-voltage', 'shift', 'normal', 0.02, 'Assumed: scatter of resting voltages about the chart'],
  ['capacity', 'factor', 'normal', 0.04, 'Assumed: labels are rounded and cells age'],
  ['air-temperature', 'shift', 'normal', 3, 'Assumed: the day against the forecast'],
  ['air-pressure', 'factor', 'normal', 0.005, 'Assumed: weather, about 5 hPa'],
  ['take-off-mass', 'factor', 'normal', 0.02, 'Assumed: glue, paint and wires, and the scales'],
  ['oswald-factor', 'factor', 'normal', 0.05, 'Assumed: estimated from the planform; never above 1'],
  ['lift-coefficient', 'factor', 'normal', 0.07, 'Assumed: section, surface and trim'],
  ['wing-stiffness', 'factor', 'normal', 0.2, 'Assumed: torsional stiffness is an estimate until it is measured'],
  ['tail-stiffness', 'factor', 'normal', 0.2, 'Assumed: torsional stiffness is an estimate until it is measured'],
  ['linkage-stiffness', 'factor', 'normal', 0.2, 'Assumed: rods, horns and gear play are estimates until measured'],
  ['servo-torque', 'factor', 'normal', 0.1, 'Assumed: supply voltage and wear'],
  ['wing-strength', 'factor', 'normal', 0.12, 'Assumed: spar, joint and glue from copy to copy'],
  ['mount-strength', 'factor', 'normal', 0.15, 'Assumed: wood and glue from copy to copy'],
)

export type VariedInput = (typeof TABLE)[number][0]

/** One input that varies. */
export interface Tolerance {
  readonly input: VariedInput
  /** Multiplies the input, or is added to it. */
  readonly effect: Effect
  readonly distribution: Distribution
  /** Standard deviation: relative for a factor, in SI units for a shift; 0 keeps the input as it is. */
  readonly deviation: number
  readonly reason: string
}

/** What an override may change. */
export type ToleranceChange = Partial<Pick<Tolerance, 'distribution' | 'deviation' | 'reason'>>

/** Inputs in the order of the table: the order of every sample vector. */
export const VARIED_INPUTS: readonly VariedInput[] = TABLE.map(([input]) => input)

/** Index of each input in `VARIED_INPUTS`. */
export const INPUT_INDEX: Readonly<Record<VariedInput, number>> = Object.fromEntries(
  VARIED_INPUTS.map((input, index) => [input, index]),
) as Record<VariedInput, number>

/** Where a normal input is cut off, standard deviations. */
export const TRUNCATION = 3
/** Share of a normal quantity that lies more than three deviations below its middle. */
const BELOW_TRUNCATION = 0.0013498980316300946
/** Half-width of a uniform quantity over its standard deviation. */
const UNIFORM_REACH = Math.sqrt(3)

/** All inputs with their tolerances, in the order of the table. Immutable. */
export class Tolerances {
  /** The table as it stands. */
  static readonly standard = new Tolerances(
    TABLE.map(([input, effect, distribution, deviation, reason]) => ({
      input,
      effect,
      distribution,
      deviation,
      reason,
    })),
  )

  private constructor(readonly rows: readonly Tolerance[]) {}

  /**
   * The same tolerances with some changed.
   * @throws RangeError for an unknown input, a deviation below 0, or one that could turn a factor negative
   */
  with(changes: Readonly<Partial<Record<VariedInput, ToleranceChange>>>): Tolerances {
    const unknown = Object.keys(changes).find((input) => !(VARIED_INPUTS as readonly string[]).includes(input))
    if (unknown !== undefined) throw new RangeError(`input must be one of the tolerance table, got "${unknown}"`)
    return new Tolerances(this.rows.map((row) => checked({ ...row, ...changes[row.input] })))
  }

  /**
   * All deviations multiplied.
   * @throws RangeError if that makes one negative, or could turn a factor negative
   */
  scaled(factor: number): Tolerances {
    return new Tolerances(this.rows.map((row) => checked({ ...row, deviation: row.deviation * factor })))
  }

  of(input: VariedInput): Tolerance {
    return this.rows[INPUT_INDEX[input]] as Tolerance
  }
}

/** Cell resistance measured on the pack itself, rather than taken from a label. */
export const MEASURED_CELL_RESISTANCE: ToleranceChange = { deviation: 0.05, reason: 'Assumed: measured by the owner' }

/** Drag area solved from a measured speed, from its 5 % and 95 % bounds. */
export function measuredDragArea(estimate: {
  readonly dragArea: number
  readonly low: number
  readonly high: number
}): ToleranceChange {
  const deviation = (estimate.high - estimate.low) / (2 * normalQuantile(0.95) * estimate.dragArea)
  // A measurement worse than the guess it replaces cannot say more than three deviations above nothing.
  return { deviation: Math.min(deviation, 0.99 / TRUNCATION), reason: 'solved from a measured speed' }
}

/**
 * Value of an input at a place of the unit interval: a factor about 1 or a shift about 0, rising with the place.
 * @param place between 0 and 1, both excluded
 */
export function inputValue(tolerance: Tolerance, place: number): number {
  const neutral = tolerance.effect === 'factor' ? 1 : 0
  return neutral + tolerance.deviation * deviate(tolerance.distribution, place)
}

function deviate(distribution: Distribution, place: number): number {
  if (distribution === 'uniform') return UNIFORM_REACH * (2 * place - 1)
  return normalQuantile(BELOW_TRUNCATION + place * (1 - 2 * BELOW_TRUNCATION))
}

function checked(row: Tolerance): Tolerance {
  const { input, effect, distribution, deviation } = row
  if (!(deviation >= 0 && Number.isFinite(deviation))) {
    throw new RangeError(`deviation of ${input} must be finite and not negative, got ${deviation}`)
  }
  const reach = deviation * (distribution === 'normal' ? TRUNCATION : UNIFORM_REACH)
  if (effect === 'factor' && reach >= 1) {
    throw new RangeError(`deviation of ${input} must keep its factor above 0 (${distribution}), got ${deviation}`)
  }
  return row
}
