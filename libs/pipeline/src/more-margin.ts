// What one gives up for a tenth of the design load more in reserve: the least speed, by another setup of the list or by the
// same one flown with less throttle.
import { figure, percent } from '@ductwright/contract/figures'
import type { Advice, Member } from '@ductwright/contract/result'
import { Evaluator, type Parts } from '@ductwright/models/evaluation/evaluator'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { CRITERION_WORDS } from './limit-words.js'
import type { WorkedSetup } from './member-of.js'
import type { Prepared } from './prepare.js'
import { differences, listed } from './sentences.js'
import { withoutBudget, withoutCost } from './without-money.js'
import type { WorkedBefore } from './worked-before.js'

const MORE = 0.1
/** Slower than at this throttle nothing is flown on purpose. */
const LEAST_DUTY = 0.2
const KMH = 3.6

/** A setup at its throttle, and the reserve that is wanted of it. */
interface Flown {
  readonly circumstances: Circumstances
  readonly parts: Parts
  readonly duty: number
  readonly margin: number
}

interface Throttled {
  readonly duty: number
  readonly speed_km_h: number
}

export function moreMargin(
  prepared: Prepared,
  pick: Member,
  worked: WorkedSetup,
  front: readonly Member[],
  notes: WorkedBefore,
): Advice['more_margin'] {
  const wanted = pick.raw.margin + MORE
  const more = `${percent(MORE)} of the design load more in reserve`
  const { parts, duty } = worked.combination
  const circumstances = withoutBudget(prepared.problem.circumstances)
  const flown = { circumstances, parts: withoutCost(parts), duty, margin: wanted }
  const slower = notes.of('throttled', flown, throttled)
  const other = fastestWith(front, wanted)
  if (other !== null && (slower === null || other.raw.speed_km_h > slower.speed_km_h)) {
    const losses = differences(other.raw, pick.raw, prepared.catalogue.currency, false)
    const but = losses.length > 0 ? `it is ${listed(losses)}` : 'it is no worse in anything else'
    return { words: `For ${more} take number ${other.rank}: ${but}.`, rank: other.rank }
  }
  if (slower !== null) {
    const cap = figure('exactPercent', Math.floor(slower.duty * 1000 + 1e-6) / 10)
    const lost = figure('speed', pick.raw.speed_km_h - slower.speed_km_h)
    return { words: `For ${more} cap the throttle at ${cap}: that gives up ${lost}.`, rank: null }
  }
  const binds = CRITERION_WORDS[worked.detail.marginBinds]
  return { words: `No setup of the list and no throttle gives ${more}: ${binds} sets it.`, rank: null }
}

function fastestWith(front: readonly Member[], margin: number): Member | null {
  return front
    .filter(({ raw }) => raw.margin >= margin)
    .reduce<Member | null>(
      (best, next) => (best !== null && best.raw.speed_km_h >= next.raw.speed_km_h ? best : next),
      null,
    )
}

/**
 * The highest throttle below the pick's at which the reserve is there and every limit but the speed floor holds, to 1e-4, by
 * bisection: loads fall with throttle. null when none is.
 */
function throttled({ circumstances, parts, duty: flown, margin }: Flown): Throttled | null {
  const evaluator = new Evaluator({ ...circumstances, limits: { ...circumstances.limits, speedFloor: 0 } })
  const at = (duty: number): { holds: boolean; has: boolean } => {
    const holds = evaluator.assemble(parts) && evaluator.evaluate(duty) && evaluator.limits.broken < 0
    return { holds, has: evaluator.margin >= margin }
  }
  let [low, high] = [LEAST_DUTY, flown]
  while (high - low > 1e-4) {
    const middle = 0.5 * (low + high)
    const { holds, has } = at(middle)
    // Below the throttle that carries level flight nothing is known of the reserve, and less throttle mends nothing.
    if (holds && !has) high = middle
    else low = middle
  }
  const { holds, has } = at(low)
  return holds && has ? { duty: low, speed_km_h: evaluator.speed * KMH } : null
}
