// What clean-up work would do to the level top speed of a setup that has been worked through, everything else held.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { Limit } from '@ductwright/models/evaluation/limits'
import { topSpeedWith } from '@ductwright/models/evaluation/sensitivity'
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import type { AirframeChoice } from './airframe-choice.js'
import { treatedAirframe } from './treatments.js'

/** Work as the models see it, whatever it costs. */
export type Work = Pick<ListedTreatment, 'kind' | 'mass'>

/** The airframe before any work, and the work that the setup is worked through with. */
export interface WorkBase {
  readonly untreated: Airframe
  readonly done: readonly Work[]
  readonly referenceSpeed: number
}

export interface WorkGain {
  /** m/s; 0 when it would no longer fly level. */
  readonly gain: number
  /** Drag area taken off, m². */
  readonly cut: number
  /** The airframe with all the work done. */
  readonly airframe: Airframe
}

export function workGain(detail: SetupDetail, base: WorkBase, more: readonly Work[]): WorkGain {
  const { untreated, done, referenceSpeed } = base
  const before = treatedAirframe(untreated, done, referenceSpeed, detail.air)
  const airframe = treatedAirframe(untreated, [...done, ...more], referenceSpeed, detail.air)
  const mass = more.reduce((sum, treatment) => sum + treatment.mass, 0)
  const point = topSpeedWith(detail.level, {
    dragArea: airframe.dragArea / before.dragArea,
    mass: 1 + mass / detail.mass,
  })
  const gain = point === null ? 0 : point.speed - detail.level.top.speed
  return { gain, cut: before.dragArea - airframe.dragArea, airframe }
}

/** A setup, and the work that is left to do. */
export interface OpenWork {
  readonly circumstances: Circumstances
  readonly parts: Parts
  readonly duty: number
  readonly base: WorkBase
  readonly open: readonly Work[]
}

/** The setup at its throttle, with the work that an owner has not switched on. */
export function openWork(
  { circumstances, parts, duty }: Pick<OpenWork, 'circumstances' | 'parts' | 'duty'>,
  { untreated, referenceSpeed, treatments }: AirframeChoice,
  open: readonly Work[],
): OpenWork {
  const alone = ({ kind, mass }: Work): Work => ({ kind, mass })
  const base = { untreated, referenceSpeed, done: treatments.map(alone) }
  return { circumstances, parts, duty, base, open: open.map(alone) }
}

export interface WorkGains {
  /** Of each piece of work by itself, m/s and m². */
  readonly alone: readonly Pick<WorkGain, 'gain' | 'cut'>[]
  /** Limits that break at the same throttle once a piece of work is done; one alone behind which nothing can be worked out. */
  readonly broken: readonly (readonly Limit[] | Limit)[]
  /** Gain of every combination, m/s: that of piece i is in it where bit i of the place, counted from 1, is set. */
  readonly together: readonly number[]
}

/** Every combination is worked out, since what two pieces of work gain together is not the sum of what each gains. */
export function workGains({ circumstances, parts, duty, base, open }: OpenWork): WorkGains {
  if (open.length === 0) return { alone: [], broken: [], together: [] }
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) throw new RangeError(`work gains nothing where nothing flies: ${detail.refused}`)
  const alone = open.map((treatment) => workGain(detail, base, [treatment]))
  const combinations = Array.from({ length: 2 ** open.length - 1 }, (_, i) => chosenOf(open, i + 1))
  return {
    alone: alone.map(({ gain, cut }) => ({ gain, cut })),
    broken: alone.map(({ airframe }) => brokenWith({ ...circumstances, airframe }, parts, duty)),
    together: combinations.map((treatments) => workGain(detail, base, treatments).gain),
  }
}

/** The pieces of work of a combination by its bits. */
export function chosenOf<Piece>(open: readonly Piece[], bits: number): Piece[] {
  return open.filter((_, i) => (bits >> i) % 2 === 1)
}

/** A faster airframe may ask more of structure or ratings than the same throttle did before; filler and doors weigh something. */
function brokenWith(circumstances: Circumstances, parts: Parts, duty: number): readonly Limit[] | Limit {
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) return detail.refused
  return detail.limits.filter(({ used, allowed }) => used > allowed).map(({ limit }) => limit)
}

/** Price and hours of some work. */
export function workCost(work: readonly ListedTreatment[]): { readonly price: number; readonly hours: number } {
  return {
    price: work.reduce((sum, { price }) => sum + price, 0),
    hours: work.reduce((sum, { hours }) => sum + hours, 0),
  }
}
