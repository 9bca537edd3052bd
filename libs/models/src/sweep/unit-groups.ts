// Units with the same cell count and timing: together one tree of boxes, since speed and currents change with both at once.
import type { Esc } from '../esc/esc.js'
import type { PlanUnit } from './plan.js'
import type { Candidates } from './problem.js'
import type { UnitBoxes } from './unit-boxes.js'
import { growTree, type TreeWeights } from './unit-tree.js'

export interface UnitGroup {
  readonly cells: number
  /** rad */
  readonly timing: number
  /** Indices of the plan's units. */
  readonly units: readonly number[]
  /** Place of the box of all of them. */
  readonly root: number
}

/** Groups units of a plan, all or some, in the order of their first members; their boxes are appended to `boxes`. */
export function groupUnits(
  units: readonly PlanUnit[],
  candidates: Candidates,
  weights: TreeWeights,
  boxes: UnitBoxes,
  among: Iterable<number> = units.keys(),
): UnitGroup[] {
  const groups: { readonly cells: number; readonly timing: number; readonly members: number[] }[] = []
  const known = new Map<number, Map<number, number[]>>()
  for (const index of among) {
    const { esc, timing: place, source } = units[index] as PlanUnit
    const timing = (candidates.escs[esc] as Esc).timings[place] as number
    const ofCells = known.get(source.cells) ?? new Map<number, number[]>()
    known.set(source.cells, ofCells)
    const members = ofCells.get(timing)
    if (members !== undefined) {
      members.push(index)
      continue
    }
    const first = [index]
    ofCells.set(timing, first)
    groups.push({ cells: source.cells, timing, members: first })
  }
  return groups.map(({ cells, timing, members }) => {
    const root = growTree(members, units, candidates, weights, boxes)
    return { cells, timing, units: members, root }
  })
}
