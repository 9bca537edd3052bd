// The best setup that breaks one limit only, for each limit; a rating by no more than the near-miss share, a wish by
// however much: the nearest answers when there is none, and the relaxation that would admit them. Order-free like the
// front: of two, the one that reaches the target, then the one that is less over, then the faster, then the one with the
// lower number.
import { NEAR_SHARES } from '../evaluation/limit-judge.js'
import { LIMIT_INDEX, LIMITS, type Limit } from '../evaluation/limits.js'

const SPEED_FLOOR = LIMIT_INDEX['speed-floor']
/** Limits without a measure: behind one of these nothing can be worked out. */
const UNMEASURED: readonly Limit[] = ['pack-power', 'level-flight', 'convergence']

/** Limits that a near miss may break, by index. */
export const NEAR_LIMITS: readonly number[] = LIMITS.filter((limit) => !UNMEASURED.includes(limit)).map(
  (limit) => LIMIT_INDEX[limit],
)

/** One near miss: its limit (index of `LIMITS`), share over, speed m/s and combination number. */
export interface NearMiss {
  readonly limit: number
  readonly excess: number
  readonly speed: number
  readonly number: number
}

export class NearMisses {
  readonly #best: (NearMiss | undefined)[] = new Array(LIMITS.length)
  readonly #target: number

  constructor(targetSpeed: number) {
    this.#target = targetSpeed
  }

  /** Offers a miss; true when it is the best of its limit so far. */
  offer(limit: number, excess: number, speed: number, number: number): boolean {
    const best = this.#best[limit]
    const miss = { limit, excess, speed, number }
    if (best !== undefined && !isNearer(miss, best, this.#target)) return false
    this.#best[limit] = miss
    return true
  }

  /**
   * How far over a limit a miss may be and still be the best, given the best so far: once that reaches the target, no
   * further over than that; the same for the speed floor, where being less over is being faster.
   */
  worthwhile(limit: number): number {
    const best = this.#best[limit]
    const narrowed = best !== undefined && (best.speed >= this.#target || limit === SPEED_FLOOR)
    return narrowed ? best.excess : (NEAR_SHARES[limit] as number)
  }

  /** The best of a limit so far. */
  best(limit: number): NearMiss | undefined {
    return this.#best[limit]
  }

  members(): NearMiss[] {
    return this.#best.filter((miss) => miss !== undefined)
  }
}

/** Whether one miss of a limit comes before another. */
export function isNearer(a: NearMiss, b: NearMiss, target: number): boolean {
  const reaches = a.speed >= target
  if (reaches !== b.speed >= target) return reaches
  // Short of the target, being faster is what brings it nearer.
  const first = reaches ? a.excess - b.excess : b.speed - a.speed
  const second = reaches ? b.speed - a.speed : a.excess - b.excess
  return (first || second || a.number - b.number) < 0
}
