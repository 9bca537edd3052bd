// The largest drag area at which some setup reaches the target and holds every limit.
//
// Less drag is more speed at any throttle, so a setup that reaches the target at some drag area reaches it at every smaller
// one. The area is taken down in steps until some setup of the whole sweep reaches the target, then raised setup by setup: as
// far as the setup in hand reaches it, then a search for one that reaches it at a hair more. Each turn raises the area or ends
// it, and when it ends no setup reaches the target at more. What a bound proves to break a limit that drag has no part in is
// settled for every area, so each search takes only what the ones before have left. Assumed: a limit that a setup breaks at one
// drag area and holds at a larger one, flying faster in between, does not hide the only setup there is at both.
import { Evaluator, type Parts } from '../evaluation/evaluator.js'
import { fanNode } from '../evaluation/fan-node.js'
import { LIMIT_INDEX as AT } from '../evaluation/limits.js'
import type { BoxKeeper, DutyBox } from '../sweep/box-search.js'
import { WORKED_THROUGH } from '../sweep/certificate.js'
import { Optima } from '../sweep/kept-optima.js'
import { type Plan, type PlanNode, type PlanUnit, partsOf } from '../sweep/plan.js'
import type { Circumstances, SweepProblem } from '../sweep/problem.js'
import { isLeastFor, type Least, searchLeast } from './least-search.js'

/** Shares of the drag area that are tried on the way down; no clean-up leaves less than the last, see drag/treatments. */
const STEPS_DOWN = [0.9, 0.8, 0.65, 0.5, 0.35, 0.2]
/** How close the area is found, relative. */
const CLOSE = 1e-5
/** A hair more: what the next setup must beat. */
const HAIR = 1e-4
const MOST_TURNS = 40
/** Limits that bounds prove broken at one area only: the others are judged standing, where nothing drags, or on the ground. */
const WITH_DRAG: readonly number[] = [AT['speed-floor'], AT['structural-margin'], AT['flight-time']]

export interface DragRelaxation {
  /** m² */
  readonly dragArea: number
  /** Number of the combination, the same as in the plan of the problem. */
  readonly number: number
}

/**
 * null when no setup reaches the target even with a fifth of the drag area.
 * @param optima of an earlier run; the same is found with any
 */
export function relaxDragArea(
  problem: SweepProblem,
  plan: Plan,
  target: number,
  cancelled: () => boolean = () => false,
  optima = new Optima(),
): DragRelaxation | null {
  const { dragArea } = problem.circumstances.airframe
  const search = new ReachSearch(problem, plan, target, cancelled, optima)
  for (const share of STEPS_DOWN) {
    const number = search.fastestAt(share * dragArea)
    if (number !== null) return raise(problem, plan, { dragArea: share * dragArea, number }, target, search)
  }
  return null
}

/** From a setup that reaches the target at some area to the largest at which any does. */
function raise(
  problem: SweepProblem,
  plan: Plan,
  start: DragRelaxation,
  target: number,
  search: ReachSearch,
): DragRelaxation {
  const { dragArea } = problem.circumstances.airframe
  let best = start
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const area = largestArea(problem, plan, best.number, best.dragArea, dragArea, target)
    best = { ...best, dragArea: area }
    const more = area * (1 + HAIR)
    const next = more < dragArea ? search.fastestAt(more) : null
    if (next === null) break
    best = { dragArea: more, number: next }
  }
  return best
}

/** Where to look, and what of it may be of use at any area; null: nothing is known yet. */
interface Region {
  readonly plan: Plan
  boxes: readonly DutyBox[] | null
}

/** Searches at one drag area after the other for the fastest setup that reaches the target and holds every limit. */
class ReachSearch {
  readonly #problem: SweepProblem
  readonly #target: number
  readonly #cancelled: () => boolean
  readonly #optima: Optima
  readonly #whole: Region
  #changed: Region | null = null

  constructor(problem: SweepProblem, plan: Plan, target: number, cancelled: () => boolean, optima: Optima) {
    this.#problem = problem
    this.#target = target
    this.#cancelled = cancelled
    this.#optima = optima
    this.#whole = { plan, boxes: null }
  }

  /** Number of the setup; null when nothing reaches it. */
  fastestAt(dragArea: number): number | null {
    const [fastest] = this.#optima.best<Least>(`fastest at a drag area of ${dragArea}`, {
      isBefore: isLeastFor('speed-floor'),
      whole: () => [this.#fastestIn(this.#whole, dragArea)],
      ofChanged: ({ plan, boxes }, [known]) => {
        this.#changed ??= { plan, boxes }
        return [this.#fastestIn(this.#changed, dragArea, known ? [known.number] : [])]
      },
    })
    return fastest?.number ?? null
  }

  #fastestIn(region: Region, dragArea: number, seeds: readonly number[] = []): Least | null {
    const changed = reachingAt(this.#problem, dragArea, this.#target)
    const opened = { limit: 'speed-floor', widest: this.#target, speedFloor: this.#target } as const
    const left: DutyBox[] = []
    const keeper: BoxKeeper = {
      add(node, box, lowest, highest, reason) {
        if (reason === WORKED_THROUGH || WITH_DRAG.includes(reason)) left.push({ node, box, lowest, highest })
      },
      addDominated: ({ node, box, lowest, highest }) => left.push({ node, box, lowest, highest }),
    }
    const aids = { boxes: region.boxes, seeds, keeper }
    const found = searchLeast(changed, region.plan, opened, this.#cancelled, aids)
    region.boxes = left
    return found
  }
}

/** The circumstances with another drag area. */
export function withDragArea(circumstances: Circumstances, dragArea: number): Circumstances {
  return { ...circumstances, airframe: { ...circumstances.airframe, dragArea } }
}

/** The problem with a drag area, and the target as least speed; of the plan, drag only moves first guesses. */
function reachingAt(problem: SweepProblem, dragArea: number, target: number): SweepProblem {
  const circumstances = withDragArea(problem.circumstances, dragArea)
  return { ...problem, circumstances: { ...circumstances, limits: { ...circumstances.limits, speedFloor: target } } }
}

/** Where a setup that reaches the target at `low` ceases to, by bisection. */
function largestArea(
  problem: SweepProblem,
  plan: Plan,
  number: number,
  low: number,
  high: number,
  target: number,
): number {
  let [holds, fails] = [low, high]
  while (fails - holds > CLOSE * holds) {
    const middle = 0.5 * (holds + fails)
    if (reachesAt(problem, plan, number, middle, target)) holds = middle
    else fails = middle
  }
  return holds
}

/** Whether a combination reaches the target and holds every limit at a drag area. */
function reachesAt(problem: SweepProblem, plan: Plan, number: number, dragArea: number, target: number): boolean {
  const { circumstances } = reachingAt(problem, dragArea, target)
  const { parts, duty } = combination(problem, plan, number)
  const { fan, nozzleRatio } = parts.node.duct
  const evaluator = new Evaluator(circumstances)
  const node = fanNode(circumstances, fan, nozzleRatio)
  return evaluator.assemble({ ...parts, node }) && evaluator.evaluate(duty) && evaluator.limits.broken < 0
}

function combination(problem: SweepProblem, plan: Plan, number: number): { parts: Parts; duty: number } {
  const { duties } = problem.candidates
  const unitNumber = Math.floor(number / duties.length)
  const node = plan.nodes[Math.floor(unitNumber / plan.units.length)] as PlanNode
  const unit = plan.units[unitNumber % plan.units.length] as PlanUnit
  return { parts: partsOf(problem, node, unit), duty: duties[number % duties.length] as number }
}
