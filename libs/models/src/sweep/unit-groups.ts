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
  const groups = new Map<string, number[]>()
  for (const index of among) {
    const unit = units[index] as PlanUnit
    const key = `${unit.source.cells} ${candidates.escs[unit.esc]?.timings[unit.timing]}`
    const members = groups.get(key)
    if (members === undefined) groups.set(key, [index])
    else members.push(index)
  }
  return [...groups.values()].map((members) => {
    const first = units[members[0] as number] as PlanUnit
    const timing = (candidates.escs[first.esc] as Esc).timings[first.timing] as number
    const root = growTree(members, units, candidates, weights, boxes)
    return { cells: first.source.cells, timing, units: members, root }
  })
}
