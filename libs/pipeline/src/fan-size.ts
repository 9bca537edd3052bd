// Whether a fan of another size would reach the target with everything else held: the cheapest setup with a fan that the duct
// does not take is looked for. Asked only when nothing that the owner has set would do, and nothing that fits reaches the target.
import { searchLeast } from '@ductwright/models/relaxation/least-search'
import { planOtherFans } from '@ductwright/models/sweep/plan'
import { combinationOf } from './member-of.js'
import type { Prepared } from './prepare.js'

/** Diameter of the fan, mm; null when no size would do. */
export function fanSizeThatWould(prepared: Prepared, cancelled: () => boolean): number | null {
  const { problem, request } = prepared
  const plan = planOtherFans(problem, prepared.plan)
  const opened = {
    limit: 'budget',
    widest: problem.circumstances.limits.budget,
    speedFloor: request.target.speed,
  } as const
  const found = searchLeast(problem, plan, opened, cancelled)
  if (found === null) return null
  const { parts } = combinationOf({ ...prepared, plan }, found.number)
  return parts.node.duct.fan.tipDiameter * 1000
}
