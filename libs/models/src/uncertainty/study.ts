// How sure a setup is: bands of its figures, the chance to reach a speed and to stay within each limit when every input is
// only known to its tolerance, and which inputs matter most. The same setup, seed and number of samples give the same
// answer everywhere. Inputs are taken as independent; the propagation of distributions is that of JCGM 101:2008, from
// memory, with evenly spread instead of random samples.
import { LIMIT_INDEX, LIMITS, type Limit } from '../evaluation/limits.js'
import type { SetupDetail } from '../evaluation/setup-detail.js'
import type { StudiedSetup } from './perturb.js'
import { type Band, band } from './quantile.js'
import { rankShares } from './rank-shares.js'
import { runSamples, type SampleOptions, type SampleRun } from './sample-run.js'
import { VARIED_INPUTS, type VariedInput } from './tolerances.js'

/** Enough for bounds good to a few hundredths of their distance. */
export const STANDARD_SAMPLES = 256
/** Fewer say nothing about one case in twenty. */
const LEAST_SAMPLES = 20

export interface StudyOptions extends Omit<SampleOptions, 'samples'> {
  /** Defaults to 256. */
  readonly samples?: number
  /** m/s */
  readonly targetSpeed: number
  /** What measured quantities are rounded by before their bands are taken; never turns two around. Defaults to not at all. */
  readonly round?: (value: number) => number
}

/** An input that a figure follows. */
export interface Driver {
  readonly input: VariedInput
  /** Share of the spread that it explains; the shares of a figure add up to 1 at most. */
  readonly share: number
  /** Whether the figure rises with it. */
  readonly rises: boolean
}

export interface LimitChance {
  readonly limit: Limit
  /** Share of the samples in which it was judged that hold it; null when none was judged. */
  readonly holds: number | null
  /** Use of the rating over the samples that fly. */
  readonly used: Band | null
}

export interface Study {
  readonly samples: number
  /** Share of all samples that fly: every operating point exists. */
  readonly flies: number
  /** What kept the others from flying, with their share of all samples, in the order of testing. */
  readonly refusals: readonly { readonly limit: Limit; readonly share: number }[]
  /** Shares of all samples that reach the target speed, that hold all limits, and that do both. */
  readonly reaches: number
  readonly holdsAll: number
  readonly succeeds: number
  /** Of each measured quantity over the samples that fly; null where no sample gives a value. */
  readonly bands: readonly (Band | null)[]
  /** All limits, in the order of testing. */
  readonly limits: readonly LimitChance[]
  /** What top speed follows, largest share first. */
  readonly speedDrivers: readonly Driver[]
  /** Worked out when asked for. The limit whose 95 % bound of use is highest, among those whose use varies, and what that use follows. */
  readonly binding: { readonly limit: Limit; readonly drivers: readonly Driver[] } | null
}

/**
 * Studies a setup at a duty.
 * @param measure quantities to give bands of, always as many
 * @throws RangeError for fewer than 20 samples, a bad seed or target speed, or a changing count of quantities
 */
export function studySetup(
  setup: StudiedSetup,
  duty: number,
  options: StudyOptions,
  measure: (detail: SetupDetail) => ArrayLike<number>,
): Study {
  const { samples = STANDARD_SAMPLES, targetSpeed } = options
  if (!(samples >= LEAST_SAMPLES)) throw new RangeError(`samples must be at least ${LEAST_SAMPLES}, got ${samples}`)
  if (!(targetSpeed >= 0)) throw new RangeError(`target speed must not be negative, in m/s, got ${targetSpeed}`)
  const run = runSamples(setup, duty, { ...options, samples }, measure)
  const limits = LIMITS.map((limit) => chanceOf(run, limit))
  const reaching = (sample: number): boolean => (run.speed[sample] as number) >= targetSpeed
  const holding = (sample: number): boolean => run.used.every((column) => (column[sample] as number) <= 1)
  return {
    samples,
    flies: shareOf(run, (sample) => run.refusedBy[sample] === -1),
    refusals: LIMITS.flatMap((limit) => {
      const share = shareOf(run, (sample) => run.refusedBy[sample] === LIMIT_INDEX[limit])
      return share > 0 ? [{ limit, share }] : []
    }),
    reaches: shareOf(run, reaching),
    holdsAll: shareOf(run, holding),
    succeeds: shareOf(run, (sample) => reaching(sample) && holding(sample)),
    bands: run.quantities.map((column) => band(column, options.round)),
    limits,
    speedDrivers: drivers(run, run.speed),
    get binding() {
      return binding(run, limits)
    },
  }
}

/** A refused sample was judged by the limit that refused it and by no other that we know of. */
function chanceOf(run: SampleRun, limit: Limit): LimitChance {
  const column = run.used[LIMIT_INDEX[limit]] as Float64Array
  let judged = 0
  let held = 0
  for (let sample = 0; sample < run.samples; sample++) {
    const refusedBy = run.refusedBy[sample]
    if (refusedBy !== -1 && refusedBy !== LIMIT_INDEX[limit]) continue
    judged++
    if ((column[sample] as number) <= 1) held++
  }
  return { limit, holds: judged === 0 ? null : held / judged, used: band(column) }
}

function binding(run: SampleRun, limits: readonly LimitChance[]): Study['binding'] {
  const varying = limits.filter(({ used }) => used !== null && used.low < used.high)
  const [first, ...rest] = varying
  if (first === undefined) return null
  const high = ({ used }: LimitChance): number => (used as Band).high
  const { limit } = rest.reduce((most, next) => (high(next) > high(most) ? next : most), first)
  return { limit, drivers: drivers(run, run.used[LIMIT_INDEX[limit]] as Float64Array) }
}

/** Over the samples that have a figure. */
function drivers(run: SampleRun, figure: Float64Array): Driver[] {
  const present = (_: number, sample: number): boolean => !Number.isNaN(figure[sample])
  const inputs = run.inputs.map((column) => column.filter(present))
  return rankShares(inputs, figure.filter(present)).map(({ index, share, rises }) => ({
    input: VARIED_INPUTS[index] as VariedInput,
    share,
    rises,
  }))
}

function shareOf(run: SampleRun, holds: (sample: number) => boolean): number {
  let count = 0
  for (let sample = 0; sample < run.samples; sample++) if (holds(sample)) count++
  return count / run.samples
}
