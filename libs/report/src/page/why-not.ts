// Why not this one: which setup of the list beats or equals a candidate, and by how much. Compared as the list was:
// rounded to the declared resolution, flight time and distance to the design load counted only up to what is wanted.
// Pure, so that the page in a browser and the command line answer alike.
import type { Objectives, Result } from '@ductwright/contract/result'

/** How objectives are compared: steps of rounding (0: none), and what flight time and margin count up to. */
export interface Comparison {
  readonly resolution: Objectives
  /** null: both count without end. */
  readonly wanted: Pick<Objectives, 'flight_time_s' | 'margin'> | null
}

export interface Listed {
  readonly rank: number
  readonly raw: Objectives
}

export interface WhyNot {
  /** `unbeaten`: no listed setup is at least as good in everything; the best ranked one stands beside it. */
  readonly verdict: 'beaten' | 'equalled' | 'unbeaten'
  readonly rank: number
  /** How much better that setup is as worked out, each objective turned so that more is better; negative: worse. */
  readonly ahead: Objectives
}

export function comparisonOf({ rules, understood }: Pick<Result, 'rules' | 'understood'>): Comparison {
  const { flightTime, margin } = understood.wanted
  return {
    resolution: rules.resolution,
    wanted: rules.narrowed ? { flight_time_s: flightTime, margin } : null,
  }
}

/**
 * The list against a candidate; null when there is nothing to hold it against. Of several setups the best ranked is told.
 * @param own rank of the candidate where it is of the list itself
 */
export function whyNot(
  front: readonly Listed[],
  candidate: Objectives,
  comparison: Comparison,
  own?: number,
): WhyNot | null {
  let better: Listed | null = null
  let equal: Listed | null = null
  let first: Listed | null = null
  for (const listed of front) {
    if (listed.rank === own) continue
    first = earlier(first, listed)
    const gain = gainOf(listed.raw, candidate, comparison)
    if (gain > 0) better = earlier(better, listed)
    if (gain === 0) equal = earlier(equal, listed)
  }
  if (better !== null) return against(better, candidate, 'beaten')
  if (equal !== null) return against(equal, candidate, 'equalled')
  return first === null ? null : against(first, candidate, 'unbeaten')
}

function earlier(known: Listed | null, next: Listed): Listed {
  return known === null || next.rank < known.rank ? next : known
}

/** By how many steps one is better than the other; −1 when it is worse in anything. Ends early: a long list asks often. */
function gainOf(one: Objectives, other: Objectives, { resolution, wanted }: Comparison): number {
  const speed = step(one.speed_km_h, resolution.speed_km_h) - step(other.speed_km_h, resolution.speed_km_h)
  if (!(speed >= 0)) return -1
  const thrift = step(other.cost, resolution.cost) - step(one.cost, resolution.cost)
  if (!(thrift >= 0)) return -1
  const longest = wanted === null ? Number.POSITIVE_INFINITY : wanted.flight_time_s
  const time =
    step(Math.min(one.flight_time_s, longest), resolution.flight_time_s) -
    step(Math.min(other.flight_time_s, longest), resolution.flight_time_s)
  if (!(time >= 0)) return -1
  const most = wanted === null ? Number.POSITIVE_INFINITY : wanted.margin
  const margin =
    step(Math.min(one.margin, most), resolution.margin) - step(Math.min(other.margin, most), resolution.margin)
  return margin >= 0 ? speed + thrift + time + margin : -1
}

function step(value: number, size: number): number {
  return size > 0 ? Math.round(value / size) : value
}

function against({ rank, raw }: Listed, candidate: Objectives, verdict: WhyNot['verdict']): WhyNot {
  const ahead = {
    speed_km_h: raw.speed_km_h - candidate.speed_km_h,
    flight_time_s: raw.flight_time_s - candidate.flight_time_s,
    cost: candidate.cost - raw.cost,
    margin: raw.margin - candidate.margin,
  }
  return { verdict, rank, ahead }
}
