// The cheapest way to 10 km/h more than a pick: another setup of the list, or clean-up work in any combination.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import { figure, money } from '@ductwright/contract/figures'
import type { Advice, Member } from '@ductwright/contract/result'
import { cents } from './costs.js'
import { differences, listed, lower } from './sentences.js'
import { chosenOf, type WorkGains, workCost } from './work-gain.js'

const MORE = 10
const KMH = 3.6

export interface TenMoreInput {
  readonly pick: Member
  readonly front: readonly Member[]
  /** Work not done yet, and what it would bring. */
  readonly open: readonly ListedTreatment[]
  readonly gains: WorkGains
  readonly currency: string
}

interface Work {
  readonly treatments: readonly ListedTreatment[]
  readonly gain: number
  readonly price: number
  readonly hours: number
}

export function tenMore(input: TenMoreInput): Advice['ten_km_h_more'] {
  const { pick, currency } = input
  const setup = cheapestSetup(input)
  const work = cheapestWork(input)
  const ten = figure('speed', MORE)
  if (setup === null && work === null) {
    const fastest = Math.max(...input.front.map(({ raw }) => raw.speed_km_h)) - pick.raw.speed_km_h
    const most =
      fastest >= 1 ? `the fastest of the list brings ${figure('speed', fastest)}` : 'nothing listed is faster'
    return {
      words: `No setup of the list and no clean-up work brings ${ten} more; ${most}.`,
      rank: null,
      more_cost: null,
    }
  }
  const setupCost = setup === null ? Number.POSITIVE_INFINITY : cents(setup.raw.cost - pick.raw.cost)
  if (setup !== null && (work === null || setupCost <= work.price)) {
    const losses = differences(setup.raw, pick.raw, currency, false)
    const gain = figure('speed', setup.raw.speed_km_h - pick.raw.speed_km_h)
    const but = losses.length > 0 ? `, but ${listed(losses)}` : ', for no more money'
    return { words: `Number ${setup.rank} is ${gain} faster${but}.`, rank: setup.rank, more_cost: setupCost }
  }
  const { treatments, gain, price, hours } = work as Work
  const names = listed(treatments.map(({ name }) => lower(name)))
  const cost = `${price > 0 ? money(price, currency) : 'no money'} and ${figure('hours', hours)} of work`
  const other = setup === null ? '' : ` Number ${setup.rank} would do it for ${money(setupCost, currency)} more.`
  return { words: `To ${names} brings ${figure('speed', gain)} for ${cost}.${other}`, rank: null, more_cost: price }
}

function cheapestSetup({ pick, front }: TenMoreInput): Member | null {
  return front
    .filter(({ raw }) => raw.speed_km_h >= pick.raw.speed_km_h + MORE)
    .reduce<Member | null>((best, next) => (best !== null && best.raw.cost <= next.raw.cost ? best : next), null)
}

/** Least money, then least work, of every combination of what is left to do. */
function cheapestWork({ gains, open }: TenMoreInput): Work | null {
  let best: Work | null = null
  for (const [i, speed] of gains.together.entries()) {
    const treatments = chosenOf(open, i + 1)
    const { price, hours } = workCost(treatments)
    if (best !== null && (price > best.price || (price === best.price && hours >= best.hours))) continue
    const gain = speed * KMH
    if (gain >= MORE) best = { treatments, gain, price, hours }
  }
  return best
}
