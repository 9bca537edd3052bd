// The physics of a setup apart from its money: circumstances without a budget and parts that cost nothing. A setup that holds
// its budget flies the same either way, so what is worked out from these stays true when prices change. What is said of the
// budget is put in afterwards.
import type { SetupFigures } from '@ductwright/contract/result'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { bounded, plain } from './figures-of.js'
import { LIMIT_WORDS } from './limit-words.js'

/** One object for each, so that its text is made once. */
const FREE = new WeakMap<Circumstances, Circumstances>()

export function withoutBudget(circumstances: Circumstances): Circumstances {
  const known = FREE.get(circumstances)
  if (known !== undefined) return known
  const free = { ...circumstances, limits: { ...circumstances.limits, budget: Number.POSITIVE_INFINITY } }
  FREE.set(circumstances, free)
  return free
}

export function withoutCost(parts: Parts): Parts {
  return { ...parts, cost: 0 }
}

/** Share of the budget that parts use. */
export function budgetUsed({ limits }: Circumstances, { cost }: Parts): number {
  return cost > 0 ? cost / limits.budget : 0
}

/** Figures worked out without money, with what is used of the budget: the first of the limits, as judged. */
export function withBudget(figures: SetupFigures, used: number): SetupFigures {
  if (!(used > 0)) return figures
  const budget = { limit: 'budget', words: LIMIT_WORDS.budget, used: plain(bounded(used)) } as const
  return { ...figures, limits: [budget, ...figures.limits] }
}
