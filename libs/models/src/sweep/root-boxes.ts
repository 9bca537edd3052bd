// Where a search of a node begins: one box of each group of units whose cells its motor takes, at all duties.
import type { DutyBox } from './box-search.js'
import type { Sweep } from './sweep-change.js'
import type { UnitGroup } from './unit-groups.js'

/** @param groups those of the plan, or of some of its units */
export function rootBoxes(sweep: Sweep, node: number, groups: readonly UnitGroup[] = sweep.plan.groups): DutyBox[] {
  const most = cellsMax(sweep, node)
  const highest = sweep.problem.candidates.duties.length - 1
  return groups.filter(({ cells }) => cells <= most).map(({ root }) => ({ node, box: root, lowest: 0, highest }))
}

/** Most cells the motor of a node takes. */
export function cellsMax({ problem, plan }: Sweep, node: number): number {
  return problem.candidates.motors[plan.nodes[node]?.motor ?? -1]?.cellsMax ?? 0
}
