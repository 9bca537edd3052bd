// What is new of a sweep after its catalogue changed: combinations of a node that is new or costs another sum with all it
// takes, and of any other node with a new unit. All the rest works out as before to the last bit and cent (sweep-change.ts),
// so whoever knows the best of all combinations before has only these to search.
import type { DutyBox } from './box-search.js'
import { numberOf, placesOf } from './combination-number.js'
import type { Plan } from './plan.js'
import { rootBoxes } from './root-boxes.js'
import { type Sweep, sweepChange, unlikeness } from './sweep-change.js'
import { groupUnits } from './unit-groups.js'
import { treeWeights } from './unit-tree.js'

export interface ChangedCombinations {
  /** Nodes, units and numbers of the changed sweep; its boxes, and after them those of the new units. */
  readonly plan: Plan
  /** Places in these boxes that together hold all that is new. */
  readonly boxes: readonly DutyBox[]
  /** New number of the combination of the same parts and settings; −1: there is none. */
  heirOf(number: number): number
  /** Whether that works out as before. */
  stands(number: number): boolean
}

/** More than this share of all combinations is as well searched with the rest. */
const MOST_SHARE = 0.5

/** null where two sweeps ask another question, or most of the combinations are new. */
export function changedCombinations(before: Sweep, after: Sweep): ChangedCombinations | null {
  if (unlikeness(before.problem, after.problem) !== null) return null
  const { problem, plan } = after
  const { nodes, units, nodeCosts, nodeHeirs, unitHeirs, newNodes, newUnits } = sweepChange(before, after)
  const standing = nodes.filter((node, old) => node >= 0 && nodeCosts[old] === 0)
  const repriced = nodes.filter((node, old) => node >= 0 && nodeCosts[old] !== 0)
  const old = standing.length * (plan.units.length - newUnits.length)
  if (old < (1 - MOST_SHARE) * plan.nodes.length * plan.units.length) return null

  const boxes = newUnits.length === 0 ? plan.boxes : plan.boxes.withRoom(2 * newUnits.length)
  const groups = groupUnits(plan.units, problem.candidates, treeWeights(problem), boxes, newUnits)
  return {
    plan: { ...plan, boxes },
    boxes: [
      ...[...newNodes, ...repriced].flatMap((node) => rootBoxes(after, node)),
      ...[...standing].flatMap((node) => rootBoxes(after, node, groups)),
    ],
    heirOf(number) {
      const { node, unit, duty } = placesOf(before.problem, before.plan, number)
      const heirs = { node: nodeHeirs[node] as number, unit: unitHeirs[unit] as number, duty }
      return heirs.node < 0 || heirs.unit < 0 ? -1 : numberOf(problem, plan, heirs)
    },
    stands(number) {
      const { node, unit } = placesOf(before.problem, before.plan, number)
      return (nodes[node] as number) >= 0 && nodeCosts[node] === 0 && (units[unit] as number) >= 0
    },
  }
}
