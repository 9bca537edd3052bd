// Branch and bound over boxes of a node, a tree of units and a range of duties, most promising first: what is proved broken or
// of no use is put away as a whole, the rest is halved until single units are worked through like any other. What is of use
// and how promising it is, each search says: search-front.ts, search-nearest.ts, broken-boxes.ts, least-search.ts.
import { Evaluator } from '../evaluation/evaluator.js'
import { LIMITS, RISING_LIMITS } from '../evaluation/limits.js'
import { Bounds } from './bounds.js'
import { BoxHeap, emptyOpenBox, type OpenBox } from './box-heap.js'
import { WORKED_THROUGH } from './certificate.js'
import { numberOf, placesOf } from './combination-number.js'
import { compareAs } from './objectives.js'
import { type Plan, type PlanNode, type PlanUnit, partsOf } from './plan.js'
import { isNarrowed, type SweepProblem } from './problem.js'
import { rootBoxes } from './root-boxes.js'

/** Boxes between two looks at the hooks. */
const BOXES_PER_LOOK = 256

export interface SearchHooks {
  /** Combinations settled since the last call. */
  settled(combinations: number): void
  cancelled(): boolean
}

/** Is told of boxes that tile all that is searched, each with why it needs no more: see certificate.ts. */
export interface BoxKeeper {
  add(node: number, box: number, lowest: number, highest: number, reason: number): void
  addDominated(box: OpenBox): void
}

/** A node, a box of units, and lowest and highest duty (indices). */
export interface DutyBox {
  readonly node: number
  readonly box: number
  readonly lowest: number
  readonly highest: number
}

/** Units up to which a box is halved by duty first, of a narrowed front. Any number gives the same; this spares most boxes. */
const FEW_UNITS = 16

/** The sweep was told to stop. */
export class SweepCancelled extends Error {
  constructor() {
    super('the sweep was cancelled')
    this.name = 'SweepCancelled'
  }
}

const RISING = LIMITS.map((limit) => RISING_LIMITS.includes(limit))

export abstract class BoxSearch {
  /** Combinations removed by each limit, in the order of `LIMITS`, whether box by box or one by one. */
  readonly removed = new Float64Array(LIMITS.length)
  /** Of these, those of whole boxes. */
  readonly bounded = new Float64Array(LIMITS.length)
  /** Setups worked through, and boxes bounded. */
  evaluated = 0
  boxes = 0
  protected readonly evaluator: Evaluator
  protected readonly bounds: Bounds
  readonly #heap = new BoxHeap()
  readonly #popped = emptyOpenBox()
  readonly #child = emptyOpenBox()
  readonly #assembled = { broken: -1, excess: 0, count: 0 }
  readonly #fewUnits: number
  #unreported = 0

  constructor(
    protected readonly problem: SweepProblem,
    protected readonly plan: Plan,
    protected readonly hooks: SearchHooks,
    protected readonly keeper: BoxKeeper | null = null,
  ) {
    this.evaluator = new Evaluator(problem.circumstances)
    this.bounds = new Bounds(problem, plan.boxes, this.evaluator.limits)
    this.#fewUnits = isNarrowed(problem) ? FEW_UNITS : Number.POSITIVE_INFINITY
  }

  /** Whether nothing in a box is of use, as far as its compared values are bounded so far. */
  protected abstract useless(cells: Float64Array): boolean
  /** Key of a box: the least is looked into first. */
  protected abstract keyOf(cells: Float64Array): number
  /** Takes a setup that was just worked through; `finished`: to its end. */
  protected abstract take(number: number, finished: boolean): void
  /** Combinations put away as useless. */
  protected abstract putAway(combinations: number): void
  /** Hears of a box of which every setup breaks a limit, at some duties. */
  protected broken(_limit: number, _node: number, _box: number, _lowest: number, _highest: number): void {}

  /** Searches the nodes in places `from` up to, not including, `to` of the plan's order. */
  search(from: number, to: number): void {
    const { problem, plan } = this
    for (let place = from; place < to; place++) {
      const node = plan.order[place] as number
      for (const { box, lowest, highest } of rootBoxes({ problem, plan }, node)) this.bound(node, box, lowest, highest)
      if (this.hooks.cancelled()) throw new SweepCancelled()
    }
    this.#run()
  }

  /** Searches some boxes, each at some duties. */
  searchBoxes(boxes: readonly DutyBox[]): void {
    for (const [i, { node, box, lowest, highest }] of boxes.entries()) {
      if (i % BOXES_PER_LOOK === 0) this.#look()
      this.bound(node, box, lowest, highest)
    }
    this.#run()
  }

  #run(): void {
    const box = this.#popped
    let next = 0
    while (this.#heap.pop(box)) {
      if (this.boxes >= next) {
        next = this.boxes + BOXES_PER_LOOK
        this.#look()
      }
      if (this.useless(box.cells)) this.#drop(box)
      else this.#divide(box)
    }
    this.#look()
  }

  #look(): void {
    if (this.hooks.cancelled()) throw new SweepCancelled()
    this.hooks.settled(this.#unreported)
    this.#unreported = 0
  }

  /** Halves the units while there are many, then the duties, then the units; a single unit is worked through. */
  #divide({ node, box, lowest, highest }: OpenBox): void {
    const { boxes } = this.plan
    const count = boxes.counts[box] as number
    if (count === 1) {
      this.keeper?.add(node, box, lowest, highest, WORKED_THROUGH)
      this.#workThrough(node, box, lowest, highest)
    } else if (highest > lowest && count <= this.#fewUnits) {
      const middle = (lowest + highest) >> 1
      this.bound(node, box, middle + 1, highest)
      this.bound(node, box, lowest, middle)
    } else {
      this.bound(node, boxes.lefts[box] as number, lowest, highest)
      this.bound(node, boxes.rights[box] as number, lowest, highest)
    }
  }

  /** Bounds a box; keeps what is neither proved broken nor useless. */
  protected bound(node: number, box: number, from: number, to: number): void {
    const { bounds } = this
    const { duties } = this.problem.candidates
    this.boxes++
    const broken = bounds.take(this.plan.nodes[node] as PlanNode, box)
    if (broken >= 0) {
      this.#remove(broken, node, box, from, to)
      return
    }
    const lowest = this.#raise(node, box, from, to)
    if (lowest > to) return
    const highest = this.#lower(node, box, lowest, to)
    if (lowest > highest) return
    const child = this.openBox(node, box, lowest, highest)
    const slow = bounds.boundSpeed(duties[highest] as number)
    if (slow >= 0 || this.uselessNow(child)) {
      this.#settle(slow, child)
      return
    }
    const limit = bounds.boundRest(duties[lowest] as number)
    if (limit >= 0 || this.uselessNow(child)) this.#settle(limit, child)
    else this.keep(child)
  }

  /** A box in the one place that is kept for it. */
  protected openBox(node: number, box: number, lowest: number, highest: number): OpenBox {
    const child = this.#child
    child.node = node
    child.box = box
    child.lowest = lowest
    child.highest = highest
    return child
  }

  protected keep(box: OpenBox): void {
    this.#heap.push(this.keyOf(box.cells), box)
  }

  /** Whether the box just bounded is useless; writes its compared values. */
  protected uselessNow(box: OpenBox): boolean {
    compareAs(this.bounds, this.problem.comparison, box.cells, 0)
    return this.useless(box.cells)
  }

  /** Counts a box under a limit, or as useless when there is none. */
  #settle(limit: number, box: OpenBox): void {
    if (limit < 0) this.#drop(box)
    else this.#remove(limit, box.node, box.box, box.lowest, box.highest)
  }

  /** The lowest duty that is not proved to lack thrust or speed, by bisection; past `to` when the highest lacks them. */
  #raise(node: number, box: number, from: number, to: number): number {
    const { duties } = this.problem.candidates
    let lacking = this.bounds.lacking(duties[to] as number)
    if (lacking >= 0) {
      this.#remove(lacking, node, box, from, to)
      return to + 1
    }
    let [below, holds] = [from - 1, to]
    for (let duty = from; holds - below > 1; duty = (below + holds) >> 1) {
      const limit = this.bounds.lacking(duties[duty] as number)
      if (limit < 0) holds = duty
      else {
        below = duty
        lacking = limit
      }
    }
    if (holds > from) this.#remove(lacking, node, box, from, holds - 1)
    return holds
  }

  /** The highest duty that is not proved to exceed a rating, by bisection; under `from` when the lowest exceeds one. */
  #lower(node: number, box: number, from: number, to: number): number {
    const { duties } = this.problem.candidates
    let exceeding = -1
    let [holds, above] = [from - 1, to + 1]
    for (let duty = to; above - holds > 1; duty = (holds + above) >> 1) {
      const limit = this.bounds.exceeding(duties[duty] as number)
      if (limit < 0) holds = duty
      else {
        above = duty
        exceeding = limit
      }
    }
    if (holds < to) this.#remove(exceeding, node, box, holds + 1, to)
    return holds
  }

  /** A single unit at each duty, from low to high; what rises and ends it stays broken. */
  #workThrough(node: number, box: number, lowest: number, highest: number): void {
    const { plan, problem, evaluator } = this
    const { duties } = problem.candidates
    const unit = plan.boxes.units[box] as number
    const { limits } = evaluator
    const parts = partsOf(problem, plan.nodes[node] as PlanNode, plan.units[unit] as PlanUnit)
    if (!evaluator.assemble(parts)) {
      this.#count(limits.broken, highest - lowest + 1)
      this.broken(limits.broken, node, box, lowest, highest)
      return
    }
    limits.mark(this.#assembled)
    const first = numberOf(problem, plan, { node, unit, duty: 0 })
    for (let d = lowest; d <= highest; d++) {
      limits.reset(this.#assembled)
      this.evaluated++
      const finished = evaluator.evaluate(duties[d] as number)
      const { broken } = limits
      if (broken < 0) this.#unreported++
      else {
        const stays = !finished && limits.count === 1 && RISING[broken] === true
        const last = stays ? highest : d
        this.#count(broken, last - d + 1)
        this.broken(broken, node, box, d, last)
        if (stays) return
      }
      this.take(first + d, finished)
    }
  }

  /** Works one setup through by its number; whether to its end. */
  protected workOne(number: number): boolean {
    const { problem, plan, evaluator } = this
    const { node, unit, duty } = placesOf(problem, plan, number)
    const parts = partsOf(problem, plan.nodes[node] as PlanNode, plan.units[unit] as PlanUnit)
    return evaluator.assemble(parts) && evaluator.evaluate(problem.candidates.duties[duty] as number)
  }

  /** A box, at some duties, of which every setup breaks a limit. */
  #remove(limit: number, node: number, box: number, lowest: number, highest: number): void {
    const combinations = (this.plan.boxes.counts[box] as number) * (highest - lowest + 1)
    this.#count(limit, combinations)
    this.bounded[limit] = (this.bounded[limit] as number) + combinations
    this.keeper?.add(node, box, lowest, highest, limit)
    this.broken(limit, node, box, lowest, highest)
  }

  #drop(box: OpenBox): void {
    const combinations = (this.plan.boxes.counts[box.box] as number) * (box.highest - box.lowest + 1)
    this.#unreported += combinations
    this.putAway(combinations)
    this.keeper?.addDominated(box)
  }

  #count(limit: number, combinations: number): void {
    this.removed[limit] = (this.removed[limit] as number) + combinations
    this.#unreported += combinations
  }
}
