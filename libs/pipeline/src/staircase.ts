// Speed against money over the whole list: the cheapest way to each higher speed, from what is flown now, and the knee, beyond
// which more speed gets dear. Differences below the resolution of the request count as none, as everywhere in the answer.
import { belowDesign, figure, money } from '@ductwright/contract/figures'
import type { Knee, Member, Result, StaircaseStep } from '@ductwright/contract/result'
import { kneePlace, speedCostFront } from '@ductwright/models/ranking/speed-cost'
import { cents } from './costs.js'
import { plain } from './figures-of.js'

/** Members faster than what flies now that no cheaper one outruns, by rising cost and speed as compared. */
function rising(front: readonly Member[], now: number | null): Member[] {
  const points = front.map(({ compared }) => ({ speed: compared.speed_km_h, cost: compared.cost }))
  const line = speedCostFront(points).map((index) => front[index] as Member)
  return line.filter(({ raw }) => now === null || raw.speed_km_h > now)
}

/** What the stairs start from: what is flown now, which costs nothing, or nothing at all. */
interface Landing {
  readonly speed: number
  readonly cost: number
  readonly words: string
}

/**
 * The stairs. Without a present setup the first step is the cheapest of the list, and its gain counts as 0.
 * @param now speed of the present setup as compared, km/h; null: none
 */
export function staircaseOf(front: readonly Member[], now: number | null, currency: string): StaircaseStep[] {
  const steps = rising(front, now)
  const start: Landing | null = now === null ? null : { speed: now, cost: 0, words: 'what flies now' }
  return steps.map((member, index): StaircaseStep => {
    const below = steps[index - 1]
    const from = below === undefined ? start : landing(below)
    const { speed_km_h, cost, margin } = member.raw
    const more = { speed: from === null ? 0 : speed_km_h - from.speed, cost: cost - (from?.cost ?? 0) }
    return {
      rank: member.rank,
      speed_km_h,
      cost,
      margin,
      more_km_h: plain(more.speed),
      more_cost: cents(more.cost),
      words: stepWords(member, from, more, currency),
    }
  })
}

function landing({ rank, raw }: Member): Landing {
  return { speed: raw.speed_km_h, cost: raw.cost, words: `number ${rank}` }
}

function stepWords(
  { rank, raw }: Member,
  from: Landing | null,
  more: { readonly speed: number; readonly cost: number },
  currency: string,
): string {
  const does = `${figure('speed', raw.speed_km_h)}, ${belowDesign(raw.margin)}`
  if (from === null) return `Number ${rank} is the cheapest of the list: ${does}, for ${paid(raw.cost, currency)}.`
  const gain = `${figure('fineSpeed', more.speed)} more than ${from.words} for ${paid(more.cost, currency)}`
  return `Number ${rank} does ${does}: ${gain}${rateWords(more, currency)}.`
}

function rateWords({ speed, cost }: { readonly speed: number; readonly cost: number }, currency: string): string {
  return cost > 0 && speed > 0 ? `, ${money(cents(cost / speed), currency)} for each km/h` : ''
}

function paid(amount: number, currency: string): string {
  return amount > 0 ? money(cents(amount), currency) : 'nothing'
}

/** The knee of the same steps and what more speed costs on either side of it; null where there is none. */
export function kneeOf(front: readonly Member[], now: number | null, currency: string): Result['knee'] {
  const line = rising(front, now)
  const place = kneePlace(line.map(({ raw }) => ({ speed: raw.speed_km_h, cost: raw.cost })))
  const [first, last] = [line[0], line.at(-1)]
  if (place === null || first === undefined || last === undefined) return null
  const knee = line[place] as Member
  return { rank: knee.rank, why: kneeWords(knee, first, last, currency) }
}

function kneeWords(knee: Member, first: Member, last: Member, currency: string): Knee['why'] {
  const rate = (from: Member, to: Member) => (to.raw.cost - from.raw.cost) / (to.raw.speed_km_h - from.raw.speed_km_h)
  const [before, after] = [rate(first, knee), rate(knee, last)]
  const each = money(cents(after), currency)
  const times = before > 0 ? after / before : Number.POSITIVE_INFINITY
  const up = `from ${figure('speed', first.raw.speed_km_h)} up to it each costs ${money(cents(before), currency)}`
  const dearer = times >= 1.95 && times < 100 ? `, ${timesWords(times)} as much` : ''
  return `Beyond number ${knee.rank}, ${figure('speed', knee.raw.speed_km_h)} for ${paid(knee.raw.cost, currency)}, each further km/h costs ${each}${dearer}; ${up}.`
}

/** "twice", "3 times": whole from two up. */
function timesWords(times: number): string {
  const whole = Math.round(times)
  return whole === 2 ? 'twice' : `${figure('count', whole)} times`
}
