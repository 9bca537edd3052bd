// The setups of the front as the answer lists them: ranked by the wishes of the request, grouped into purchases, each with
// its score, its reason, what binds it, and every figure.
import type { Member, Objectives } from '@ductwright/contract/result'
import { rankSetups, type Scored, type Wishes } from '@ductwright/models/ranking/rank'
import type { ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { bindsOf } from './binds.js'
import { plain } from './figures-of.js'
import { type WorkedSetup, workedSetup } from './member-of.js'
import { comparedOf, objectivesOf } from './objectives-of.js'
import type { Prepared } from './prepare.js'
import { valueBy } from './ranking-values.js'
import { whyOf } from './sentences.js'
import { WorkedBefore } from './worked-before.js'

const KMH = 3.6
/** Budget that the cost wish is measured by when the request sets none, in the catalogue's currency. Assumed. */
const USUAL_BUDGET = 2000

/** Three views of the same setups, each in the order of rank. */
export interface RankedFront {
  readonly ranking: readonly Scored[]
  readonly worked: readonly WorkedSetup[]
  readonly front: readonly Member[]
}

export function rankedFront(
  prepared: Prepared,
  members: ShardFront['members'],
  notes = WorkedBefore.none(),
): RankedFront {
  const worked = new Map(members.map(({ number }) => [number, workedSetup(prepared, number, notes)]))
  const ranking = rankSetups(members, wishesOf(prepared), valuesOf(prepared, members, worked))
  const cells = new Map(members.map((member) => [member.number, member.cells]))
  const inOrder = ranking.map(({ number }) => worked.get(number) as WorkedSetup)
  return { ranking, worked: inOrder, front: membersOf(prepared, ranking, inOrder, cells) }
}

function wishesOf(prepared: Prepared): Wishes {
  const { target, wanted, budget, limits, wishes } = prepared.request
  return {
    targetSpeed: target.speed,
    worstSpeed: 0.85 * target.speed,
    wantedTime: wanted.flightTime,
    worstCost: budget ?? USUAL_BUDGET,
    leastMargin: limits.margin,
    wantedMargin: wanted.margin,
    weights: wishes.weights,
  }
}

/** The owner's own value of each setup; null when the request has no expression. */
function valuesOf(
  prepared: Prepared,
  members: ShardFront['members'],
  worked: ReadonlyMap<number, WorkedSetup>,
): ((number: number) => number) | null {
  const { expression } = prepared.request.wishes
  if (expression === null) return null
  const value = valueBy(expression)
  const raws = new Map(members.map(({ number, raw }) => [number, objectivesOf(raw)]))
  return (number) => {
    const { combination, figures } = worked.get(number) as WorkedSetup
    return value({ raw: raws.get(number) as Objectives, replacementCost: combination.replacementCost, figures })
  }
}

function membersOf(
  prepared: Prepared,
  ranking: readonly Scored[],
  worked: readonly WorkedSetup[],
  cells: ReadonlyMap<number, readonly number[]>,
): Member[] {
  const purchases = new Map<string, number>()
  const first = ranking[0] === undefined ? null : objectivesOf(ranking[0].raw)
  return ranking.map((scored, index) => {
    const { combination, detail, ceiling, figures } = worked[index] as WorkedSetup
    const { setup, purchaseKey } = combination
    if (!purchases.has(purchaseKey)) purchases.set(purchaseKey, purchases.size + 1)
    const raw = objectivesOf(scored.raw)
    return {
      rank: index + 1,
      purchase: purchases.get(purchaseKey) as number,
      setup,
      compared: comparedOf(cells.get(scored.number) as readonly number[]),
      raw,
      replacement_cost: combination.replacementCost,
      shopping: combination.lines,
      score: {
        reaches: scored.reaches,
        desirability: plain(scored.desirability),
        speed: plain(scored.parts.speed),
        time: plain(scored.parts.time),
        cost: plain(scored.parts.cost),
        margin: plain(scored.parts.margin),
        expression: scored.value === null ? null : plain(scored.value),
      },
      why: reasonOf(prepared, scored, raw, first ?? raw, index + 1),
      binds: bindsOf(detail, ceiling),
      figures,
    }
  })
}

function reasonOf(prepared: Prepared, scored: Scored, raw: Objectives, first: Objectives, rank: number): string {
  const { target, wanted, wishes } = prepared.request
  const own = wishes.expression !== null
  const why = whyOf({
    raw,
    first,
    rank,
    target: target.speed * KMH,
    wantedMargin: wanted.margin,
    currency: prepared.catalogue.currency,
    best: own ? 'Best by your own expression' : 'Best all round',
  })
  return own && scored.value === null ? `Your expression has no finite value here, so it stands last. ${why}` : why
}
