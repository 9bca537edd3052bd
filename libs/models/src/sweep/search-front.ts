// The exact front without working through most of what could be bought.
//
// Why it is the front of working everything through. Let s be a setup of the front. Its box is never put away for a limit,
// since a bound on what is used never exceeds what s uses, and s holds all. It is never put away as dominated: a member m
// with m ≤ bound(box) ≤ s in every compared value and < in one would dominate s (rounding is monotone, so bounds may be
// rounded like setups). So s is worked through and offered, and the filter keeps it. A box equal to a member stays open, so
// that the tie rule sees every setup of a cell.
import { BoxSearch, type SearchHooks } from './box-search.js'
import type { CertificateKeeper } from './certificate.js'
import { Front } from './front.js'
import { compareAs, DIMENSIONS, type Objectives } from './objectives.js'
import type { Plan } from './plan.js'
import type { SweepProblem } from './problem.js'

/** Speed counts this much in what is looked into first. Any weights give the same front; these find members early. */
const SPEED_WEIGHT = 4
/** What time and cost are measured by there, s and currency, where the request wants no less. */
const USUAL_TIME = 600
const USUAL_COST = 1500

export class FrontSearch extends BoxSearch {
  readonly front: Front
  /** Combinations put away because a member is no worse in anything; worked through and holding every limit. */
  dominated = 0
  feasible = 0
  readonly #objectives: Objectives = { speed: 0, time: 0, cost: 0, margin: 0 }
  readonly #cells = new Float64Array(DIMENSIONS)
  /** One over a typical size of each compared value. */
  readonly #weights: readonly number[]

  /** @param front what was found before, in numbers of the same plan */
  constructor(
    problem: SweepProblem,
    plan: Plan,
    hooks: SearchHooks,
    keeper: CertificateKeeper | null = null,
    front = new Front(),
  ) {
    super(problem, plan, hooks, keeper)
    this.front = front
    const { comparison, circumstances } = problem
    this.#weights = [
      SPEED_WEIGHT / Math.max(comparison.targetSpeed, 1),
      1 / Math.min(comparison.wantedTime, USUAL_TIME),
      1 / Math.min(circumstances.limits.budget, USUAL_COST),
      1,
    ]
    // Near misses are looked for apart: here a setup ends at the first limit it breaks.
    this.evaluator.limits.nearShare.fill(0)
  }

  /** Starts from some setups: those that hold every limit are members from the beginning, and counted when they are found. */
  plant(seeds: readonly number[]): void {
    for (const seed of seeds) if (this.workOne(seed) && this.evaluator.limits.broken < 0) this.#offer(seed)
  }

  protected useless(cells: Float64Array): boolean {
    return this.front.dominates(cells)
  }

  protected keyOf(cells: Float64Array): number {
    let key = 0
    for (let i = 0; i < DIMENSIONS; i++) key += (cells[i] as number) * (this.#weights[i] as number)
    return key
  }

  protected putAway(combinations: number): void {
    this.dominated += combinations
  }

  protected take(number: number, finished: boolean): void {
    if (!finished || this.evaluator.limits.broken >= 0) return
    this.#offer(number)
    this.feasible++
  }

  #offer(number: number): void {
    const { evaluator } = this
    const objectives = this.#objectives
    objectives.speed = evaluator.speed
    objectives.time = evaluator.time
    objectives.cost = evaluator.cost
    objectives.margin = evaluator.margin
    compareAs(objectives, this.problem.comparison, this.#cells, 0)
    this.front.offer(this.#cells, objectives, number)
  }
}
