// What stands in the way when the target is not reached: the setups that break one limit only, and for the searches that
// follow, where each limit is broken. After a change of catalogue only what changed is gone through, as long as what was
// kept of an earlier run settles the rest.
import type { NearMiss as ShownMiss } from '@ductwright/contract/result'
import { LIMITS, type Limit } from '@ductwright/models/evaluation/limits'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { ChangedCombinations } from '@ductwright/models/sweep/changed-combinations'
import type { Optima } from '@ductwright/models/sweep/kept-optima'
import { isNearer, type NearMiss } from '@ductwright/models/sweep/near-misses'
import { type Nearest, searchNearest } from '@ductwright/models/sweep/search-nearest'
import { plain } from './figures-of.js'
import { LIMIT_WORDS } from './limit-words.js'
import { combinationOf } from './member-of.js'
import { objectivesOf } from './objectives-of.js'
import { once } from './once.js'
import type { Prepared } from './prepare.js'
import { nearWhy } from './sentences.js'

const KMH = 3.6

export interface NearestSetups {
  readonly misses: readonly NearMiss[]
  /** What the search of the whole sweep, or of what changed, met; searched when first asked for. */
  inWhole(): Nearest
  inChanged(changed: ChangedCombinations): Nearest
}

/**
 * @param reaching only setups that reach the target are of use
 * @throws SweepCancelled when `cancelled` turns true
 */
export function nearestSetups(
  { problem, plan }: Prepared,
  reaching: boolean,
  optima: Optima,
  cancelled: () => boolean,
): NearestSetups {
  const hooks = { settled() {}, cancelled }
  const { targetSpeed } = problem.comparison
  const inWhole = once(() => searchNearest(problem, plan, reaching, hooks))
  let met: Nearest | null = null
  const inChanged = (changed: ChangedCombinations, known: readonly NearMiss[] = []): Nearest => {
    met ??= searchNearest(problem, changed.plan, reaching, hooks, { boxes: changed.boxes, known })
    return met
  }
  const best = optima.best<NearMiss>(`nearest${reaching ? ' that reach the target' : ''}`, {
    isBefore: (a, b) => isNearer(a, b, targetSpeed),
    whole: () => byLimit(inWhole().misses),
    ofChanged: (changed, known) =>
      byLimit(
        inChanged(
          changed,
          known.filter((miss) => miss !== null),
        ).misses,
      ),
  })
  return { misses: best.filter((miss) => miss !== null), inWhole, inChanged }
}

function byLimit(misses: readonly NearMiss[]): (NearMiss | null)[] {
  return LIMITS.map((_, limit) => misses.find((miss) => miss.limit === limit) ?? null)
}

/** Setups that break one limit only, as the answer shows them; once something is listed, a slower one is no help. */
export function shownMisses(prepared: Prepared, misses: readonly NearMiss[]): ShownMiss[] {
  const { circumstances } = prepared.problem
  const target = prepared.request.target.speed
  const order = [...misses].sort(
    (a, b) =>
      Number(b.speed >= target) - Number(a.speed >= target) ||
      (a.speed >= target ? a.excess - b.excess : b.speed - a.speed) ||
      a.number - b.number,
  )
  return order.slice(0, 6).flatMap((miss): ShownMiss[] => {
    const combination = combinationOf(prepared, miss.number)
    const detail = setupDetail(circumstances, combination.parts, combination.duty)
    if ('refused' in detail) return []
    const raw = objectivesOf({ speed: detail.speed, time: detail.flightTime, cost: detail.cost, margin: detail.margin })
    const limit = LIMITS[miss.limit] as Limit
    const broken = detail.limits
      .filter(({ used, allowed }) => used > allowed)
      .map(({ limit, used, allowed }) => ({ limit, words: LIMIT_WORDS[limit], used: plain(used / allowed) }))
    const why = nearWhy({
      limit,
      words: LIMIT_WORDS[limit],
      over: miss.excess,
      raw,
      target: prepared.request.target.speed * KMH,
      budget: prepared.request.budget,
      currency: prepared.catalogue.currency,
    })
    return [{ setup: combination.setup, why, raw, broken, shopping: combination.lines }]
  })
}
