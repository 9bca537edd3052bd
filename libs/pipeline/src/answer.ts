// From shard fronts to the answer: merge, rank, explain. Pure: the same prepared request and fronts give the same bytes.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import type { Member, NearMiss, Objectives, Result } from '@ductwright/contract/result'
import { LIMITS, type Limit } from '@ductwright/models/evaluation/limits'
import { highestDuty, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { rankSetups, type Scored } from '@ductwright/models/ranking/rank'
import type { ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { MISFITS } from '@ductwright/models/sweep/plan'
import { searchNearest } from '@ductwright/models/sweep/search-nearest'
import { airFigures, airframeFigures } from './airframe-figures.js'
import { bindingWords } from './binding.js'
import { extrapolationWarnings } from './extrapolations.js'
import { figuresOf, plain } from './figures-of.js'
import { LIMIT_WORDS, MISFIT_WORDS } from './limit-words.js'
import { type Combination, combinationOf, figuresAt } from './member-of.js'
import { picksOf } from './picks.js'
import type { Prepared } from './prepare.js'
import { headlineOf, namesOf, nearWhy, nowWords, whyOf } from './sentences.js'
import { ASSUMPTIONS, CAUTIONS } from './standing-notes.js'

const KMH = 3.6
/** Budget that the cost wish is measured by when the request sets none, in the catalogue's currency. Assumed. */
const USUAL_BUDGET = 2000

/**
 * The answer of a whole sweep.
 * @throws SweepCancelled when `cancelled` turns true while the nearest setups are searched
 */
export function answer(
  prepared: Prepared,
  fronts: readonly ShardFront[],
  cancelled: () => boolean = () => false,
): Result {
  const { request, catalogue, problem } = prepared
  const merged = mergeFronts(fronts)
  const cells = new Map(merged.members.map((member) => [member.number, member.cells]))
  const ranking = rankSetups(merged.members, wishesOf(prepared))
  const combinations = ranking.map(({ number }) => combinationOf(prepared, number))
  const front = membersOf(prepared, ranking, combinations, cells)
  const shown = front.map(({ figures }, i) => ({ parts: (combinations[i] as Combination).parts, figures }))
  const outcome = outcomeOf(front, request.target.speed)
  const nearest = outcome === 'reached' ? [] : nearestOf(prepared, outcome, cancelled)
  const removed = removedCounts(prepared, merged)
  const fastest = front.reduce<Member | null>(
    (best, next) => (best && best.raw.speed_km_h >= next.raw.speed_km_h ? best : next),
    null,
  )
  // Most of any market is too slow; what else stands in the way says more.
  const limiting = removed.filter(({ rule }) => rule !== 'speed-floor' && (LIMITS as readonly string[]).includes(rule))
  const most = limiting.reduce<(typeof limiting)[number] | null>((a, b) => (a && a.count >= b.count ? a : b), null)
  const result: Omit<Result, 'answer_hash'> = {
    format: 'ductwright-result/1',
    model_version: MODEL_VERSION,
    catalogue: {
      name: catalogue.name,
      version: catalogue.version,
      currency: catalogue.currency,
      dated: catalogue.dated,
    },
    request_hash: sha256Hex(canonicalJson(request)),
    understood: request,
    airframe: airframeFigures(prepared.chosen, problem.circumstances),
    air: airFigures(request.field, problem.circumstances),
    outcome,
    headline: headlineOf({
      outcome,
      target: request.target.speed * KMH,
      floor: problem.circumstances.limits.speedFloor * KMH,
      best: front[0] ?? null,
      fastest: fastest?.raw ?? null,
      airframe: prepared.chosen.name,
      removedMost: most,
      currency: catalogue.currency,
    }),
    now: nowOf(prepared),
    rules: rulesOf(prepared),
    counts: {
      raw: prepared.plan.raw,
      compatible: prepared.plan.compatible,
      removed,
      dominated: merged.dominated,
      feasible: merged.feasible,
      front: front.length,
      purchases: new Set(front.map(({ purchase }) => purchase)).size,
    },
    front,
    picks: picksOf(prepared, ranking, combinations),
    nearest,
    names: namesOf(prepared.known, idsOf(prepared, front, nearest)),
    assumptions: ASSUMPTIONS,
    cautions: [...CAUTIONS, ...extrapolationWarnings(shown, problem.circumstances.soundSpeed)],
  }
  return { ...result, answer_hash: answerHash(result) }
}

/** Hash of what the answer means: outcome, setups in order, compared values. */
export function answerHash(result: Omit<Result, 'answer_hash'>): string {
  const meaning = {
    outcome: result.outcome,
    front: result.front.map(({ setup, compared, shopping }) => ({ setup, compared, shopping })),
    nearest: result.nearest.map(({ setup }) => setup),
  }
  return sha256Hex(canonicalJson(meaning))
}

function wishesOf(prepared: Prepared) {
  const { target, wanted, budget, limits } = prepared.request
  return {
    targetSpeed: target.speed,
    worstSpeed: 0.85 * target.speed,
    wantedTime: wanted.flightTime,
    worstCost: budget ?? USUAL_BUDGET,
    leastMargin: limits.margin,
    wantedMargin: wanted.margin,
  }
}

function membersOf(
  prepared: Prepared,
  ranking: readonly Scored[],
  combinations: readonly Combination[],
  cells: ReadonlyMap<number, readonly number[]>,
): Member[] {
  const { target, wanted } = prepared.request
  const purchases = new Map<string, number>()
  const first = ranking[0] === undefined ? null : objectivesOf(ranking[0].raw)
  return ranking.map((scored, index) => {
    const combination = combinations[index] as Combination
    const { setup, parts, duty, purchaseKey } = combination
    if (!purchases.has(purchaseKey)) purchases.set(purchaseKey, purchases.size + 1)
    const raw = objectivesOf(scored.raw)
    const currency = prepared.catalogue.currency
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
      },
      why: whyOf(raw, first ?? raw, index + 1, target.speed * KMH, wanted.margin, currency),
      figures: figuresAt(prepared, parts, setup.nozzle_ratio, duty),
    }
  })
}

export function objectivesOf(raw: {
  readonly speed: number
  readonly time: number
  readonly cost: number
  readonly margin: number
}): Objectives {
  return {
    speed_km_h: plain(raw.speed * KMH),
    flight_time_s: plain(raw.time),
    cost: Math.round(raw.cost * 100) / 100,
    margin: plain(raw.margin),
  }
}

export function comparedOf(cells: readonly number[]): Objectives {
  const [speed = 0, time = 0, cost = 0, margin = 0] = cells
  return {
    speed_km_h: plain(-speed * KMH) + 0,
    flight_time_s: plain(-time) + 0,
    cost: plain(cost),
    margin: plain(-margin) + 0,
  }
}

function outcomeOf(front: readonly Member[], target: number): Result['outcome'] {
  if (front.length === 0) return 'none'
  return front.some(({ raw }) => raw.speed_km_h >= plain(target * KMH)) ? 'reached' : 'short'
}

function removedCounts(prepared: Prepared, merged: ShardFront): Result['counts']['removed'] {
  const misfits = MISFITS.map((rule, i) => ({ rule, words: MISFIT_WORDS[rule], count: prepared.plan.misfits[i] ?? 0 }))
  const limits = LIMITS.map((rule, i) => ({ rule, words: LIMIT_WORDS[rule], count: merged.removed[i] ?? 0 }))
  return [...misfits, ...limits].filter(({ count }) => count > 0)
}

/** Setups that break one limit only; once something is listed, a slower one is no help. */
function nearestOf(prepared: Prepared, outcome: Result['outcome'], cancelled: () => boolean): NearMiss[] {
  const { problem, plan } = prepared
  const { circumstances } = problem
  const target = prepared.request.target.speed
  const misses = searchNearest(problem, plan, outcome === 'short', { settled() {}, cancelled })
  const order = [...misses].sort(
    (a, b) =>
      Number(b.speed >= target) - Number(a.speed >= target) ||
      (a.speed >= target ? a.excess - b.excess : b.speed - a.speed) ||
      a.number - b.number,
  )
  return order.slice(0, 6).flatMap((miss): NearMiss[] => {
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

function nowOf(prepared: Prepared): Result['now'] {
  const { present, untreated } = prepared.chosen
  if (present === null) return null
  const { setup, parts, estimate, speed } = present
  const { circumstances } = prepared.problem
  // What is flown already is held to its ratings, not to the wishes for what comes next.
  const limits = { ...circumstances.limits, speedFloor: 0, budget: Number.POSITIVE_INFINITY }
  const today = { ...circumstances, airframe: untreated, limits }
  const detail = setupDetail(today, parts, setup.duty)
  if ('refused' in detail) return null
  const figures = figuresOf(
    detail,
    parts.node.duct.fan,
    setup.nozzle_ratio,
    bindingWords(detail, highestDuty(today, parts, setup.duty)),
  )
  const drag = { area: estimate.dragArea, low: estimate.low, high: estimate.high }
  return {
    setup,
    measured_km_h: plain(speed * KMH),
    drag_area_m2: plain(drag.area),
    drag_area_low_m2: plain(drag.low),
    drag_area_high_m2: plain(drag.high),
    figures,
    words: nowWords(speed * KMH, drag, figures),
  }
}

function rulesOf(prepared: Prepared): Result['rules'] {
  const { request, catalogue } = prepared
  const { resolution, wholeFront } = request.sweep
  const floor = prepared.problem.circumstances.limits.speedFloor * KMH
  const rounded = {
    speed_km_h: plain(resolution.speed * KMH),
    flight_time_s: plain(resolution.time),
    cost: plain(resolution.cost),
    margin: plain(resolution.margin),
  }
  const words = [
    `Setups are compared in steps of ${rounded.speed_km_h} km/h, ${rounded.flight_time_s} s, ${rounded.cost} ${catalogue.currency} and ${plain(100 * rounded.margin)} % of the design load, counted from the target and from what is wanted; 0 means no steps.`,
    'Of setups that are equal after rounding, the cheaper one stays, then the faster, the longer flying, the one with more reserve, then the first by part ids.',
    wholeFront
      ? 'Every setup that no other beats in everything is shown: speed has no floor, flight time and reserve count without end.'
      : `Speeds under ${Math.round(floor)} km/h (85 % of the target) are left out; flight time and reserve count up to what is wanted, the full figures stand beside.`,
  ]
  return { resolution: rounded, narrowed: !wholeFront, speed_floor_km_h: plain(floor), words }
}

function idsOf(prepared: Prepared, front: readonly Member[], nearest: readonly NearMiss[]): string[] {
  const setups = [...front, ...nearest].map(({ setup }) => setup)
  const { present } = prepared.chosen
  if (present !== null) setups.push(present.setup)
  const lines = [...front, ...nearest].flatMap(({ shopping }) => shopping.map(({ id }) => id))
  const { owned, required, excluded } = prepared.request
  const written = [...owned.map(({ id }) => id), ...required, ...excluded]
  return [...setups.flatMap(({ fan, motor, esc, pack }) => [fan, motor, esc, pack]), ...lines, ...written]
}
