// The number of a combination: (node·units + unit)·duties + duty, which orders combinations by part ids since candidates come
// sorted. Numbers pass 2³² but stay exact below 2⁵³.
import type { Plan } from './plan.js'
import type { SweepProblem } from './problem.js'

/** Indices into the plan's nodes and units and the problem's duties. */
export interface Places {
  readonly node: number
  readonly unit: number
  readonly duty: number
}

export function numberOf(problem: SweepProblem, plan: Plan, { node, unit, duty }: Places): number {
  return (node * plan.units.length + unit) * problem.candidates.duties.length + duty
}

export function placesOf(problem: SweepProblem, plan: Plan, number: number): Places {
  const duties = problem.candidates.duties.length
  const pair = Math.floor(number / duties)
  return { node: Math.floor(pair / plan.units.length), unit: pair % plan.units.length, duty: number % duties }
}
