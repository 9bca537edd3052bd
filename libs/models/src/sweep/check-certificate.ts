// Checks a certificate without searching: that its boxes tile the sweep, that each limit it names is broken by all of its box,
// that each witness beats all of its box, and that what was worked through holds nothing better. With the members worked
// through again, that proves the front to be the front of everything.
import { Evaluator } from '../evaluation/evaluator.js'
import { Bounds } from './bounds.js'
import { type Certificate, WORKED_THROUGH, witnessReason } from './certificate.js'
import { numberOf } from './combination-number.js'
import type { ShardFront } from './evaluate-shard.js'
import { compareAs, DIMENSIONS, type Objectives, tieOrder } from './objectives.js'
import { type Plan, type PlanNode, type PlanUnit, partsOf } from './plan.js'
import type { SweepProblem } from './problem.js'

/** First faults of a certificate in words; empty when it proves `members` to be the front. */
export function certificateFaults(
  problem: SweepProblem,
  plan: Plan,
  members: ShardFront['members'],
  certificate: Certificate,
  most = 10,
): string[] {
  const checker = new CertificateChecker(problem, plan, members)
  const faults = tilingFaults(problem, plan, certificate)
  for (let row = 0; row < certificate.reasons.length && faults.length < most; row++) {
    const fault = checker.faultOf(certificate, row)
    if (fault !== null) faults.push(`row ${row}: ${fault}`)
  }
  const missing = members.filter(({ number }) => !checker.met.has(number))
  return [...faults, ...missing.map(({ number }) => `member ${number} was not found where it should be`)].slice(0, most)
}

/** Every combination that fits lies in exactly one box: marked in a grid of leaves and duties, node by node. */
function tilingFaults(problem: SweepProblem, plan: Plan, certificate: Certificate): string[] {
  const duties = problem.candidates.duties.length
  const rowsOf = new Map<number, number[]>()
  certificate.nodes.forEach((node, row) => {
    const rows = rowsOf.get(node)
    if (rows === undefined) rowsOf.set(node, [row])
    else rows.push(row)
  })
  const leaves = leafRanges(plan)
  const grid = new Uint8Array(plan.units.length * duties)
  return plan.nodes.flatMap(({ motor }, node) => {
    grid.fill(0)
    for (const row of rowsOf.get(node) ?? []) mark(grid, duties, leaves, certificate, row)
    const most = problem.candidates.motors[motor]?.cellsMax ?? 0
    const wrong = plan.groups.some(({ cells, root }) => {
      const [from, to] = leaves[root] as [number, number]
      return !isAll(grid, cells <= most ? 1 : 0, from * duties, to * duties)
    })
    return wrong ? [`boxes of node ${node} do not tile its combinations`] : []
  })
}

function isAll(grid: Uint8Array, value: number, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (grid[i] !== value) return false
  return true
}

function mark(
  grid: Uint8Array,
  duties: number,
  leaves: readonly (readonly [number, number])[],
  { boxes, lowest, highest }: Certificate,
  row: number,
): void {
  const [from, to] = leaves[boxes[row] as number] as [number, number]
  for (let leaf = from; leaf < to; leaf++) {
    for (let duty = lowest[row] as number; duty <= (highest[row] as number); duty++)
      grid[leaf * duties + duty] = (grid[leaf * duties + duty] as number) + 1
  }
}

/** The stretch of leaves under each box, leaves counted in the order of the trees. */
function leafRanges({ boxes }: Plan): (readonly [number, number])[] {
  const ranges: (readonly [number, number])[] = []
  let leaves = 0
  for (let box = 0; box < boxes.length; box++) {
    const [left, right] = [boxes.lefts[box] as number, boxes.rights[box] as number]
    if (left < 0) ranges.push([leaves, ++leaves])
    else ranges.push([(ranges[left] as [number, number])[0], (ranges[right] as [number, number])[1]])
  }
  return ranges
}

class CertificateChecker {
  /** Members met among what was worked through. */
  readonly met = new Set<number>()
  readonly #problem: SweepProblem
  readonly #plan: Plan
  readonly #members: ShardFront['members']
  readonly #evaluator: Evaluator
  readonly #bounds: Bounds
  readonly #cells = new Float64Array(DIMENSIONS)

  constructor(problem: SweepProblem, plan: Plan, members: ShardFront['members']) {
    this.#problem = problem
    this.#plan = plan
    this.#members = members
    this.#evaluator = new Evaluator(problem.circumstances)
    this.#evaluator.limits.nearShare.fill(0)
    this.#bounds = new Bounds(problem, plan.boxes, this.#evaluator.limits)
  }

  faultOf({ nodes, boxes, lowest, highest, reasons }: Certificate, row: number): string | null {
    const node = nodes[row] as number
    const box = boxes[row] as number
    const [from, to] = [lowest[row] as number, highest[row] as number]
    const reason = reasons[row] as number
    if (reason === WORKED_THROUGH) return this.#workedFault(node, box, from, to)
    if (reason >= 0) return this.#proves(node, box, from, to, reason) ? null : `limit ${reason} is not proved broken`
    const witness = this.#members[witnessReason(reason)]
    if (witness === undefined) return `there is no member in place ${witnessReason(reason)}`
    return this.#beats(node, box, from, to, witness) ? null : `member ${witness.number} does not beat all of the box`
  }

  /** Whether a bound proves a limit broken; as in the search, in the order of its steps. */
  #proves(node: number, box: number, from: number, to: number, limit: number): boolean {
    const bounds = this.#bounds
    const { duties } = this.#problem.candidates
    const [low, high] = [duties[from] as number, duties[to] as number]
    const broken = bounds.take(this.#plan.nodes[node] as PlanNode, box)
    if (broken >= 0) return broken === limit
    return (
      bounds.lacking(high) === limit ||
      bounds.exceeding(low) === limit ||
      bounds.boundSpeed(high) === limit ||
      bounds.boundRest(low) === limit
    )
  }

  #beats(node: number, box: number, from: number, to: number, witness: ShardFront['members'][number]): boolean {
    const bounds = this.#bounds
    const { duties } = this.#problem.candidates
    if (bounds.take(this.#plan.nodes[node] as PlanNode, box) >= 0) return false
    bounds.boundSpeed(duties[to] as number)
    bounds.boundRest(duties[from] as number)
    compareAs(bounds, this.#problem.comparison, this.#cells, 0)
    const { cells } = witness
    const noWorse = cells.every((value, i) => value <= (this.#cells[i] as number))
    return noWorse && cells.some((value, i) => value < (this.#cells[i] as number))
  }

  /** A setup that holds every limit must be a member, or be as good as none: beaten, or equal and behind by the tie rule. */
  #workedFault(node: number, box: number, from: number, to: number): string | null {
    const unit = this.#plan.boxes.units[box] as number
    if (unit < 0) return 'a box of several units cannot have been worked through'
    const evaluator = this.#evaluator
    const parts = partsOf(this.#problem, this.#plan.nodes[node] as PlanNode, this.#plan.units[unit] as PlanUnit)
    for (let duty = from; duty <= to; duty++) {
      const value = this.#problem.candidates.duties[duty] as number
      if (!(evaluator.assemble(parts) && evaluator.evaluate(value)) || evaluator.limits.broken >= 0) continue
      const number = numberOf(this.#problem, this.#plan, { node, unit, duty })
      if (!this.#isAnswered(evaluator, number)) return `setup ${number} is beaten by no member`
    }
    return null
  }

  #isAnswered(objectives: Objectives, number: number): boolean {
    compareAs(objectives, this.#problem.comparison, this.#cells, 0)
    const answer = this.#members.find(({ cells }) => cells.every((value, i) => value <= (this.#cells[i] as number)))
    if (answer === undefined) return false
    if (answer.number === number) this.met.add(number)
    const equal = answer.cells.every((value, i) => value === this.#cells[i])
    return !equal || tieOrder(answer.raw, answer.number, objectives, number) <= 0
  }
}
