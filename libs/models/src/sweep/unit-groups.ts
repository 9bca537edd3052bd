// Units with the same cell count and timing: together one tree of boxes, since speed and currents change with both at once.
import type { Esc } from '../esc/esc.js'
import type { PlanUnit } from './plan.js'
import type { Candidates } from './problem.js'
import { growTree, type TreeWeights, type UnitBox } from './unit-tree.js'

export interface UnitGroup {
  readonly cells: number
  /** rad */
  readonly timing: number
  /** Indices of the plan's units. */
  readonly units: readonly number[]
  readonly tree: UnitBox
}

/** Groups the units of a plan, in the order of their first members; their boxes are appended to `boxes`. */
export function groupUnits(
  units: readonly PlanUnit[],
  candidates: Candidates,
  weights: TreeWeights,
  boxes: UnitBox[],
): UnitGroup[] {
  const groups = new Map<string, number[]>()
  units.forEach((unit, index) => {
    const key = `${unit.source.cells} ${candidates.escs[unit.esc]?.timings[unit.timing]}`
    const members = groups.get(key)
    if (members === undefined) groups.set(key, [index])
    else members.push(index)
  })
  return [...groups.values()].map((members) => {
    const first = units[members[0] as number] as PlanUnit
    const timing = (candidates.escs[first.esc] as Esc).timings[first.timing] as number
    const tree = growTree(members, units, candidates, timing, weights, boxes)
    return { cells: first.source.cells, timing, units: members, tree }
  })
}
