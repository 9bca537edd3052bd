// All boxes of a sweep in which some limit is broken by every setup, each under that limit, and the setups that break none.
// A setup that would hold if one limit were opened breaks no other, so it is under that one or among those that hold: who
// opens one limit after the other, as the searches for near misses and relaxations do, goes through the sweep once and then
// only through what is under each.
//
// What a bound proves of a limit does not rest on the others, but for the loads, which are bounded for what holds its mass and
// its ballast: what is under the structural margin counts as under these two as well.
import { LIMIT_INDEX as AT, LIMITS } from '../evaluation/limits.js'
import { BoxSearch, type DutyBox, type SearchHooks } from './box-search.js'
import type { Plan } from './plan.js'
import type { SweepProblem } from './problem.js'

export interface BrokenBoxes {
  /** All boxes in which a setup may break this limit and no other. */
  of(limit: number): readonly DutyBox[]
  /** Numbers of the setups that hold every limit. */
  readonly held: readonly number[]
}

/**
 * Sorts the whole plan, or some boxes of it, by the limits of the problem, its least speed taken to be another.
 * @throws SweepCancelled when the hooks say so
 */
export function brokenBoxes(
  problem: SweepProblem,
  plan: Plan,
  speedFloor: number,
  hooks: SearchHooks,
  among: readonly DutyBox[] | null = null,
): BrokenBoxes {
  const search = new SortingSearch(withSpeedFloor(problem, speedFloor), plan, hooks)
  if (among === null) search.search(0, plan.nodes.length)
  else search.searchBoxes(among)
  return search
}

/** The same problem with another least speed, m/s, that may be moved. */
export function withSpeedFloor(problem: SweepProblem, speedFloor: number) {
  const { circumstances } = problem
  return { ...problem, circumstances: { ...circumstances, limits: { ...circumstances.limits, speedFloor } } }
}

class SortingSearch extends BoxSearch implements BrokenBoxes {
  readonly held: number[] = []
  readonly #boxes: DutyBox[][] = LIMITS.map(() => [])

  constructor(problem: SweepProblem, plan: Plan, hooks: SearchHooks) {
    super(problem, plan, hooks)
    this.evaluator.limits.nearShare.fill(0)
  }

  of(limit: number): readonly DutyBox[] {
    const boxes = this.#boxes[limit] as DutyBox[]
    const isLoad = limit === AT['take-off-mass'] || limit === AT.ballast
    return isLoad ? boxes.concat(this.#boxes[AT['structural-margin']] as DutyBox[]) : boxes
  }

  protected override broken(limit: number, node: number, box: number, lowest: number, highest: number): void {
    ;(this.#boxes[limit] as DutyBox[]).push({ node, box, lowest, highest })
  }

  protected useless(): boolean {
    return false
  }

  /** The last one first, so that few are open at a time. */
  protected keyOf(): number {
    return -this.boxes
  }

  protected putAway(): void {}

  protected take(number: number, finished: boolean): void {
    if (finished && this.evaluator.limits.broken < 0) this.held.push(number)
  }
}
