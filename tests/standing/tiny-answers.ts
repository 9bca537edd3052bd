// What an answer about a tiny catalogue means, without the studies that make a whole answer slow: once found by the search
// as the service does, once by working every combination through and comparing every pair.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SweepRequest } from '@ductwright/contract/request'
import { type Meaning, setupKey } from '@ductwright/contract/standing-meaning'
import { rankSetups } from '@ductwright/models/ranking/rank'
import { evaluateShard as searchShard, workThroughShard } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { type Nearest, searchNearest } from '@ductwright/models/sweep/search-nearest'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { plain } from '@ductwright/pipeline/figures-of'
import { combinationOf } from '@ductwright/pipeline/member-of'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'

const quiet = { progress() {}, cancelled: () => false }
const KMH = 3.6

/** As the service answers: searched in shards, merged. */
export function found(request: SweepRequest, catalogue: Catalogue, shards: number): Meaning {
  const prepared = prepare(request, catalogue)
  const fronts = splitPlan(prepared.plan, shards).map((range) =>
    searchShard(prepared.problem, prepared.plan, range, quiet),
  )
  return meant(prepared, mergeFronts(fronts).members)
}

/** One listed setup as the oracle sees it. */
export interface Listed {
  readonly setup: string
  readonly bought: string
  readonly figures: readonly [speed: number, time: number, cost: number, margin: number]
}

export interface Exhaustive {
  readonly outcome: string
  readonly listed: readonly Listed[]
  readonly nearest: readonly string[]
}

/** By working every combination through in one piece. */
export function exhausted(request: SweepRequest, catalogue: Catalogue): Exhaustive {
  const prepared = prepare(request, catalogue)
  const [whole] = splitPlan(prepared.plan, 1)
  const members = whole === undefined ? [] : workThroughShard(prepared.problem, prepared.plan, whole, quiet).members
  const { outcome, front, nearest } = meant(prepared, members)
  return {
    outcome,
    nearest,
    listed: front.map(({ setup, buy, values }) => ({
      setup,
      bought: buy,
      figures: [values[0] ?? Number.NaN, values[1] ?? Number.NaN, values[2] ?? Number.NaN, values[3] ?? Number.NaN],
    })),
  }
}

/** The oracle's own rule, written from the promise: a reader learns something only if a setup, its place, what is bought for it, or one of its figures by more than the resolution is another. */
export function tellsMore(before: Exhaustive, after: Exhaustive, resolution: readonly number[]): boolean {
  const named = ({ outcome, listed, nearest }: Exhaustive): string =>
    JSON.stringify([outcome, listed.map(({ setup, bought }) => [setup, bought]), nearest])
  if (named(before) !== named(after)) return true
  for (let at = 0; at < after.listed.length; at++) {
    for (let k = 0; k < 4; k++) {
      const step = Math.abs((after.listed[at]?.figures[k] as number) - (before.listed[at]?.figures[k] as number))
      const allowed = resolution[k] as number
      if (allowed === 0 ? step > 0 : step / allowed > 1.000001) return true
    }
  }
  return false
}

type Members = ReturnType<typeof mergeFronts>['members']

function meant(prepared: Prepared, members: Members): Meaning {
  const { request, problem } = prepared
  const { target, wanted, limits, budget, sweep } = request
  const wishes = {
    targetSpeed: target.speed,
    worstSpeed: 0.85 * target.speed,
    wantedTime: wanted.flightTime,
    worstCost: budget ?? 2000,
    leastMargin: limits.margin,
    wantedMargin: wanted.margin,
    weights: request.wishes.weights,
  }
  const ranking = rankSetups(members, wishes)
  const front = ranking.map(({ number, raw }) => {
    const { setup, lines } = combinationOf(prepared, number)
    const time = Math.min(plain(raw.time), sweep.wholeFront ? Number.POSITIVE_INFINITY : wanted.flightTime)
    const margin = Math.min(plain(raw.margin), sweep.wholeFront ? Number.POSITIVE_INFINITY : wanted.margin)
    return {
      setup: setupKey(setup),
      buy: lines
        .filter(({ buy }) => buy > 0)
        .map(({ id, buy }) => `${id} ${buy}`)
        .sort()
        .join(', '),
      values: [plain(raw.speed * KMH), time, Math.round(raw.cost * 100) / 100, margin],
    }
  })
  const reached = ranking.some(({ raw }) => plain(raw.speed * KMH) >= plain(target.speed * KMH))
  const outcome = front.length === 0 ? 'none' : reached ? 'reached' : 'short'
  const misses = outcome === 'reached' ? [] : searchNearest(problem, prepared.plan, outcome === 'short', still).misses
  return { outcome, front, nearest: nearestOf(prepared, misses), resolution: resolutionOf(request) }
}

const still = { settled() {}, cancelled: () => false }

function nearestOf(prepared: Prepared, misses: Nearest['misses']): string[] {
  const target = prepared.request.target.speed
  return [...misses]
    .sort(
      (a, b) =>
        Number(b.speed >= target) - Number(a.speed >= target) ||
        (a.speed >= target ? a.excess - b.excess : b.speed - a.speed) ||
        a.number - b.number,
    )
    .slice(0, 6)
    .map(({ number }) => setupKey(combinationOf(prepared, number).setup))
}

export function resolutionOf({ sweep }: SweepRequest): number[] {
  const { speed, time, cost, margin } = sweep.resolution
  return [plain(speed * KMH), plain(time), plain(cost), plain(margin)]
}
