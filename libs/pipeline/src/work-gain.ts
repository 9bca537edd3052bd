// What clean-up work would do to the level top speed of a setup that has been worked through, everything else held.
import type { ListedTreatment } from '@ductwright/catalogue/catalogue'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { topSpeedWith } from '@ductwright/models/evaluation/sensitivity'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { treatedAirframe } from './treatments.js'

/** The airframe before any work, and the work that the setup is worked through with. */
export interface WorkBase {
  readonly untreated: Airframe
  readonly done: readonly ListedTreatment[]
  readonly referenceSpeed: number
}

export interface WorkGain {
  /** m/s; 0 when it would no longer fly level. */
  readonly gain: number
  /** Drag area taken off, m². */
  readonly cut: number
  /** The airframe with all the work done. */
  readonly airframe: Airframe
}

export function workGain(detail: SetupDetail, base: WorkBase, more: readonly ListedTreatment[]): WorkGain {
  const { untreated, done, referenceSpeed } = base
  const before = treatedAirframe(untreated, done, referenceSpeed, detail.air)
  const airframe = treatedAirframe(untreated, [...done, ...more], referenceSpeed, detail.air)
  const mass = more.reduce((sum, treatment) => sum + treatment.mass, 0)
  const point = topSpeedWith(detail.level, {
    dragArea: airframe.dragArea / before.dragArea,
    mass: 1 + mass / detail.mass,
  })
  const gain = point === null ? 0 : point.speed - detail.level.top.speed
  return { gain, cut: before.dragArea - airframe.dragArea, airframe }
}

/** Price and hours of some work. */
export function workCost(work: readonly ListedTreatment[]): { readonly price: number; readonly hours: number } {
  return {
    price: work.reduce((sum, { price }) => sum + price, 0),
    hours: work.reduce((sum, { hours }) => sum + hours, 0),
  }
}
