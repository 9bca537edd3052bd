// When the target is not reached: the least that each single limit would have to give for some setup to reach it, all the
// others held, and what can be reached without any giving. Each is found by a search of its own over the whole sweep with that
// limit opened (models/relaxation), never from the setups that happen to be listed, so that it is the smallest there is.
// What is proposed is rounded so that a request with that value has the setup in it.
import type { Objectives, Relaxation } from '@ductwright/contract/result'
import { LIMIT_INDEX } from '@ductwright/models/evaluation/limits'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { relaxDragArea, withDragArea } from '@ductwright/models/relaxation/drag-relaxation'
import {
  isLeastFor,
  type Least,
  type LeastAids,
  type OpenedLimit,
  searchLeast,
} from '@ductwright/models/relaxation/least-search'
import type { Optima } from '@ductwright/models/sweep/kept-optima'
import type { Nearest } from '@ductwright/models/sweep/search-nearest'
import { combinationOf } from './member-of.js'
import type { NearestSetups } from './nearest-setups.js'
import { objectivesOf } from './objectives-of.js'
import type { Prepared } from './prepare.js'
import { cleanedWords, relaxWords } from './relaxation-words.js'
import { openTreatments, treatedAirframe } from './treatments.js'

const KMH = 3.6
/** Highest stall speed a request may ask for, m/s. */
const HIGHEST_STALL = 200 / KMH
/** Slower than this is no flight, m/s; above 0, so that the search may prove that things are slow. */
const ANY_SPEED = 0.1

/** A limit that the owner has set, how far it may be opened, and how its value is written. */
interface Openable {
  readonly relax: Exclude<Relaxation['relax'], 'drag-area' | 'target'>
  readonly limit: OpenedLimit['limit']
  readonly from: number
  readonly widest: number
  readonly written: Written
}

/** From the unit of the models to that of the answer, and the steps it is rounded in, to the side that admits the setup. */
interface Written {
  readonly unit: string
  readonly factor: number
  readonly step: number
  readonly round: (value: number) => number
}

interface Aids {
  readonly optima: Optima
  readonly cancelled: () => boolean
}

/**
 * The least relaxations, of the owner's limits first.
 * @param nearest what stands in the way, so that each search looks only where it can find something
 * @param members numbers of the front
 * @throws SweepCancelled when `cancelled` turns true
 */
export function relaxationsOf(
  prepared: Prepared,
  nearest: NearestSetups,
  members: readonly number[],
  aids: Aids,
): Relaxation[] {
  const least: Searching = (opened) => leastOf(prepared, opened, nearest, members, aids)
  const limits = openable(prepared).map((limit) => relaxLimit(prepared, limit, least))
  return [...limits, relaxDrag(prepared, aids), relaxTarget(prepared, least)].filter((relaxed) => relaxed !== null)
}

function leastOf(
  { problem, plan }: Prepared,
  opened: OpenedLimit,
  nearest: NearestSetups,
  members: readonly number[],
  { optima, cancelled }: Aids,
): Least | null {
  const { limit, widest, speedFloor } = opened
  const [least] = optima.best<Least>(`least of ${limit} up to ${widest}, no slower than ${speedFloor}`, {
    isBefore: isLeastFor(limit),
    whole: () => [searchLeast(problem, plan, opened, cancelled, aidsOf(limit, nearest.inWhole(), members))],
    ofChanged(changed, [known]) {
      const { boxes, seeds } = aidsOf(limit, nearest.inChanged(changed), members)
      const all = known ? [known.number, ...seeds] : seeds
      return [searchLeast(problem, changed.plan, opened, cancelled, { boxes, seeds: all })]
    },
  })
  return least ?? null
}

/** Nothing that reaches the target holds every limit, or it would be held. */
function aidsOf(
  limit: OpenedLimit['limit'],
  { misses, atTarget, fastest }: Nearest,
  members: readonly number[],
): Required<Pick<LeastAids, 'boxes' | 'seeds'>> {
  const boxes = atTarget.of(LIMIT_INDEX[limit])
  if (limit !== 'speed-floor') return { boxes, seeds: [...atTarget.held, ...misses.map(({ number }) => number)] }
  if (fastest === null) return { boxes, seeds: [...atTarget.held, ...members] }
  return { boxes: [], seeds: [...atTarget.held, ...members, ...fastest] }
}

type Searching = (opened: OpenedLimit) => Least | null

/** Limits that ask for more than nothing. The ratings of parts and the airframe's own limits are not the owner's to relax. */
function openable(prepared: Prepared): Openable[] {
  const { request, catalogue, problem } = prepared
  const { mass, limits, airframe } = problem.circumstances
  const up = (unit: string, factor: number, step: number): Written => ({ unit, factor, step, round: Math.ceil })
  const down = (unit: string, factor: number, step: number): Written => ({ unit, factor, step, round: Math.floor })
  const open: (Openable | null)[] = [
    request.budget === null
      ? null
      : {
          relax: 'budget',
          limit: 'budget',
          from: request.budget,
          widest: Number.POSITIVE_INFINITY,
          written: up(catalogue.currency, 1, 0.01),
        },
    mass.fixed !== null || mass.limit >= airframe.takeOffMassLimit
      ? null
      : {
          relax: 'take-off-mass',
          limit: 'take-off-mass',
          from: mass.limit,
          widest: airframe.takeOffMassLimit,
          written: up('kg', 1, 0.01),
        },
    limits.margin <= 0
      ? null
      : { relax: 'margin', limit: 'structural-margin', from: limits.margin, widest: 0, written: down('%', 100, 0.1) },
    limits.flightTime <= 0
      ? null
      : { relax: 'flight-time', limit: 'flight-time', from: limits.flightTime, widest: 0, written: down('s', 1, 1) },
    limits.stallSpeed >= HIGHEST_STALL
      ? null
      : {
          relax: 'stall-speed',
          limit: 'stall-speed',
          from: limits.stallSpeed,
          widest: HIGHEST_STALL,
          written: up('km/h', KMH, 0.1),
        },
  ]
  return open.filter((limit) => limit !== null)
}

function relaxLimit(
  prepared: Prepared,
  { relax, limit, from, widest, written }: Openable,
  search: Searching,
): Relaxation | null {
  const least = search({ limit, widest, speedFloor: prepared.request.target.speed })
  if (least === null) return null
  return relaxation(prepared, relax, from, least.need, written, least.number)
}

/** Drag area with all the work that is left done as well, m²; null when none is. */
function cleanedDragArea({ chosen, catalogue, problem }: Prepared): number | null {
  const { untreated, airframe, treatments, referenceSpeed } = chosen
  const kinds = treatments.map(({ kind }) => kind)
  const open = openTreatments(airframe, kinds, catalogue)
  if (open.length === 0) return null
  return treatedAirframe(untreated, [...treatments, ...open], referenceSpeed, problem.circumstances).dragArea
}

/** The drag area with everything else held. */
function relaxDrag(prepared: Prepared, { optima, cancelled }: Aids): Relaxation | null {
  const { problem, plan, request } = prepared
  const found = relaxDragArea(problem, plan, request.target.speed, cancelled, optima)
  if (found === null) return null
  const circumstances = withDragArea(problem.circumstances, found.dragArea)
  const changed = { ...problem, circumstances }
  const there: Prepared = { ...prepared, problem: changed }
  const written: Written = { unit: 'cm²', factor: 1e4, step: 0.1, round: Math.floor }
  const from = problem.circumstances.airframe.dragArea
  const relaxed = relaxation(there, 'drag-area', from, found.dragArea, written, found.number)
  const cleaned = cleanedDragArea(prepared)
  return { ...relaxed, words: `${relaxed.words}${cleanedWords(cleaned, found.dragArea)}` }
}

/** The fastest setup that holds every limit, however slow. */
function relaxTarget(prepared: Prepared, search: Searching): Relaxation | null {
  const fastest = search({ limit: 'speed-floor', widest: ANY_SPEED, speedFloor: ANY_SPEED })
  if (fastest === null) return null
  const written: Written = { unit: 'km/h', factor: KMH, step: 0.1, round: Math.floor }
  const { speed } = prepared.request.target
  return relaxation(prepared, 'target', speed, fastest.need, written, fastest.number)
}

function relaxation(
  prepared: Prepared,
  relax: Relaxation['relax'],
  from: number,
  need: number,
  written: Written,
  number: number,
): Relaxation {
  const { setup, parts, duty, lines } = combinationOf(prepared, number)
  const detail = setupDetail(prepared.problem.circumstances, parts, duty)
  if ('refused' in detail) throw new Error(`a setup that a search found cannot be worked out again: ${detail.refused}`)
  const raw: Objectives = objectivesOf({ ...detail, time: detail.flightTime })
  const [shownFrom, to] = [tidy(from * written.factor, written.step), rounded(need * written.factor, written)]
  const words = relaxWords({ relax, from: shownFrom, to, raw, currency: prepared.catalogue.currency })
  return { relax, words, from: shownFrom, to, unit: written.unit, setup, raw, shopping: lines }
}

/** A step more than a millionth of a step away is a real one, not the rounding of a quotient. */
function rounded(value: number, { step, round }: Written): number {
  const slack = round === Math.ceil ? -1e-6 : 1e-6
  return tidy(round(value / step + slack) * step, step)
}

/** Without the binary noise of a product. */
function tidy(value: number, step: number): number {
  return Number(value.toFixed(step < 1 ? 2 : 0))
}
