// Which purchases of a long list a mail shows: the best, the named picks, the extremes of each objective and the knee
// first, then always the one that differs most from those chosen already, so that few lines stand for the whole list.
import type { Member, Objectives, Result } from '@ductwright/contract/result'

export const mostPurchases = 12

/** A purchase with all the settings that are listed, the best-ranked first. */
export interface Purchase {
  readonly best: Member
  readonly settings: readonly Member[]
}

/** Every purchase of the front, in the order of its best-ranked setting. */
export function purchasesOf(front: readonly Member[]): Purchase[] {
  const ranked = [...front].sort((a, b) => a.rank - b.rank)
  const grouped = new Map<number, { best: Member; settings: Member[] }>()
  for (const member of ranked) {
    const known = grouped.get(member.purchase)
    if (known === undefined) grouped.set(member.purchase, { best: member, settings: [member] })
    else known.settings.push(member)
  }
  return [...grouped.values()]
}

/** At most `most` purchases, in the order of rank. */
export function shownPurchases(result: Result, most = mostPurchases): Purchase[] {
  const all = purchasesOf(result.front)
  const named = new Set(namedRanks(result))
  const chosen = all.filter(({ settings }) => settings.some(({ rank }) => named.has(rank))).slice(0, most)
  return widened(chosen, all, most).sort((a, b) => a.best.rank - b.best.rank)
}

/** Ranks that have to be seen: the first, the picks, the knee, and who is best in one objective. */
function namedRanks({ front, picks, knee }: Result): number[] {
  const ranked = [...front].sort((a, b) => a.rank - b.rank)
  const [first] = ranked
  if (first === undefined) return []
  const best = (better: (a: Objectives, b: Objectives) => boolean) =>
    ranked.reduce((held, next) => (better(next.compared, held.compared) ? next : held), first).rank
  return [
    first.rank,
    ...picks.map(({ rank }) => rank),
    ...(knee === null ? [] : [knee.rank]),
    best((a, b) => a.speed_km_h > b.speed_km_h),
    best((a, b) => a.flight_time_s > b.flight_time_s),
    best((a, b) => a.cost < b.cost),
    best((a, b) => a.margin > b.margin),
  ]
}

/** Greedy: the purchase farthest from the nearest one chosen comes next, of equals the better ranked. */
function widened(chosen: readonly Purchase[], all: readonly Purchase[], most: number): Purchase[] {
  const distance = distanceOver(all)
  const kept = [...chosen]
  const left = all.filter((one) => !kept.includes(one)).map((one) => ({ one, gap: nearest(one, kept, distance) }))
  while (kept.length < most && left.length > 0) {
    const at = left.reduce((held, { gap }, index) => (gap > (left[held]?.gap ?? 0) ? index : held), 0)
    const [next] = left.splice(at, 1)
    if (next === undefined) break
    kept.push(next.one)
    for (const other of left) other.gap = Math.min(other.gap, distance(other.one, next.one))
  }
  return kept
}

type Distance = (a: Purchase, b: Purchase) => number

function nearest(one: Purchase, kept: readonly Purchase[], distance: Distance): number {
  return Math.min(...kept.map((other) => distance(one, other)))
}

const objectives = ['speed_km_h', 'flight_time_s', 'cost', 'margin'] as const

/** Squared distance of what was compared, each objective as a share of its range over the list. */
function distanceOver(all: readonly Purchase[]): Distance {
  const spans = objectives.map((key) => {
    const values = all.map(({ best }) => best.compared[key])
    const span = Math.max(...values) - Math.min(...values)
    return { key, span: span > 0 ? span : 1 }
  })
  return (a, b) =>
    spans.reduce((sum, { key, span }) => sum + ((a.best.compared[key] - b.best.compared[key]) / span) ** 2, 0)
}
