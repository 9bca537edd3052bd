// What the pilot has today, worked through with the drag area that its measured speed gives.
import type { Result } from '@ductwright/contract/result'
import { highestDuty, type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { AirframeChoice } from './airframe-choice.js'
import { bindingWords } from './binding.js'
import { figuresOf, plain } from './figures-of.js'
import type { Prepared } from './prepare.js'
import { nowWords } from './sentences.js'

const KMH = 3.6

export interface PresentNow {
  readonly shown: NonNullable<Result['now']>
  readonly detail: SetupDetail
}

/** null when the request tells of no present setup, or it cannot be worked through. */
export function presentNow(prepared: Prepared): PresentNow | null {
  const { present, untreated } = prepared.chosen
  if (present === null) return null
  const { setup, parts, estimate, speed } = present
  // What is flown already is held to its ratings, not to the wishes for what comes next.
  const { circumstances } = prepared.problem
  const limits = { ...circumstances.limits, speedFloor: 0, budget: Number.POSITIVE_INFINITY }
  const today = { ...circumstances, airframe: untreated, limits }
  const detail = setupDetail(today, parts, setup.duty)
  if ('refused' in detail) return null
  const binds = bindingWords(detail, highestDuty(today, parts, setup.duty))
  const figures = figuresOf(detail, parts.node.duct.fan, setup.nozzle_ratio, binds)
  return { shown: shownOf(setup, speed, estimate, figures), detail }
}

function shownOf(
  setup: NonNullable<Result['now']>['setup'],
  speed: number,
  estimate: NonNullable<AirframeChoice['present']>['estimate'],
  figures: NonNullable<Result['now']>['figures'],
): NonNullable<Result['now']> {
  const { dragArea: area, low, high } = estimate
  return {
    setup,
    measured_km_h: plain(speed * KMH),
    drag_area_m2: plain(area),
    drag_area_low_m2: plain(low),
    drag_area_high_m2: plain(high),
    figures,
    words: nowWords(speed * KMH, { area, low, high }, figures),
  }
}
