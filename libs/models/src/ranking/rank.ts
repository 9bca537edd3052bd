// The order in which setups are shown: those that reach the target with the wanted margin first, then by desirability, or by
// a value of the owner's own in its place, ties by lower cost, then by combination number. And the picks: the first of them,
// best for the money, safest, fastest.
import type { Objectives } from '../sweep/objectives.js'
import { desirability, overallDesirability } from './desirability.js'

/** Ends of each desirability and what counts as reaching; all from the request. */
export interface Wishes {
  readonly targetSpeed: number
  /** Speed at which a setup is worth nothing, m/s. */
  readonly worstSpeed: number
  readonly wantedTime: number
  /** Cost at which a setup is worth nothing. */
  readonly worstCost: number
  readonly leastMargin: number
  readonly wantedMargin: number
  /** How much each counts; only the proportion matters. At least one above 0. */
  readonly weights: Readonly<Record<keyof Objectives, number>>
}

export interface Scored {
  readonly number: number
  readonly raw: Objectives
  /** Reaches the target speed with the wanted margin. */
  readonly reaches: boolean
  readonly desirability: number
  readonly parts: { readonly speed: number; readonly time: number; readonly cost: number; readonly margin: number }
  /** The owner's own value; null when there is none, or none that is finite. */
  readonly value: number | null
}

interface Ranked {
  readonly number: number
  readonly raw: Objectives
}

/**
 * Scores and orders members; the input order does not matter.
 * @param value the owner's own, the higher the better; ranks in the place of desirability, and where it is not finite last
 */
export function rankSetups(
  members: readonly Ranked[],
  wishes: Wishes,
  value: ((number: number) => number) | null = null,
): Scored[] {
  const scored = members.map((member) => score(member, wishes, value === null ? null : value(member.number)))
  return scored.sort(value === null ? before : beforeByValue)
}

function score(member: Ranked, wishes: Wishes, value: number | null): Scored {
  const { raw } = member
  const { weights } = wishes
  const parts = {
    speed: desirability(raw.speed, wishes.worstSpeed, wishes.targetSpeed),
    time: desirability(raw.time, 0, wishes.wantedTime),
    cost: desirability(raw.cost, wishes.worstCost, 0),
    margin: desirability(raw.margin, wishes.leastMargin, wishes.wantedMargin),
  }
  return {
    number: member.number,
    raw,
    reaches: raw.speed >= wishes.targetSpeed && raw.margin >= wishes.wantedMargin,
    desirability: overallDesirability(
      [parts.speed, parts.time, parts.cost, parts.margin],
      [weights.speed, weights.time, weights.cost, weights.margin],
    ),
    parts,
    value: value !== null && Number.isFinite(value) ? value : null,
  }
}

function before(a: Scored, b: Scored): number {
  return (
    Number(b.reaches) - Number(a.reaches) ||
    b.desirability - a.desirability ||
    a.raw.cost - b.raw.cost ||
    a.number - b.number
  )
}

function beforeByValue(a: Scored, b: Scored): number {
  return (
    Number(a.value === null) - Number(b.value === null) ||
    Number(b.reaches) - Number(a.reaches) ||
    (b.value ?? 0) - (a.value ?? 0) ||
    a.raw.cost - b.raw.cost ||
    a.number - b.number
  )
}

export type PickName = 'best-all-round' | 'best-for-the-money' | 'safest' | 'fastest'

/**
 * Index into the ranking of each pick, its first before the others; empty for an empty ranking. When some setup reaches the target, the picks for
 * money and safety come from those that do; else from the whole ranking.
 */
export function namedPicks(
  ranking: readonly Scored[],
  targetSpeed: number,
): { readonly pick: PickName; readonly index: number }[] {
  if (ranking.length === 0) return []
  const indices = ranking.map((_, index) => index)
  const fast = indices.filter((i) => (ranking[i] as Scored).raw.speed >= targetSpeed)
  const pool = fast.length > 0 ? fast : indices
  const by = (of: readonly number[], order: (a: Objectives, b: Objectives) => number): number =>
    of.reduce((best, i) => (order((ranking[i] as Scored).raw, (ranking[best] as Scored).raw) < 0 ? i : best))
  const money =
    fast.length > 0
      ? by(pool, (a, b) => a.cost - b.cost || b.speed - a.speed)
      : by(pool, (a, b) => (a.cost + 1) / a.speed ** 3 - (b.cost + 1) / b.speed ** 3)
  return [
    { pick: 'best-all-round', index: 0 },
    { pick: 'best-for-the-money', index: money },
    { pick: 'safest', index: by(pool, (a, b) => b.margin - a.margin || a.cost - b.cost) },
    { pick: 'fastest', index: by(indices, (a, b) => b.speed - a.speed || a.cost - b.cost) },
  ]
}
