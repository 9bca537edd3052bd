// What holds the speed of a setup back, in words and from its own numbers: the limit that stops a higher throttle, how
// close it flies to its efflux speed, and what a little more power or a little less drag would buy.
import { figure } from '@ductwright/contract/figures'
import { HEADROOM_LIMITS, type Limit } from '@ductwright/models/evaluation/limits'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { LIMIT_WORDS } from './limit-words.js'
import { listed } from './sentences.js'

/** What may be all but used up and so keep a stronger motor or pack out. */
const KEEPING_OUT: readonly Limit[] = [...HEADROOM_LIMITS, 'structural-margin', 'take-off-mass', 'stall-speed']

/** Share of what is allowed above which a rating is all but used up. */
const ALL_BUT_USED = 0.97

/** Of those. */
const MOST_NAMED = 3

/** The highest duty that every limit allows and what stops a higher one. */
export interface Ceiling {
  readonly duty: number
  readonly stopper: Limit | null
}

export function bindingWords(detail: SetupDetail, ceiling: Ceiling | null): string {
  return `${throttleWords(detail, ceiling)}; ${responseWords(detail)}`
}

/** The limit that stops the throttle, or what full throttle leaves. */
export function throttleWords(detail: SetupDetail, ceiling: Ceiling | null): string {
  if (ceiling === null) return brokenWords(detail)
  if (ceiling.stopper === null) return fullThrottleWords(detail)
  const cap = figure('percent', ceiling.duty * 100)
  return `${LIMIT_WORDS[ceiling.stopper]} stops the throttle at ${cap}`
}

/** Limits that are all but used up, the fullest first. */
export function closeLimits(detail: SetupDetail): Limit[] {
  return detail.limits
    .filter(({ limit, used, allowed }) => KEEPING_OUT.includes(limit) && used > ALL_BUT_USED * allowed)
    .sort((a, b) => b.used / b.allowed - a.used / a.allowed)
    .map(({ limit }) => limit)
}

/** Full throttle holds every limit; ratings that are all but used up are what keeps a stronger motor or pack out. */
function fullThrottleWords(detail: SetupDetail): string {
  const close = closeLimits(detail)
    .slice(0, MOST_NAMED)
    .map((limit) => LIMIT_WORDS[limit])
  if (close.length === 0) return 'full throttle is allowed, so power and drag set the speed'
  return `full throttle is allowed, but there is next to nothing left on ${listed(close)}`
}

/** The limits broken at this throttle, those over by most first. */
function brokenWords(detail: SetupDetail): string {
  const broken = detail.limits
    .filter(({ used, allowed }) => used > allowed)
    .sort((a, b) => b.used / b.allowed - a.used / a.allowed)
    .map(({ limit }) => LIMIT_WORDS[limit])
  if (broken.length === 0) return 'no limit is broken at this throttle'
  return `this throttle breaks the limit on ${listed(broken)}`
}

function responseWords(detail: SetupDetail): string {
  const speed = detail.top.speed * 3.6
  const tenth = figure('percent', 10)
  const share = figure('percent', (100 * detail.top.speed) / detail.top.efflux)
  const power = figure('speed', 0.1 * detail.response.power * speed)
  const drag = figure('speed', -0.1 * detail.response.dragArea * speed)
  return `it flies at ${share} of its efflux speed, where ${tenth} more power buys ${power} and ${tenth} less drag area ${drag}`
}
