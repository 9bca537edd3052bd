// What a pick is worked through for that is no matter of money: two refinements of its throttle, the study of its tolerances
// with the flight as phases, and its curves. All from one plain input, so that it can be noted.
import type { SetupCurves } from '@ductwright/contract/curves'
import type { SetupFigures } from '@ductwright/contract/result'
import { dutyForSpeed, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { bindingWords, type Ceiling } from './binding.js'
import { setupCurves } from './curves.js'
import { figuresOf, plainly } from './figures-of.js'
import { timelineOf } from './flight-figures.js'
import { type PhysicsStudy, physicsStudy, type StudiedPhysics } from './study-of.js'

/** A pick at the throttle of the sweep, without budget and cost. */
export interface ExaminedPick extends StudiedPhysics {
  /** m/s */
  readonly target: number
  readonly ceiling: Ceiling
}

/** The same parts at another throttle. */
export interface RefinedDuty {
  readonly duty: number
  readonly figures: SetupFigures
}

export interface PickPhysics {
  /** The lowest throttle that reaches the target; null when none that every limit allows does. */
  readonly forTarget: RefinedDuty | null
  readonly highest: RefinedDuty | null
  readonly study: PhysicsStudy
  /** Rounded like every other figure. */
  readonly curves: SetupCurves
}

export function pickPhysics(pick: ExaminedPick): PickPhysics {
  const { circumstances, parts, duty, target, ceiling } = pick
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) throw new Error(`a pick cannot be worked out again: ${detail.refused}`)
  const timeline = timelineOf(circumstances, parts, duty, detail)
  const curves = setupCurves({ circumstances, parts, duty, target, timeline })
  if (curves === null) throw new Error('a setup of the front has no curves')
  const enough = dutyForSpeed(circumstances, parts, target)
  return {
    forTarget: enough === null || enough > ceiling.duty ? null : refined(pick, enough),
    highest: refined(pick, ceiling.duty),
    study: physicsStudy(pick, detail, timeline),
    curves: plainly(curves),
  }
}

function refined({ circumstances, parts, nozzleRatio, ceiling }: ExaminedPick, duty: number): RefinedDuty | null {
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) return null
  const figures = figuresOf(detail, parts.node.duct.fan, nozzleRatio, bindingWords(detail, ceiling))
  return { duty: Math.round(duty * 1e4) / 1e4, figures }
}
