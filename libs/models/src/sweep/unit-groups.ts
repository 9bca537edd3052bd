// Units with the same cell count and timing: together one tree of boxes, since speed and currents change with both at once.
// Controllers often share their timings, so many a tree is that of another timing with other units, and is copied.
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
  const unitOf = new Int32Array(units.length)
  const grown: {
    readonly cells: number
    readonly members: readonly number[]
    readonly from: number
    readonly root: number
  }[] = []
  return groups.map(({ cells, timing, members }) => {
    const from = boxes.length
    const like = grown.find((other) => other.cells === cells && areAlike(other.members, members, units))
    if (like !== undefined) {
      for (let i = 0; i < members.length; i++) unitOf[like.members[i] as number] = members[i] as number
      return { cells, timing, units: members, root: boxes.addLike(like.from, like.root, unitOf, timing) }
    }
    const root = growTree(members, units, candidates, weights, boxes)
    grown.push({ cells, members, from, root })
    return { cells, timing, units: members, root }
  })
}

/** Whether units are of the same parts and arrangement, one by one. */
function areAlike(some: readonly number[], others: readonly number[], units: readonly PlanUnit[]): boolean {
  if (some.length !== others.length) return false
  return some.every((index, i) => {
    const [unit, other] = [units[index] as PlanUnit, units[others[i] as number] as PlanUnit]
    return unit.esc === other.esc && unit.pack === other.pack && unit.arrangement === other.arrangement
  })
}
