// Keeps account of the limits of one setup: how much of each is used, which was broken first, and whether to go on.
// In a sweep an evaluation ends at the second broken limit, or at the first that is broken by more than a near miss;
// told to be thorough, it never ends early.
import { guardedShare } from './limit-scatter.js'
import { HEADROOM_LIMITS, LIMIT_INDEX, LIMITS, type Limit, WISH_LIMITS } from './limits.js'

/** A rating broken by no more than this share of what is allowed makes a near miss. */
export const NEAR_MISS_SHARE = 0.1
/** The same for a wish; finite, so that what never comes (a take-off without end) is no near miss. */
const NEAR_WISH_SHARE = 1000

/** How far over a limit (by index of `LIMITS`) a near miss may be. */
export const NEAR_SHARES: readonly number[] = LIMITS.map((limit) =>
  WISH_LIMITS.includes(limit) ? NEAR_WISH_SHARE : NEAR_MISS_SHARE,
)

/** As columns, copied for each judge. */
const GUARDED_SHARES = Float64Array.from(LIMITS, guardedShare)
const NEAR_COLUMN = Float64Array.from(NEAR_SHARES)

/** State to come back to: what was broken before the duty was chosen. */
export interface JudgeMark {
  broken: number
  excess: number
  count: number
}

export class LimitJudge {
  /** Share of each limit used, by index of `LIMITS`; 0 if it was not tested. Kept only when thorough. */
  readonly used = new Float64Array(LIMITS.length)
  /** Share of each limit allowed: its 95 % value must hold, and the headroom asked for stay free. */
  readonly allowed = new Float64Array(GUARDED_SHARES)
  /**
   * How far over each limit a near miss may be. A sweep narrows it when it has found a near miss that none further over
   * can better.
   */
  readonly nearShare = new Float64Array(NEAR_COLUMN)
  /** Index of the first limit broken, −1 if none; how far over; how many were broken. */
  broken = -1
  excess = 0
  count = 0
  /** Index of the limit that ended the evaluation early. */
  stopper = -1
  readonly #thorough: boolean

  constructor(headroom: number, thorough: boolean) {
    this.#thorough = thorough
    for (const limit of HEADROOM_LIMITS) {
      const index = LIMIT_INDEX[limit]
      this.allowed[index] = Math.min(this.allowed[index] as number, 1 - headroom)
    }
  }

  clear(): void {
    if (this.#thorough) this.used.fill(0)
    this.broken = -1
    this.excess = 0
    this.count = 0
  }

  mark(mark: JudgeMark): void {
    mark.broken = this.broken
    mark.excess = this.excess
    mark.count = this.count
  }

  reset(mark: JudgeMark): void {
    this.broken = mark.broken
    this.excess = mark.excess
    this.count = mark.count
  }

  /** Judges one limit; false ends the evaluation. What cannot be shown to hold (NaN) is broken. */
  judge(limit: number, used: number): boolean {
    if (this.#thorough && !(used <= (this.used[limit] as number))) this.used[limit] = used
    const allowed = this.allowed[limit] as number
    if (used <= allowed) return true
    if (this.broken !== limit) this.count++
    const excess = used / allowed - 1
    if (this.broken < 0) this.broken = limit
    if (this.broken === limit && !(excess <= this.excess)) this.excess = excess
    if (this.#thorough || (this.count === 1 && this.excess <= (this.nearShare[limit] as number))) return true
    this.stopper = limit
    return false
  }

  /** A limit that has no measure: nothing can be worked out behind it. */
  fail(limit: Limit): false {
    const index = LIMIT_INDEX[limit]
    this.used[index] = Number.POSITIVE_INFINITY
    this.count++
    this.stopper = index
    if (this.broken < 0) {
      this.broken = index
      this.excess = Number.POSITIVE_INFINITY
    }
    return false
  }
}
