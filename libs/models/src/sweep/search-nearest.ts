// The best setups that break one limit only, for when the target is not reached: what stands in the way, and the least
// relaxation that would admit something. A box is put away when two limits are proved broken for all of it, when the one
// that is proved broken is so by more than is of use, or when nothing in it can better what was found for that limit. A
// rating may be broken by no more than a tenth, a wish by however much; once something that reaches the target is found for
// a limit, by no more than that.
import { BoxSearch, type SearchHooks } from './box-search.js'
import { type NearMiss, NearMisses } from './near-misses.js'
import type { Plan, PlanNode } from './plan.js'
import type { SweepProblem } from './problem.js'
import type { UnitBox } from './unit-tree.js'

/**
 * Searches the whole plan, the fastest first.
 * @param reaching only setups that reach the target are of use, since others hold every limit without it
 * @throws SweepCancelled when the hooks say so
 */
export function searchNearest(
  problem: SweepProblem,
  plan: Plan,
  reaching: boolean,
  hooks: SearchHooks,
): readonly NearMiss[] {
  const search = new NearestSearch(problem, plan, reaching, hooks)
  search.search(0, plan.nodes.length)
  return search.misses.members()
}

class NearestSearch extends BoxSearch {
  readonly misses: NearMisses
  readonly #leastSpeed: number

  constructor(problem: SweepProblem, plan: Plan, reaching: boolean, hooks: SearchHooks) {
    super(problem, plan, hooks, true)
    this.#leastSpeed = reaching ? problem.comparison.targetSpeed : 0
    this.misses = new NearMisses(problem.comparison.targetSpeed)
  }

  /** What is proved holds for all duties of the box: thrust lacking at the highest, ratings exceeded at the lowest. */
  protected override bound(node: number, unitBox: UnitBox, from: number, to: number): void {
    const { bounds } = this
    const { duties } = this.problem.candidates
    this.boxes++
    bounds.take(this.plan.nodes[node] as PlanNode, unitBox)
    if (this.#isHopeless()) return
    bounds.boundSpeed(duties[to] as number)
    if (this.#isHopeless()) return
    bounds.lacking(duties[to] as number)
    bounds.exceeding(duties[from] as number)
    if (this.#isHopeless()) return
    bounds.boundRest(duties[from] as number)
    if (this.#isHopeless()) return
    const box = this.openBox(node, unitBox, from, to)
    if (!this.uselessNow(box)) this.keep(box)
  }

  /** Two limits broken, one by too much, or the only one with something better found already. */
  #isHopeless(): boolean {
    const { broken, hopeless, speed } = this.bounds
    if (hopeless || (broken & (broken - 1)) !== 0) return true
    if (broken === 0) return false
    const best = this.misses.best(31 - Math.clz32(broken))
    if (best === undefined) return false
    // What reaches the target comes first, and of what does not the faster.
    const { targetSpeed } = this.problem.comparison
    return speed < Math.min(best.speed, targetSpeed)
  }

  /** The first compared value is the speed, less its sign, rounded by half a resolution at most. */
  protected useless(cells: Float64Array): boolean {
    return this.problem.comparison.resolution.speed - (cells[0] as number) < this.#leastSpeed
  }

  protected keyOf(cells: Float64Array): number {
    return cells[0] as number
  }

  protected putAway(): void {}

  protected take(number: number, finished: boolean): void {
    const { limits, speed } = this.evaluator
    const { broken, excess } = limits
    if (!finished || broken < 0 || speed < this.#leastSpeed) return
    if (this.misses.offer(broken, excess, speed, number)) limits.nearShare[broken] = this.misses.worthwhile(broken)
  }
}
