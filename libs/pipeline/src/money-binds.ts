// Whether only the budget stops the next faster setup: the cheapest one that outruns the whole list and holds every other
// limit. The fastest of the list are then bound by money, whatever else they use up.
import { figure, money } from '@ductwright/contract/figures'
import type { Member } from '@ductwright/contract/result'
import { searchLeast } from '@ductwright/models/relaxation/least-search'
import type { SweepProblem } from '@ductwright/models/sweep/problem'
import { cents } from './costs.js'
import { once } from './once.js'
import type { Prepared } from './prepare.js'
import { withoutBudget } from './without-money.js'
import { WorkedBefore } from './worked-before.js'

/** Faster by less does not count even where the request rounds nothing, m/s. */
const LEAST_STEP = 0.1 / 3.6

/** The front with what money binds said; the same where the budget is no limit or more money brings nothing. */
export function withMoneyBinds(
  prepared: Prepared,
  front: readonly Member[],
  notes = WorkedBefore.none(),
): readonly Member[] {
  const { problem, plan, request, catalogue } = prepared
  if (request.budget === null || front.length === 0) return front
  const fastest = Math.max(...front.map(({ raw }) => raw.speed_km_h)) / 3.6
  const step = Math.max(problem.comparison.resolution.speed, LEAST_STEP)
  const opened = { limit: 'budget', widest: Number.POSITIVE_INFINITY, speedFloor: fastest + step } as const
  const search = once(() => searchLeast(problem, plan, opened))
  // Whether there is one at any price is physics; which is the cheapest is not.
  const exists = notes.of('faster', physicsOf(problem, opened.speedFloor), () => search() !== null)
  const next = exists ? search() : null
  if (next === null) return front
  const over = cents(next.cost - request.budget)
  const words = `only the budget stops the next faster setup: ${figure('speed', next.speed * 3.6)} takes ${money(over, catalogue.currency)} more than allowed`
  const top = Math.max(...front.map(({ compared }) => compared.speed_km_h))
  return front.map((member) =>
    member.compared.speed_km_h === top ? { ...member, binds: { kind: 'money', words } } : member,
  )
}

/** All that decides whether some combination is faster than that and holds every limit but the budget. */
function physicsOf({ circumstances, candidates }: SweepProblem, speedFloor: number) {
  const { pairCost: _, escCost: __, packCost: ___, fixedCost: ____, ...parts } = candidates
  return { circumstances: withoutBudget(circumstances), parts, speedFloor }
}
