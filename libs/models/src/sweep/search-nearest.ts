// The best setups that break one limit only, for when the target is not reached: what stands in the way, and the least
// relaxation that would admit something. A rating may be broken by no more than a tenth, a wish by however much; once
// something that reaches the target is found for a limit, by no more than that.
//
// Each limit is searched for apart, opened as far as it is of use, with all others closed, and only where boxes break it
// (broken-boxes.ts): a setup that breaks it alone is in none that breaks another. Boxes are sorted at the target first and
// those that are slower again at the least speed, so a setup that breaks a limit alone at the least speed is under it in one
// of the two. Of these a box is put away only when all of it is proved to break a closed limit, the open one by more than is
// of use, or to be slower than the best so far, or than the target once that reaches it; the best does none of it.
import { NEAR_SHARES } from '../evaluation/limit-judge.js'
import { LIMIT_INDEX } from '../evaluation/limits.js'
import { BoxSearch, type DutyBox, type SearchHooks } from './box-search.js'
import { type BrokenBoxes, brokenBoxes, withSpeedFloor } from './broken-boxes.js'
import { NEAR_LIMITS, type NearMiss, NearMisses } from './near-misses.js'
import type { Plan } from './plan.js'
import type { SweepProblem } from './problem.js'

const SPEED_FLOOR = LIMIT_INDEX['speed-floor']
/**
 * How far the least speed is opened, one after the other until something is found, which then is faster than all that is
 * further over: while it is closed, most boxes are put away at a glance.
 */
const FLOOR_SHARES = [0.1, 0.25, 0.45, 0.65, 0.9, 1.4, 2.5, NEAR_SHARES[SPEED_FLOOR] as number]

/** What stands in the way of the target. */
export interface Nearest {
  readonly misses: readonly NearMiss[]
  /** Boxes by what they break when the target is the least speed. */
  readonly atTarget: BrokenBoxes
  /** Setups that hold all but the target, the fastest there are among them; null where they were not searched for. */
  readonly fastest: readonly number[] | null
}

/** Some boxes instead of the whole plan, and misses that are known beside them. */
export interface NearestAmong {
  readonly boxes: readonly DutyBox[]
  readonly known: readonly NearMiss[]
}

/**
 * Searches the whole plan, or some boxes of it.
 * @param reaching only setups that reach the target are of use, since others hold every limit without it
 * @throws SweepCancelled when the hooks say so
 */
export function searchNearest(
  problem: SweepProblem,
  plan: Plan,
  reaching: boolean,
  hooks: SearchHooks,
  among: NearestAmong | null = null,
): Nearest {
  const { speedFloor } = problem.circumstances.limits
  const { targetSpeed } = problem.comparison
  const atTarget = brokenBoxes(problem, plan, Math.max(targetSpeed, speedFloor), hooks, among?.boxes)
  const sorted = [atTarget]
  if (!reaching) sorted.push(brokenBoxes(problem, plan, speedFloor, hooks, atTarget.of(SPEED_FLOOR)))
  const least = reaching ? targetSpeed : 0
  const misses = new NearMisses(targetSpeed)
  for (const { limit, excess, speed, number } of among?.known ?? []) misses.offer(limit, excess, speed, number)
  for (const limit of NEAR_LIMITS) {
    if (limit === SPEED_FLOOR) continue
    const search = new NearestSearch(problem, plan, hooks, misses, {
      limit,
      share: NEAR_SHARES[limit] as number,
      least,
    })
    search.searchBoxes(sorted.flatMap((broken) => broken.of(limit)))
  }
  if (speedFloor <= least) return { misses: misses.members(), atTarget, fastest: null }
  const last = sorted.at(-1) as BrokenBoxes
  const fastest = [...last.held]
  for (const share of FLOOR_SHARES) {
    const search = new NearestSearch(problem, plan, hooks, misses, { limit: SPEED_FLOOR, share, least })
    search.searchBoxes(last.of(SPEED_FLOOR))
    fastest.push(...search.taken)
    if ((misses.best(SPEED_FLOOR)?.excess ?? Number.POSITIVE_INFINITY) <= share) break
  }
  return { misses: misses.members(), atTarget, fastest }
}

/** Which limit is opened, by which share, and the least speed that is of use, m/s. */
interface Opening {
  readonly limit: number
  readonly share: number
  readonly least: number
}

/** Setups that break one limit, the fastest first. */
class NearestSearch extends BoxSearch {
  /** Numbers of what was the best or its equal in speed when it was worked through. */
  readonly taken: number[] = []
  readonly #limit: number
  readonly #misses: NearMisses
  /** The least speed the search holds setups to, moved to that of the best; evaluator and bounds read it anew each time. */
  readonly #limits: { speedFloor: number }
  #least: number

  constructor(problem: SweepProblem, plan: Plan, hooks: SearchHooks, misses: NearMisses, opening: Opening) {
    const { limit, share, least } = opening
    const open = withSpeedFloor(problem, problem.circumstances.limits.speedFloor)
    const comparison = { ...problem.comparison, resolution: { speed: 0, time: 0, cost: 0, margin: 0 } }
    super({ ...open, comparison }, plan, hooks)
    this.#limit = limit
    this.#limits = open.circumstances.limits
    this.#misses = misses
    this.#least = least
    this.evaluator.limits.nearShare.fill(0)
    this.evaluator.limits.nearShare[limit] = Math.min(share, misses.worthwhile(limit))
    this.#hold(Math.max(least, Math.min(misses.best(limit)?.speed ?? 0, problem.comparison.targetSpeed)))
  }

  protected useless(cells: Float64Array): boolean {
    return -(cells[0] as number) < this.#least
  }

  protected keyOf(cells: Float64Array): number {
    return cells[0] as number
  }

  protected putAway(): void {}

  protected take(number: number, finished: boolean): void {
    const { limits, speed } = this.evaluator
    const { broken, excess } = limits
    if (!finished || broken < 0 || speed < this.#least) return
    this.taken.push(number)
    if (!this.#misses.offer(broken, excess, speed, number)) return
    limits.nearShare[broken] = this.#misses.worthwhile(broken)
    // What reaches the target comes first, and of what does not the faster.
    this.#hold(Math.min(speed, this.problem.comparison.targetSpeed))
  }

  #hold(speed: number): void {
    this.#least = Math.max(this.#least, speed)
    if (this.#limit !== SPEED_FLOOR) this.#limits.speedFloor = Math.max(this.#limits.speedFloor, speed)
  }
}
