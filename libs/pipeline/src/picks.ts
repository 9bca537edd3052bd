// The named picks, the first of the list and three more, with two refinements each, solved exactly after the sweep and outside the front: the lowest
// throttle that reaches the target, and the highest that every limit allows.
import { figure } from '@ductwright/contract/figures'
import type { Member, Pick, Refinement } from '@ductwright/contract/result'
import { namedPicks, type Scored } from '@ductwright/models/ranking/rank'
import { adviceOf } from './advice.js'
import type { Ceiling } from './binding.js'
import { LIMIT_WORDS } from './limit-words.js'
import type { WorkedSetup } from './member-of.js'
import type { RankedFront } from './members.js'
import { pickPhysics, type RefinedDuty } from './pick-physics.js'
import type { Prepared } from './prepare.js'
import { pickWhy } from './sentences.js'
import { narrowedTolerances, studyOf } from './study-of.js'
import { openTreatments } from './treatments.js'
import { budgetUsed, withBudget, withoutBudget, withoutCost } from './without-money.js'
import { openWork, workGains } from './work-gain.js'
import { WorkedBefore } from './worked-before.js'

export function picksOf(
  prepared: Prepared,
  { ranking, worked, front }: RankedFront,
  notes = WorkedBefore.none(),
): Pick[] {
  const { target: wanted, wishes } = prepared.request
  const target = wanted.speed
  const own = wishes.expression !== null
  const examined = new Map<number, Examined>()
  return namedPicks(ranking, target).map(({ pick, index }) => {
    const { raw } = ranking[index] as Scored
    const member = front[index] as Member
    const found = examined.get(index) ?? examine(prepared, member, worked[index] as WorkedSetup, front, notes)
    examined.set(index, found)
    const why = pickWhy(pick, { reached: raw.speed >= target, own })
    return { pick, rank: index + 1, why, ...found }
  })
}

/** What does not depend on why a setup is picked; one setup may be picked more than once. */
type Examined = Omit<Pick, 'pick' | 'rank' | 'why'>

function examine(
  prepared: Prepared,
  pick: Member,
  worked: WorkedSetup,
  front: readonly Member[],
  notes: WorkedBefore,
): Examined {
  const { request, problem, chosen, catalogue } = prepared
  const { combination, ceiling, detail, figures } = worked
  const { setup, duty } = combination
  const target = request.target.speed
  const flown = { circumstances: withoutBudget(problem.circumstances), parts: withoutCost(combination.parts), duty }
  const narrowed = narrowedTolerances(chosen, setup.pack, request.owned)
  const physics = { ...flown, nozzleRatio: setup.nozzle_ratio, target, narrowed }
  const found = notes.of('pick', { ...physics, ceiling }, pickPhysics)
  const done = chosen.treatments.map(({ kind }) => kind)
  const open = openTreatments(chosen.airframe, done, catalogue)
  const gains = notes.of('work-gains', openWork(flown, chosen, open), workGains)
  const money = budgetUsed(problem.circumstances, combination.parts)
  return {
    for_target: refinement(found.forTarget, money, `Just enough for ${figure('speed', target * 3.6)}.`),
    highest: refinement(found.highest, money, highestWords(ceiling)),
    study: studyOf({ setup, detail, figures, target, catalogue, open, gains }, found.study),
    advice: adviceOf(prepared, { pick, worked, front, open, gains }, notes),
    curves: found.curves,
  }
}

function refinement(refined: RefinedDuty | null, budget: number, words: string): Refinement | null {
  if (refined === null) return null
  const { duty } = refined
  const figures = withBudget(refined.figures, budget)
  return { duty, throttle_cap_a: figures.standing.pack_current_a, figures, words }
}

function highestWords(ceiling: Ceiling): string {
  if (ceiling.stopper === null) return 'Full throttle; no limit stops it.'
  return `The highest throttle that every limit allows; ${LIMIT_WORDS[ceiling.stopper]} stops more.`
}
