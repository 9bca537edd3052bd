// The named picks, the first of the list and three more, with two refinements each, solved exactly after the sweep and outside the front: the lowest
// throttle that reaches the target, and the highest that every limit allows.
import type { SetupCurves } from '@ductwright/contract/curves'
import { figure } from '@ductwright/contract/figures'
import type { Member, Pick, Refinement, SetupStudy } from '@ductwright/contract/result'
import { dutyForSpeed, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { namedPicks, type Scored } from '@ductwright/models/ranking/rank'
import { adviceOf } from './advice.js'
import { bindingWords, type Ceiling } from './binding.js'
import { setupCurves } from './curves.js'
import { figuresOf, plainly } from './figures-of.js'
import { timelineOf } from './flight-figures.js'
import { LIMIT_WORDS } from './limit-words.js'
import type { Combination, WorkedSetup } from './member-of.js'
import type { RankedFront } from './members.js'
import type { Prepared } from './prepare.js'
import { pickWhy } from './sentences.js'
import { studyOf } from './study-of.js'

export function picksOf(prepared: Prepared, { ranking, worked, front }: RankedFront): Pick[] {
  const { target: wanted, wishes } = prepared.request
  const target = wanted.speed
  const own = wishes.expression !== null
  const examined = new Map<number, Examined>()
  return namedPicks(ranking, target).map(({ pick, index }) => {
    const { raw } = ranking[index] as Scored
    const member = front[index] as Member
    const found = examined.get(index) ?? examine(prepared, member, worked[index] as WorkedSetup, front)
    examined.set(index, found)
    const why = pickWhy(pick, { reached: raw.speed >= target, own })
    return { pick, rank: index + 1, why, ...found }
  })
}

/** What does not depend on why a setup is picked; one setup may be picked more than once. */
type Examined = Omit<Pick, 'pick' | 'rank' | 'why'>

function examine(prepared: Prepared, member: Member, setup: WorkedSetup, front: readonly Member[]): Examined {
  const target = prepared.request.target.speed
  const { combination, ceiling } = setup
  return {
    for_target: forTarget(prepared, combination, ceiling, target),
    highest: refinement(prepared, combination, ceiling.duty, ceiling, highestWords(ceiling)),
    study: studyOfPick(prepared, setup, target),
    advice: adviceOf(prepared, member, setup, front),
    curves: curvesOfPick(prepared, setup, target),
  }
}

/** Rounded like every other figure. */
function curvesOfPick(prepared: Prepared, { combination, detail }: WorkedSetup, target: number): SetupCurves {
  const { circumstances } = prepared.problem
  const { parts, duty } = combination
  const timeline = timelineOf(circumstances, parts, duty, detail)
  const curves = setupCurves({ circumstances, parts, duty, target, timeline })
  if (curves === null) throw new Error('a setup of the front has no curves')
  return plainly(curves)
}

/** The pick at the throttle of the sweep. */
function studyOfPick(prepared: Prepared, { combination, detail, figures }: WorkedSetup, target: number): SetupStudy {
  const { problem, chosen, catalogue, request } = prepared
  const { parts, duty, setup } = combination
  return studyOf({
    circumstances: problem.circumstances,
    setup,
    parts,
    duty,
    detail,
    figures,
    chosen,
    catalogue,
    owned: request.owned,
    target,
  })
}

function forTarget(prepared: Prepared, combination: Combination, ceiling: Ceiling, target: number): Refinement | null {
  const duty = dutyForSpeed(prepared.problem.circumstances, combination.parts, target)
  if (duty === null || duty > ceiling.duty) return null
  return refinement(prepared, combination, duty, ceiling, `Just enough for ${figure('speed', target * 3.6)}.`)
}

function refinement(
  prepared: Prepared,
  combination: Combination,
  duty: number,
  ceiling: Ceiling,
  words: string,
): Refinement | null {
  const { parts, setup } = combination
  const detail = setupDetail(prepared.problem.circumstances, parts, duty)
  if ('refused' in detail) return null
  const rounded = Math.round(duty * 1e4) / 1e4
  const figures = figuresOf(detail, parts.node.duct.fan, setup.nozzle_ratio, bindingWords(detail, ceiling))
  return { duty: rounded, throttle_cap_a: figures.standing.pack_current_a, figures, words }
}

function highestWords(ceiling: Ceiling): string {
  if (ceiling.stopper === null) return 'Full throttle; no limit stops it.'
  return `The highest throttle that every limit allows; ${LIMIT_WORDS[ceiling.stopper]} stops more.`
}
