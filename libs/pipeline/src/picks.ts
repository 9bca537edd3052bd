// The three named picks with two refinements each, solved exactly after the sweep and outside the front: the lowest
// throttle that reaches the target, and the highest that every limit allows.
import { figure } from '@ductwright/contract/figures'
import type { Pick, Refinement, SetupStudy } from '@ductwright/contract/result'
import { dutyForSpeed, highestDuty, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { namedPicks, type Scored } from '@ductwright/models/ranking/rank'
import { bindingWords, type Ceiling } from './binding.js'
import { figuresOf } from './figures-of.js'
import { LIMIT_WORDS } from './limit-words.js'
import { type Combination, detailOf } from './member-of.js'
import type { Prepared } from './prepare.js'
import { pickWhy } from './sentences.js'
import { studyOf } from './study-of.js'

export function picksOf(prepared: Prepared, ranking: readonly Scored[], combinations: readonly Combination[]): Pick[] {
  const target = prepared.request.target.speed
  return namedPicks(ranking, target).map(({ pick, index }) => {
    const { raw } = ranking[index] as Scored
    const combination = combinations[index] as Combination
    const objectives = { speed_km_h: raw.speed * 3.6, flight_time_s: raw.time, cost: raw.cost, margin: raw.margin }
    const ceiling = highestDuty(prepared.problem.circumstances, combination.parts, combination.duty)
    return {
      pick,
      rank: index + 1,
      why: pickWhy(pick, objectives, raw.speed >= target, prepared.catalogue.currency),
      for_target: forTarget(prepared, combination, ceiling, target),
      highest:
        ceiling === null ? null : refinement(prepared, combination, ceiling.duty, ceiling, highestWords(ceiling)),
      study: studyOfPick(prepared, combination, target),
    }
  })
}

/** The pick at the throttle of the sweep. */
function studyOfPick(prepared: Prepared, combination: Combination, target: number): SetupStudy {
  const { problem, chosen, catalogue, request } = prepared
  const { parts, duty, setup } = combination
  const detail = detailOf(prepared, parts, duty)
  return studyOf({
    circumstances: problem.circumstances,
    setup,
    parts,
    duty,
    detail,
    figures: figuresOf(detail, parts.node.duct.fan, setup.nozzle_ratio, ''),
    chosen,
    catalogue,
    owned: request.owned,
    target,
  })
}

function forTarget(
  prepared: Prepared,
  combination: Combination,
  ceiling: Ceiling | null,
  target: number,
): Refinement | null {
  const duty = dutyForSpeed(prepared.problem.circumstances, combination.parts, target)
  if (duty === null || ceiling === null || duty > ceiling.duty) return null
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
  return {
    duty: rounded,
    figures: figuresOf(detail, parts.node.duct.fan, setup.nozzle_ratio, bindingWords(detail, ceiling)),
    words,
  }
}

function highestWords(ceiling: Ceiling): string {
  if (ceiling.stopper === null) return 'Full throttle; no limit stops it.'
  return `The highest throttle that every limit allows; ${LIMIT_WORDS[ceiling.stopper]} stops more.`
}
