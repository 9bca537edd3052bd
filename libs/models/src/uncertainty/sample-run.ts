// Works a setup through for every sample of its tolerances and keeps what came out as columns: inputs, use of every limit,
// speed, and whatever else is measured. A sample that does not fly is a row like any other, with its refusal and without
// figures (NaN): nothing is dropped. Use of a limit is use of what is rated or worked out to break: headroom, design factors
// and what is taken off for scatter answer the same doubts that are sampled here, so they do not count twice.

import { LIMIT_INDEX, LIMITS, type Limit } from '../evaluation/limits.js'
import type { NoDetail, SetupDetail } from '../evaluation/setup-detail.js'
import { setupDetail } from '../evaluation/setup-detail.js'
import { loadDivisor } from '../structure/criterion-scatter.js'
import { haltonPoints } from './halton.js'
import { perturb, type StudiedSetup } from './perturb.js'
import { inputValue, type Tolerances, VARIED_INPUTS } from './tolerances.js'

export interface SampleOptions {
  /** How many samples; the same seed and number give the same bytes. */
  readonly samples: number
  /** Whole number from 0 to 2³² − 1. */
  readonly seed: number
  readonly tolerances: Tolerances
}

/** Columns, each with one entry a sample. */
export interface SampleRun {
  readonly samples: number
  /** Factors and shifts, by index of `VARIED_INPUTS`. */
  readonly inputs: readonly Float64Array[]
  /** Index in `LIMITS` of what kept the sample from flying, −1 if it flies. */
  readonly refusedBy: Int8Array
  /** Speed that is compared, m/s; NaN if refused. */
  readonly speed: Float64Array
  /** Share used of each limit's rating, by index of `LIMITS`; NaN if refused. */
  readonly used: readonly Float64Array[]
  /** What `measure` gave, by its index; NaN if refused. Empty when no sample flies. */
  readonly quantities: readonly Float64Array[]
}

/**
 * Runs all samples.
 * @param measure quantities of one sample, always as many
 * @throws RangeError for a number of samples, a seed or a count of quantities that does not fit
 */
export function runSamples(
  setup: StudiedSetup,
  duty: number,
  options: SampleOptions,
  measure: (detail: SetupDetail) => ArrayLike<number>,
): SampleRun {
  const { samples } = options
  const inputs = inputColumns(options)
  const run = { samples, inputs, refusedBy: new Int8Array(samples).fill(-1), speed: missing(samples) }
  const used = LIMITS.map(() => missing(samples))
  let quantities: Float64Array[] | null = null
  const values = new Float64Array(inputs.length)
  for (let sample = 0; sample < samples; sample++) {
    for (const [i, column] of inputs.entries()) values[i] = column[sample] as number
    const detail = detailOf(setup, values, duty)
    if ('refused' in detail) {
      run.refusedBy[sample] = LIMIT_INDEX[detail.refused]
      continue
    }
    run.speed[sample] = detail.speed
    keep(used, sample, LIMITS.map(ratedUse(detail)))
    const measured = measure(detail)
    quantities ??= Array.from(measured, () => missing(samples))
    keep(quantities, sample, measured)
  }
  return { ...run, used, quantities: quantities ?? [] }
}

function detailOf(setup: StudiedSetup, values: Float64Array, duty: number): SetupDetail | NoDetail {
  const { circumstances, parts } = perturb(setup, values)
  return setupDetail(circumstances, parts, duty)
}

/** Use by limit. The structure counts by what was worked out to break it: its allowed loads undivided. */
function ratedUse(detail: SetupDetail): (limit: Limit) => number {
  const used = new Map(detail.limits.map((limit) => [limit.limit, limit.used]))
  const loads = detail.margins.map(({ criterion, margin }) => (1 - margin) / loadDivisor(criterion))
  used.set('structural-margin', Math.max(...loads))
  return (limit) => used.get(limit) ?? Number.NaN
}

function inputColumns({ samples, seed, tolerances }: SampleOptions): Float64Array[] {
  const dimensions = VARIED_INPUTS.length
  const places = haltonPoints(samples, dimensions, seed)
  return tolerances.rows.map((tolerance, input) =>
    Float64Array.from({ length: samples }, (_, sample) =>
      inputValue(tolerance, places[sample * dimensions + input] as number),
    ),
  )
}

function keep(columns: readonly Float64Array[], sample: number, measured: ArrayLike<number>): void {
  if (measured.length !== columns.length) {
    throw new RangeError(`measure must always give ${columns.length} quantities, got ${measured.length}`)
  }
  for (const [i, column] of columns.entries()) column[sample] = measured[i] as number
}

function missing(samples: number): Float64Array {
  return new Float64Array(samples).fill(Number.NaN)
}
