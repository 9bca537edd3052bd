// What a study says about a setup, in sentences: the odds, what the spread of the speed comes from, how it flies. The same
// words in the letter and in the report on a single setup.
import { bare, duration, figure, odds, percent, range, speedOf, unitOf } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { FlightFigures, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import { bandOf, type NumberKey, type Study } from './banded.js'

/** Share of the spread under which an input is not worth a mention. */
const leastShare = 0.05
const mostDrivers = 3

/** The figure that is compared, by the basis of the target. */
export const speedKeys = {
  steady: 'speed_steady_km_h',
  'in-run': 'speed_in_run_km_h',
  dive: 'speed_dive_km_h',
} as const satisfies Readonly<Record<string, NumberKey<SetupFigures>>>

/**
 * Odds of reaching a speed (m/s), where the speed lies when its basis is given, then what is in doubt: flying level at all,
 * and the rating least sure to hold.
 */
export function oddsWords(study: SetupStudy, target: number | null, basis?: keyof typeof speedKeys): string {
  const chance = target === null ? null : study.reaches_target
  const reach = chance === null || target === null ? [] : [`${odds(chance)} that it reaches ${speedOf(target)}`]
  const doubt = study.flies < 0.995 ? [`${odds(study.flies)} that it flies level`] : []
  return [...reach, ...(basis === undefined ? [] : speedBand(study, basis)), ...doubt, ...leastHeld(study)].join('; ')
}

/** The rating least sure to hold. */
function leastHeld({ holds }: SetupStudy): string[] {
  const [least] = [...holds].sort((a, b) => a.odds - b.odds)
  return least === undefined ? [] : [`${odds(least.odds)} that it holds the limit on ${inert(least.words, 120)}`]
}

/** Where the compared speed lies in 90 cases of 100. */
function speedBand(study: Study, basis: keyof typeof speedKeys): string[] {
  const band = bandOf(study, speedKeys[basis])
  return band === null ? [] : [`${range('speed', ...band)} ${unitOf('speed')} in 90 cases of 100`]
}

/** What the spread of the speed comes from, in one sentence. */
export function driversSentence({ drivers }: SetupStudy): string {
  const named = drivers.filter(({ share }) => share >= leastShare).slice(0, mostDrivers)
  if (named.length === 0) return 'No single input stands out.'
  const listed = named.map(({ words, share }) => `${inert(words, 120)} (${percent(share)})`)
  const last = listed.pop() ?? ''
  return `Mostly from ${listed.length === 0 ? last : `${listed.join(', ')} and ${last}`}.`
}

/** Passes, full throttle in one go, cool-down, and when to be down. */
export function flightLine(flight: FlightFigures, reserve: number): string {
  const passes = `${figure('count', flight.passes)} ${flight.passes === 1 ? 'pass' : 'passes'}`
  const cut = flight.ended_by === 'time' ? '' : `, ended because ${endedBy(flight)}`
  return [`${passes}${cut}`, fullThrottle(flight), coolDown(flight), landBy(flight, reserve)].join('; ')
}

const ends: Readonly<Record<FlightFigures['ended_by'], string>> = {
  time: 'the time wanted was up',
  charge: 'only the charge for landing and the reserve was left',
  underpowered: 'the packs no longer carried it',
}

/** Why there were no more passes. */
export function endedBy({ ended_by: end }: FlightFigures): string {
  return ends[end]
}

export function fullThrottle(flight: FlightFigures): string {
  return `full throttle for ${figure('seconds', Math.floor(flight.full_throttle_s))} in one go, then ${inert(flight.full_throttle_ends, 120)} ends it`
}

export function coolDown({ cool_down_s: cool }: FlightFigures): string {
  if (cool === null) return 'no cruise between passes is long enough to keep it cool'
  return cool > 0
    ? `at least ${figure('seconds', Math.ceil(cool))} of cruise after each pass`
    : 'no cooling between passes needed'
}

/** The clock and the charge drawn at which the packs are down to the reserve. */
export function landBy(flight: FlightFigures, reserve: number): string {
  if (flight.ended_by === 'underpowered') return 'no time to land by: the packs do not carry the flight to its end'
  const down = `on the ground by ${duration(Math.floor(flight.time_to_reserve_s))}`
  const usable = usableCharge(flight, reserve)
  return usable === null ? down : `${down} or ${figure('charge', Math.floor(usable))} drawn, whichever is first`
}

/** Charge above the reserve, mAh, from what the flight drew and what it left; null when it drew nothing. */
function usableCharge({ charge_used_mah: drawn, phases }: FlightFigures, reserve: number): number | null {
  const left = phases.at(-1)?.charge_left
  if (left === undefined || !(left < 1)) return null
  return (drawn / (1 - left)) * (1 - reserve)
}

/** How many cases the bands and odds rest on. */
export function sampleWords({ samples, seed }: SetupStudy): string {
  return `Bands and odds rest on ${bare('count', samples)} cases with every input varied within its tolerance (seed ${seed}).`
}
