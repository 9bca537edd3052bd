// Where the next euro or hour should go, for one pick: clean-up work and the other purchases of the list compete by what a
// kilometre per hour costs.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import { figure, money } from '@ductwright/contract/figures'
import type { Advice, Member, NextStep } from '@ductwright/contract/result'
import { DUTYLESS_LIMITS } from '@ductwright/models/evaluation/limits'
import { cents } from './costs.js'
import { plain } from './figures-of.js'
import { LIMIT_WORDS } from './limit-words.js'
import type { WorkedSetup } from './member-of.js'
import { moreMargin } from './more-margin.js'
import type { Prepared } from './prepare.js'
import { differences, listed, lower } from './sentences.js'
import { tenMore } from './ten-more.js'
import { type WorkGains, workCost } from './work-gain.js'
import type { WorkedBefore } from './worked-before.js'

const KMH = 3.6
/** Gains under this are not worth naming, km/h. */
const WORTH_NAMING = 0.5
/** Other purchases that are named, those with the best value. */
const MOST_PURCHASES = 3

/** What advice on a pick is worked out from. */
export interface Advised {
  readonly pick: Member
  readonly worked: WorkedSetup
  readonly front: readonly Member[]
  /** Work not done yet, and what it would bring. */
  readonly open: readonly ListedTreatment[]
  readonly gains: WorkGains
}

export function adviceOf(prepared: Prepared, advised: Advised, notes: WorkedBefore): Advice {
  const { pick, worked, front, open, gains } = advised
  const { currency } = prepared.catalogue
  const work = open.flatMap((treatment, i) => treatmentStep(treatment, gains, i, currency))
  const purchases = purchaseSteps(prepared, pick, front)
  return {
    steps: [...work, ...purchases].sort(byValue),
    ten_km_h_more: tenMore({ pick, front, open, gains, currency }),
    more_margin: moreMargin(prepared, pick, worked, front, notes),
  }
}

/** What costs no money first, then the most speed for the money, then for the work. */
function byValue(a: NextStep, b: NextStep): number {
  const rate = (of: number | null) => of ?? Number.POSITIVE_INFINITY
  const [money, hours] = [rate(b.km_h_per_100) - rate(a.km_h_per_100), rate(b.km_h_per_hour) - rate(a.km_h_per_hour)]
  return (Number.isNaN(money) ? 0 : money) || (Number.isNaN(hours) ? 0 : hours) || b.gain_km_h - a.gain_km_h
}

function treatmentStep(
  treatment: ListedTreatment,
  { alone, broken }: WorkGains,
  place: number,
  currency: string,
): NextStep[] {
  const gained = (alone[place] as WorkGains['alone'][number]).gain * KMH
  if (gained < WORTH_NAMING) return []
  const { price, hours } = workCost([treatment])
  const cost = `${price > 0 ? `${money(price, currency)} and ` : ''}${figure('hours', hours)} of work`
  const then = brokenThen(broken[place] as WorkGains['broken'][number])
  return [
    {
      kind: 'treatment',
      words: `${treatment.name}: ${figure('fineSpeed', gained)} for ${cost}${then}.`,
      gain_km_h: plain(gained),
      price,
      hours,
      rank: null,
      km_h_per_100: price > 0 ? plain((100 * gained) / price) : null,
      km_h_per_hour: hours > 0 ? plain(gained / hours) : null,
    },
  ]
}

function brokenThen(broken: WorkGains['broken'][number]): string {
  if (typeof broken === 'string') return `; but then the limit on ${LIMIT_WORDS[broken]} breaks`
  if (broken.length === 0) return ''
  const words = listed(broken.map((limit) => LIMIT_WORDS[limit]))
  return broken.some((limit) => DUTYLESS_LIMITS.includes(limit))
    ? `; but then the limit on ${words} breaks`
    : `; but lower the throttle with it, or the limit on ${words} breaks`
}

/** Each faster purchase by its fastest setup. */
function purchaseSteps(prepared: Prepared, pick: Member, front: readonly Member[]): NextStep[] {
  const { currency } = prepared.catalogue
  const fastest = new Map<number, Member>()
  for (const member of front) {
    const best = fastest.get(member.purchase)
    if (best === undefined || member.raw.speed_km_h > best.raw.speed_km_h) fastest.set(member.purchase, member)
  }
  fastest.delete(pick.purchase)
  const steps = [...fastest.values()].flatMap((member): NextStep[] => {
    const gain = member.raw.speed_km_h - pick.raw.speed_km_h
    if (gain < WORTH_NAMING) return []
    const price = cents(member.raw.cost - pick.raw.cost)
    return [
      {
        kind: 'purchase',
        words: purchaseWords(pick, member, currency),
        gain_km_h: plain(gain),
        price,
        hours: 0,
        rank: member.rank,
        km_h_per_100: price > 0 ? plain((100 * gain) / price) : null,
        km_h_per_hour: null,
      },
    ]
  })
  return steps.sort(byValue).slice(0, MOST_PURCHASES)
}

function purchaseWords(pick: Member, { rank, raw }: Member, currency: string): string {
  const gains = differences(raw, pick.raw, currency, true)
  const losses = differences(raw, pick.raw, currency, false)
  const but = losses.length > 0 ? `, but ${lower(listed(losses))}` : ''
  return `Number ${rank} instead: ${listed(gains)}${but}.`
}
