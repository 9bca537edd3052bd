// What a certificate says of units it never met: every setup of a new unit that is settled with a node breaks a limit or is
// beaten by a member, as working all of them through shows.
import type { Listed } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { parseRequest } from '@ductwright/contract/parse-request'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import type { DutyBox } from '@ductwright/models/sweep/box-search'
import { type Certificate, WORKED_THROUGH } from '@ductwright/models/sweep/certificate'
import { certifyShard, type ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { compareAs, DIMENSIONS } from '@ductwright/models/sweep/objectives'
import { type PlanNode, type PlanUnit, partsOf } from '@ductwright/models/sweep/plan'
import { SettledUnits } from '@ductwright/models/sweep/settled-units'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { type Sweep, sweepChange } from '@ductwright/models/sweep/sweep-change'
import { UnitBoxes } from '@ductwright/models/sweep/unit-boxes'
import { groupUnits } from '@ductwright/models/sweep/unit-groups'
import { treeWeights } from '@ductwright/models/sweep/unit-tree'
import { prepare } from '@ductwright/pipeline/prepare'
import { expect, it } from 'vitest'
import { boundsCases, FIRST_SEED } from './config.js'
import { quiet, randomSweep } from './random-sweeps.js'

const CASES = boundsCases()

type Entry = Listed<{ readonly id: string }>

/** Half-way between two parts in every figure that is no whole number, the rest as of the first; as dear as the dearer. */
function between<Part extends Entry>(a: Part, b: Part, id: string): Part {
  const [one, other] = [a.part as Record<string, unknown>, b.part as Record<string, unknown>]
  const mean = Object.entries(one).map(([key, value]) => {
    const second = other[key]
    const isFigure = typeof value === 'number' && typeof second === 'number' && !Number.isInteger(value)
    return [key, isFigure ? (value + second) / 2 : value]
  })
  return { ...a, price: Math.max(a.price, b.price), part: { ...Object.fromEntries(mean), id } }
}

/** Every part with itself and with the others that take the same cells. */
function blends<Part extends Entry>(entries: readonly Part[], cells: string): Part[] {
  return entries.flatMap((a, i) =>
    entries
      .slice(i)
      .filter((b) => Reflect.get(a.part, cells) === Reflect.get(b.part, cells))
      .map((b, k) => between(a, b, `more-${i}-${k}`)),
  )
}

/** A random sweep, and the same with more controllers and packs: strange ones, and some between those it had. */
function grownSweep(seed: number): { readonly before: Sweep; readonly after: Sweep } {
  const { catalogue, request, prepared } = randomSweep(seed)
  const more = generateCatalogue({ seed: seed + 1_000_000, fans: 3, motors: 3, escs: 3, packs: 3, airframes: 1 })
  const strange = <Part extends Entry>(entries: readonly Part[]): Part[] =>
    entries.map((entry) => ({ ...entry, part: { ...entry.part, id: `strange-${entry.part.id}` } }))
  const escs = [...catalogue.escs, ...strange(more.escs), ...blends(catalogue.escs, 'cellsMin')]
  const packs = [...catalogue.packs, ...strange(more.packs), ...blends(catalogue.packs, 'cells')]
  return { before: prepared, after: prepare(parseRequest(request), sealCatalogue({ ...catalogue, escs, packs })) }
}

interface Grown {
  readonly boxes: UnitBoxes
  readonly settled: SettledUnits
  readonly roots: readonly { readonly cells: number; readonly root: number }[]
}

function grownUnits(before: Sweep, after: Sweep, newUnits: readonly number[]): Grown {
  const { problem, plan } = after
  const boxes = new UnitBoxes(2 * newUnits.length)
  const groups = groupUnits(plan.units, problem.candidates, treeWeights(problem), boxes, newUnits)
  const settled = new SettledUnits(before.plan, boxes, groups, problem.candidates.duties.length)
  return { boxes, settled, roots: groups }
}

function settleAll(settled: SettledUnits, certificate: Certificate, oldNode: number, node: number): void {
  const { nodes, boxes, lowest, highest, reasons } = certificate
  reasons.forEach((reason, row) => {
    const box = boxes[row] as number
    if (nodes[row] !== oldNode || reason === WORKED_THROUGH || !settled.concern(box)) return
    settled.settle(node, box, lowest[row] as number, highest[row] as number, reason)
  })
}

/** Keys of units and duties in some boxes. */
function opened(boxes: UnitBoxes, open: readonly DutyBox[]): Set<string> {
  const keys = new Set<string>()
  const visit = (box: number, from: number, to: number): void => {
    const unit = boxes.units[box] as number
    if (unit < 0) for (const half of [boxes.lefts[box], boxes.rights[box]]) visit(half as number, from, to)
    else for (let duty = from; duty <= to; duty++) keys.add(`${unit} ${duty}`)
  }
  for (const { box, lowest, highest } of open) visit(box, lowest, highest)
  return keys
}

/** Says whether a setup breaks a limit or is beaten, and counts which. */
class Judge {
  broken = 0
  beaten = 0
  readonly #evaluator: Evaluator
  readonly #cells = new Float64Array(DIMENSIONS)

  constructor(
    readonly sweep: Sweep,
    readonly members: ShardFront['members'],
  ) {
    this.#evaluator = new Evaluator(sweep.problem.circumstances)
    this.#evaluator.limits.nearShare.fill(0)
  }

  isSettled(node: number, unit: number, duty: number): boolean {
    const { problem, plan } = this.sweep
    const evaluator = this.#evaluator
    const parts = partsOf(problem, plan.nodes[node] as PlanNode, plan.units[unit] as PlanUnit)
    const value = problem.candidates.duties[duty] as number
    if (!(evaluator.assemble(parts) && evaluator.evaluate(value)) || evaluator.limits.broken >= 0) {
      this.broken++
      return true
    }
    compareAs(evaluator, problem.comparison, this.#cells, 0)
    const beaten = this.members.some(
      ({ cells }) =>
        cells.every((cell, i) => cell <= (this.#cells[i] as number)) &&
        cells.some((cell, i) => cell < (this.#cells[i] as number)),
    )
    if (beaten) this.beaten++
    return beaten
  }
}

it(`new units settled by the certificates of ${CASES} random sweeps are of no use`, () => {
  let [broken, beaten, open] = [0, 0, 0]
  for (let seed = FIRST_SEED; seed < FIRST_SEED + CASES; seed++) {
    const { before, after } = grownSweep(seed)
    const [range] = splitPlan(before.plan, 1)
    if (range === undefined) throw new Error('no shard')
    const { front, certificate } = certifyShard(before.problem, before.plan, range, quiet)
    const { nodes, newUnits } = sweepChange(before, after)
    const { boxes, settled, roots } = grownUnits(before, after, newUnits)
    const judge = new Judge(after, front.members)
    const { candidates } = after.problem
    nodes.forEach((node, oldNode) => {
      settleAll(settled, certificate, oldNode, node)
      const most = candidates.motors[(after.plan.nodes[node] as PlanNode).motor]?.cellsMax ?? 0
      const boxesLeft: DutyBox[] = []
      for (const { cells, root } of roots) if (cells <= most) settled.collect(node, root, boxesLeft)
      const left = opened(boxes, boxesLeft)
      open += left.size
      for (const unit of newUnits) {
        if ((after.plan.units[unit] as PlanUnit).source.cells > most) continue
        candidates.duties.forEach((_, duty) => {
          if (left.has(`${unit} ${duty}`)) return
          const isSettled = judge.isSettled(node, unit, duty)
          if (!isSettled) expect.fail(`sweep ${seed}: node ${node}, unit ${unit}, duty ${duty} holds and is not beaten`)
        })
      }
    })
    broken += judge.broken
    beaten += judge.beaten
  }
  // Both kinds of proof must have been tried, and not everything can be settled.
  expect(broken).toBeGreaterThan(100 * CASES)
  expect(beaten).toBeGreaterThan(CASES)
  expect(open).toBeGreaterThan(CASES)
})
