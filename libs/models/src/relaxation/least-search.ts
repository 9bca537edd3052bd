// The setup that asks for the least of one limit while it holds all the others: the least money, take-off mass or stall speed,
// the most margin or flight time, or the highest speed. One limit is opened as wide as it may be and then closed to the best
// found so far, so that the bounds of the sweep put away whatever cannot better it.
//
// Why what it finds is the least: a box is put away only when a bound proves that every setup in it breaks a limit, or the
// opened one by more than the best found; the optimum breaks none and asks for no more than any other, so its box is never
// put away, and it is worked through. The limit is closed a billionth less than it could be, so that ties are seen as well.
// Told boxes that hold all of use (sweep/broken-boxes.ts), it searches no others.
import type { Evaluator } from '../evaluation/evaluator.js'
import { type BoxKeeper, BoxSearch, type DutyBox, type SearchHooks } from '../sweep/box-search.js'
import type { Plan } from '../sweep/plan.js'
import type { Circumstances, SweepProblem } from '../sweep/problem.js'

export type OpenLimit = 'budget' | 'take-off-mass' | 'stall-speed' | 'structural-margin' | 'flight-time' | 'speed-floor'

/** The best setup for an opened limit: what it asks for, in the unit of that limit. */
export interface Least {
  readonly number: number
  readonly need: number
  readonly cost: number
  readonly speed: number
}

export interface OpenedLimit {
  readonly limit: OpenLimit
  /** As far as it may be opened. */
  readonly widest: number
  /** Slower is of no use, m/s. */
  readonly speedFloor: number
}

/** Which limit is opened, what a setup needs of it, and which compared value goes with it. */
interface Handle {
  readonly key: Exclude<keyof Circumstances['limits'], 'headroom' | 'thrustToWeight'> | 'mass'
  /** 1: the less the better; −1: the more. */
  readonly sense: 1 | -1
  readonly need: (evaluator: Evaluator) => number
  /** Place among the compared values; null: none of them. */
  readonly cell: number | null
}

const HANDLES: Readonly<Record<OpenLimit, Handle>> = {
  budget: { key: 'budget', sense: 1, need: ({ cost }) => cost, cell: 2 },
  'take-off-mass': { key: 'mass', sense: 1, need: ({ mass }) => mass, cell: null },
  'stall-speed': { key: 'stallSpeed', sense: 1, need: ({ stall }) => stall, cell: null },
  'structural-margin': { key: 'margin', sense: -1, need: ({ margin }) => margin, cell: 3 },
  'flight-time': { key: 'flightTime', sense: -1, need: ({ time }) => time, cell: 1 },
  'speed-floor': { key: 'speedFloor', sense: -1, need: ({ speed }) => speed, cell: 0 },
}

/** Circumstances whose limits are moved while a search goes on; evaluator and bounds read them anew each time. */
type OpenCircumstances = Omit<Circumstances, 'mass' | 'limits'> & {
  readonly mass: { limit: number; readonly fixed: number | null }
  readonly limits: Record<keyof Circumstances['limits'], number>
}

function move({ mass, limits }: OpenCircumstances, key: Handle['key'], value: number): void {
  if (key === 'mass') mass.limit = value
  else limits[key] = value
}

/** Finer than any figure is given; wider than the rounding of a quotient. */
const SLACK = 1e-9
/** More flight time than any: nothing is cut off, and the search stays one for few members. */
const ANY_TIME = 1e9

/** What a search may be given beside the question. */
export interface LeastAids {
  /** Boxes that hold all that may be of use; else the whole plan. */
  readonly boxes?: readonly DutyBox[] | null
  /** Setups to begin with. */
  readonly seeds?: readonly number[]
  readonly keeper?: BoxKeeper
}

/**
 * Searches the whole plan of a problem, whose limits may differ from those it was planned with; null: no setup holds them.
 * @throws SweepCancelled when `cancelled` turns true
 */
export function searchLeast(
  problem: SweepProblem,
  plan: Plan,
  opened: OpenedLimit,
  cancelled: () => boolean = () => false,
  { boxes = null, seeds = [], keeper }: LeastAids = {},
): Least | null {
  const { circumstances, candidates } = problem
  const open: OpenCircumstances = {
    ...circumstances,
    mass: { ...circumstances.mass },
    limits: { ...circumstances.limits, speedFloor: opened.speedFloor },
  }
  const handle = HANDLES[opened.limit]
  move(open, handle.key, opened.widest)
  const comparison = {
    resolution: { speed: 0, time: 0, cost: 0, margin: 0 },
    wantedTime: ANY_TIME,
    wantedMargin: Number.POSITIVE_INFINITY,
    targetSpeed: problem.comparison.targetSpeed,
  }
  const question = { circumstances: open, candidates, comparison }
  const search = new LeastSearch(question, plan, { settled() {}, cancelled }, keeper, open, handle)
  for (const seed of seeds) search.plant(seed)
  if (boxes === null) search.search(0, plan.nodes.length)
  else search.searchBoxes(boxes)
  return search.best
}

class LeastSearch extends BoxSearch {
  best: Least | null = null
  readonly #open: OpenCircumstances
  readonly #handle: Handle

  constructor(
    problem: SweepProblem,
    plan: Plan,
    hooks: SearchHooks,
    keeper: BoxKeeper | undefined,
    open: OpenCircumstances,
    handle: Handle,
  ) {
    super(problem, plan, hooks, keeper)
    this.#open = open
    this.#handle = handle
    this.evaluator.limits.nearShare.fill(0)
  }

  /** Takes a setup before the search begins, so that boxes are held to it from the first. */
  plant(number: number): void {
    this.take(number, this.workOne(number))
  }

  /** Compared values are turned so that less is better, as a need is by its sense. */
  protected useless(cells: Float64Array): boolean {
    const { cell, sense } = this.#handle
    if (this.best === null || cell === null) return false
    return (cells[cell] as number) > sense * this.best.need + SLACK * Math.abs(this.best.need)
  }

  protected keyOf(cells: Float64Array): number {
    return cells[this.#handle.cell ?? 0] as number
  }

  protected putAway(): void {}

  protected take(number: number, finished: boolean): void {
    const { evaluator } = this
    if (!finished || evaluator.limits.broken >= 0) return
    const { sense, need, key } = this.#handle
    const found = { number, need: need(evaluator), cost: evaluator.cost, speed: evaluator.speed }
    if (this.best !== null && !isLess(found, this.best, sense)) return
    this.best = found
    move(this.#open, key, found.need + sense * SLACK * Math.abs(found.need))
  }
}

/** Of two setups for an opened limit, whether the first is the better one. */
export function isLeastFor(limit: OpenLimit): (a: Least, b: Least) => boolean {
  return (a, b) => isLess(a, b, HANDLES[limit].sense)
}

/** Less of the opened limit, then less money, then more speed, then the lower number. */
function isLess(a: Least, b: Least, sense: 1 | -1): boolean {
  const order = sense * (a.need - b.need) || a.cost - b.cost || b.speed - a.speed || a.number - b.number
  return order < 0
}
