// The front after a catalogue changed, from the certificate of the front before, without searching again what still holds.
//
// Why it is the front of searching everything. Every new combination is met in one of three ways.
// 1. Its node is new: the node is searched with all it takes.
// 2. Its node stands (sweep-change.ts) but its unit is new: it is settled by a row of its node that holds and encloses it
//    (settled-units.ts), or searched in trees of the new units.
// 3. Both stand: it lies in exactly one row, since rows tile the sweep. A row that holds puts it away; one that does not is
//    searched again, in the old boxes less what is gone. Extremes over more units than are left bound those that are.
// When a row holds:
// - A limit that all of it breaks depends on the parts of a combination only, so it is broken still, whatever else came or
//   went; the budget where the node costs no less than before.
// - What a member of the front before beat, with w ≤ bound in every compared value and < in one, is beaten while the front
//   has any m ≤ w: then m ≤ w ≤ bound, and < in that one. A front that grows only trades a member for one that is no worse,
//   so it need not be looked at again. Where the node costs less than before, the bound is none any more.
// - What was worked through and is no member broke a limit, or was beaten or outdone in its cell by a member. While all of
//   these stand, and its node costs no less, that is so still: ties go by number last, and standing ones keep their order.
// All that is found is offered to one front with the numbers of the new plan, and that does not depend on the order.
//
// The certificate speaks of the boxes of its own plan, and none is made here: later changes start from the same sweep, each
// time against what is new by then, until a whole run renews it.

import { type DutyBox, type SearchHooks, SweepCancelled } from './box-search.js'
import { type Certificate, WORKED_THROUGH, witnessReason } from './certificate.js'
import { numberOf, placesOf } from './combination-number.js'
import { type ShardFront, shardFrontOf } from './evaluate-shard.js'
import { Front } from './front.js'
import { mergeFronts } from './merge.js'
import type { Plan } from './plan.js'
import { isCostly } from './proof-sides.js'
import { cellsMax, rootBoxes } from './root-boxes.js'
import { FrontSearch } from './search-front.js'
import { SettledUnits } from './settled-units.js'
import { type Sweep, type SweepChange, sweepChange, unlikeness } from './sweep-change.js'
import { UnitBoxes } from './unit-boxes.js'
import { groupUnits } from './unit-groups.js'
import { treeWeights } from './unit-tree.js'

/** A whole sweep with its front and why nothing else is in it. */
export interface CertifiedSweep extends Sweep {
  readonly members: ShardFront['members']
  readonly certificate: Certificate
}

export type ChangedFront =
  /** All members; counts are of what was searched again. */
  | { readonly kind: 'found'; readonly front: ShardFront }
  /** Nothing can be taken over, or too little to be worth it. */
  | { readonly kind: 'whole-run-needed'; readonly reason: string }

/**
 * Finds the front of the changed sweep.
 * @param boxesMost once more boxes than this are bounded, a whole run is asked for instead
 * @throws SweepCancelled when the hooks say so
 * @throws RangeError when the certificate is not of the plan beside it
 */
export function searchChange(
  before: CertifiedSweep,
  after: Sweep,
  hooks: SearchHooks,
  boxesMost = Number.POSITIVE_INFINITY,
): ChangedFront {
  const reason = unlikeness(before.problem, after.problem)
  if (reason !== null) return { kind: 'whole-run-needed', reason }
  refuseOtherPlan(before)
  const search = new ChangeSearch(before, after, hooks, boxesMost)
  try {
    return { kind: 'found', front: search.run() }
  } catch (error) {
    if (!(error instanceof SweepCancelled && search.isTooLong)) throw error
    return { kind: 'whole-run-needed', reason: `more than ${boxesMost} boxes would be searched again` }
  }
}

function refuseOtherPlan({ plan, certificate: { nodes, boxes } }: CertifiedSweep): void {
  for (let row = 0; row < nodes.length; row++) {
    if ((nodes[row] as number) < plan.nodes.length && (boxes[row] as number) < plan.boxes.length) continue
    throw new RangeError('a certificate must be used with the plan it was made from')
  }
}

class ChangeSearch {
  readonly #before: CertifiedSweep
  readonly #after: Sweep
  readonly #hooks: SearchHooks
  readonly #change: SweepChange
  readonly #front = new Front()
  /** Whether all members before stand at the same cost. */
  readonly #allStand: boolean
  readonly #boxesMost: number
  readonly #searches: FrontSearch[] = []

  constructor(before: CertifiedSweep, after: Sweep, hooks: SearchHooks, boxesMost: number) {
    this.#before = before
    this.#after = after
    this.#boxesMost = boxesMost
    this.#hooks = { settled: hooks.settled, cancelled: () => hooks.cancelled() || this.isTooLong }
    this.#change = sweepChange(before, after)
    const { nodes, units, nodeCosts } = this.#change
    this.#allStand = before.members.every(({ number }) => {
      const { node, unit } = placesOf(before.problem, before.plan, number)
      return (nodes[node] as number) >= 0 && nodeCosts[node] === 0 && (units[unit] as number) >= 0
    })
  }

  get isTooLong(): boolean {
    return this.#searches.reduce((sum, { boxes }) => sum + boxes, 0) > this.#boxesMost
  }

  /** New nodes first: what they hold may beat what a lost member beat. */
  run(): ShardFront {
    const { plan } = this.#after
    const newNodeBoxes = this.#change.newNodes.flatMap((node) => rootBoxes(this.#after, node))
    this.#search(plan, newNodeBoxes, this.#heirs())
    if (this.#change.newUnits.length > 0) this.#searchNewUnits()
    const { boxes, cores } = this.#before.plan.boxes.keeping(this.#change.units)
    this.#search({ ...plan, boxes }, this.#doubtfulBoxes(cores))
    return { ...mergeFronts(this.#searches.map(shardFrontOf)), members: this.#front.members() }
  }

  #search(plan: Plan, boxes: readonly DutyBox[], seeds: readonly number[] = []): void {
    const search = new FrontSearch(this.#after.problem, plan, this.#hooks, null, this.#front)
    this.#searches.push(search)
    search.plant(seeds)
    search.searchBoxes(boxes)
  }

  /** New numbers of what has the same ids as a member before: itself, or what became of it. */
  #heirs(): number[] {
    const { problem, plan, members } = this.#before
    const { nodeHeirs, unitHeirs } = this.#change
    return members.flatMap(({ number }) => {
      const places = placesOf(problem, plan, number)
      const [node, unit] = [nodeHeirs[places.node] as number, unitHeirs[places.unit] as number]
      if (node < 0 || unit < 0) return []
      return [numberOf(this.#after.problem, this.#after.plan, { node, unit, duty: places.duty })]
    })
  }

  #searchNewUnits(): void {
    const { problem, plan } = this.#after
    const { newUnits } = this.#change
    const boxes = new UnitBoxes(2 * newUnits.length)
    const groups = groupUnits(plan.units, problem.candidates, treeWeights(problem), boxes, newUnits)
    const settled = new SettledUnits(this.#before.plan, boxes, groups, problem.candidates.duties.length)
    const open: DutyBox[] = []
    const rows = rowsByNode(this.#before)
    const holds = this.#holding()
    this.#change.nodes.forEach((node, oldNode) => {
      if (node < 0) return
      this.#settleBy(rows(oldNode), holds, settled)
      for (const { cells, root } of groups) if (cells <= cellsMax(this.#after, node)) settled.collect(node, root, open)
    })
    this.#search({ ...plan, boxes, groups }, open)
  }

  #settleBy(rows: Int32Array, holds: (row: number) => boolean, settled: SettledUnits): void {
    const { nodes, boxes, lowest, highest, reasons } = this.#before.certificate
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i] as number
      const box = boxes[row] as number
      const reason = reasons[row] as number
      if (!settled.concern(box) || reason === WORKED_THROUGH || !holds(row)) continue
      const node = this.#change.nodes[nodes[row] as number] as number
      settled.settle(node, box, lowest[row] as number, highest[row] as number, reason)
    }
  }

  /** What is left of the rows that do not hold. */
  #doubtfulBoxes(cores: Int32Array): DutyBox[] {
    const { nodes, boxes, lowest, highest } = this.#before.certificate
    const holds = this.#holding()
    const open: DutyBox[] = []
    for (let row = 0; row < nodes.length; row++) {
      const node = this.#change.nodes[nodes[row] as number] as number
      if (node < 0 || holds(row)) continue
      const box = cores[boxes[row] as number] as number
      if (box >= 0) open.push({ node, box, lowest: lowest[row] as number, highest: highest[row] as number })
    }
    return open
  }

  /** Whether a row still holds for what stands of it, by the front so far. */
  #holding(): (row: number) => boolean {
    const { members, certificate } = this.#before
    const { nodes, reasons } = certificate
    const { nodeCosts } = this.#change
    const beaten = members.map(({ cells }) => this.#front.reaches(Float64Array.from(cells)))
    return (row) => {
      const reason = reasons[row] as number
      const isCheaper = (nodeCosts[nodes[row] as number] as number) < 0
      if (reason === WORKED_THROUGH) return this.#allStand && !isCheaper
      if (isCostly(reason) && isCheaper) return false
      return reason >= 0 || beaten[witnessReason(reason)] === true
    }
  }
}

/** Rows of each node of a certificate. */
function rowsByNode({ plan, certificate: { nodes } }: CertifiedSweep): (node: number) => Int32Array {
  const ends = new Int32Array(plan.nodes.length + 1)
  for (let row = 0; row < nodes.length; row++) {
    const after = (nodes[row] as number) + 1
    ends[after] = (ends[after] as number) + 1
  }
  for (let node = 0; node < plan.nodes.length; node++)
    ends[node + 1] = (ends[node + 1] as number) + (ends[node] as number)
  const starts = ends.slice()
  const rows = new Int32Array(nodes.length)
  for (let row = 0; row < nodes.length; row++) {
    const place = starts[nodes[row] as number] as number
    rows[place] = row
    starts[nodes[row] as number] = place + 1
  }
  return (node) => rows.subarray(ends[node], ends[node + 1])
}
