// Whether a fan of another size would reach the target with everything else held: what the duct takes is opened, and the cheapest
// setup with such a fan is looked for. Asked only when nothing that the owner has set would do.
import { searchLeast } from '@ductwright/models/relaxation/least-search'
import { planSweep } from '@ductwright/models/sweep/plan'
import { combinationOf } from './member-of.js'
import type { Prepared } from './prepare.js'

/** Diameter of the fan, mm; null when no size would do. */
export function fanSizeThatWould(prepared: Prepared): number | null {
  const { circumstances } = prepared.problem
  const airframe = { ...circumstances.airframe, fanDiameterMin: 0, fanDiameterMax: Number.POSITIVE_INFINITY }
  const problem = { ...prepared.problem, circumstances: { ...circumstances, airframe } }
  const plan = planSweep(problem)
  const opened = {
    limit: 'budget',
    widest: circumstances.limits.budget,
    speedFloor: prepared.request.target.speed,
  } as const
  const found = searchLeast(problem, plan, opened)
  if (found === null) return null
  const { parts } = combinationOf({ ...prepared, problem, plan }, found.number)
  return parts.node.duct.fan.tipDiameter * 1000
}
