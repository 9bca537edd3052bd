// From shard fronts to the answer: merge, rank, explain. Pure: the same prepared request and fronts give the same bytes.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import type { Member, Relaxation, Result } from '@ductwright/contract/result'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import type { ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { Optima } from '@ductwright/models/sweep/kept-optima'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { MISFITS, type Misfit } from '@ductwright/models/sweep/plan'
import { airFigures, airframeFigures } from './airframe-figures.js'
import { dragWorkOf } from './drag-work.js'
import { extrapolationWarnings } from './extrapolations.js'
import { fanSizeThatWould } from './fan-size.js'
import { plain } from './figures-of.js'
import { headlineOf } from './headline.js'
import { heldBackBy } from './held-back.js'
import { MISFIT_WORDS } from './limit-words.js'
import type { WorkedSetup } from './member-of.js'
import { rankedFront } from './members.js'
import { withMoneyBinds } from './money-binds.js'
import { nearestSetups, shownMisses } from './nearest-setups.js'
import { picksOf } from './picks.js'
import type { Prepared } from './prepare.js'
import { presentNow } from './present-now.js'
import { relaxationsOf } from './relaxations.js'
import { namesOf } from './sentences.js'
import { kneeOf, staircaseOf } from './staircase.js'
import { ASSUMPTIONS, CAUTIONS } from './standing-notes.js'
import { WorkedBefore } from './worked-before.js'

const KMH = 3.6

/** What an answer may be given beside the fronts; it is the same with any. */
export interface AnswerAids {
  readonly cancelled?: () => boolean
  /** Of an earlier run of the same question, and of this one afterwards. */
  readonly notes?: WorkedBefore
  readonly optima?: Optima
}

/**
 * The answer of a whole sweep.
 * @throws SweepCancelled when `cancelled` turns true while the nearest setups are searched
 */
export function answer(
  prepared: Prepared,
  fronts: readonly ShardFront[],
  { cancelled = () => false, notes = WorkedBefore.none(), optima = new Optima() }: AnswerAids = {},
): Result {
  const { request, catalogue, problem } = prepared
  const merged = mergeFronts(fronts)
  const ranked = rankedFront(prepared, merged.members, notes)
  const front = withMoneyBinds(prepared, ranked.front, notes)
  const shown = front.map(({ figures }, i) => ({ parts: (ranked.worked[i] as WorkedSetup).combination.parts, figures }))
  const now = presentNow(prepared)
  const flown = now === null ? null : now.detail.speed * KMH
  const outcome = outcomeOf(front, request.target.speed)
  const found = outcome === 'reached' ? null : nearestSetups(prepared, outcome === 'short', optima, cancelled)
  const nearest = found === null ? [] : shownMisses(prepared, found.misses)
  const members = merged.members.map(({ number }) => number)
  const relaxations = found === null ? [] : relaxationsOf(prepared, found, members, { optima, cancelled })
  const picks = picksOf(prepared, { ...ranked, front }, notes)
  const safest = picks.find(({ pick }) => pick === 'safest')?.rank ?? 1
  const fastest = front.reduce<Member | null>(
    (best, next) => (best && best.raw.speed_km_h >= next.raw.speed_km_h ? best : next),
    null,
  )
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
    ...headlineOf({
      outcome,
      target: plain(request.target.speed * KMH),
      best: front[0] ?? null,
      safest: front[safest - 1] ?? null,
      fastest: fastest?.raw ?? null,
      heldBack: outcome === 'reached' ? null : heldBackBy(prepared, fastest, relaxations),
      airframe: prepared.chosen.name,
      nearest: nearest[0] ?? null,
      relaxations,
      misfit: misfitOf(prepared),
      fanSize: outcome === 'reached' || relaxations.some(isOwners) ? null : fanSizeThatWould(prepared, cancelled),
      currency: catalogue.currency,
    }),
    now: now?.shown ?? null,
    rules: rulesOf(prepared),
    counts: {
      raw: prepared.plan.raw,
      compatible: prepared.plan.compatible,
      misfits: misfitCounts(prepared),
      front: front.length,
      purchases: new Set(front.map(({ purchase }) => purchase)).size,
    },
    front,
    picks,
    knee: kneeOf(front, flown, catalogue.currency),
    staircase: staircaseOf(front, flown, catalogue.currency),
    nearest,
    relaxations,
    drag_work: dragWorkOf(prepared, now?.detail ?? null, ranked.worked[0]?.detail ?? null),
    names: namesOf(prepared.known, idsOf(prepared, front, [...nearest, ...relaxations])),
    assumptions: ASSUMPTIONS,
    cautions: [...CAUTIONS, ...extrapolationWarnings(shown, problem.circumstances.soundSpeed)],
  }
  return { ...result, answer_hash: answerHash(result) }
}

/** Hash of what the answer means: outcome, setups in order, compared values, what to buy; not what a part is called. */
export function answerHash(result: Omit<Result, 'answer_hash'>): string {
  const meaning = {
    outcome: result.outcome,
    front: result.front.map(({ setup, compared, shopping }) => ({
      setup,
      compared,
      buy: shopping.map(({ id, buy }) => ({ id, buy })),
    })),
    nearest: result.nearest.map(({ setup }) => setup),
  }
  return sha256Hex(canonicalJson(meaning))
}

/** What keeps parts apart most often, where no combination fits together. */
function misfitOf({ plan }: Prepared): string | null {
  if (plan.compatible > 0) return null
  const most = plan.misfits.indexOf(Math.max(...plan.misfits))
  return MISFIT_WORDS[MISFITS[most] as Misfit]
}

/** Whether a relaxation is of a limit that the owner has set. */
function isOwners({ relax }: Relaxation): boolean {
  return relax !== 'drag-area' && relax !== 'target'
}

function outcomeOf(front: readonly Member[], target: number): Result['outcome'] {
  if (front.length === 0) return 'none'
  return front.some(({ raw }) => raw.speed_km_h >= plain(target * KMH)) ? 'reached' : 'short'
}

function misfitCounts({ plan }: Prepared): Result['counts']['misfits'] {
  const all = MISFITS.map((rule, i) => ({ rule, words: MISFIT_WORDS[rule], count: plan.misfits[i] ?? 0 }))
  return all.filter(({ count }) => count > 0)
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

type Named = Pick<Member, 'setup' | 'shopping'>

function idsOf(prepared: Prepared, front: readonly Named[], others: readonly Named[]): string[] {
  const setups = [...front, ...others].map(({ setup }) => setup)
  const { present } = prepared.chosen
  if (present !== null) setups.push(present.setup)
  const lines = [...front, ...others].flatMap(({ shopping }) => shopping.map(({ id }) => id))
  const { owned, required, excluded } = prepared.request
  const written = [...owned.map(({ id }) => id), ...required, ...excluded]
  return [...setups.flatMap(({ fan, motor, esc, pack }) => [fan, motor, esc, pack]), ...lines, ...written]
}
