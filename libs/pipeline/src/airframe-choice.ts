// Which airframe is flown and with what drag area: the catalogue's, one given in full, or either with the drag area
// solved from the measured speed of the present setup.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import type { MeasuredPresent, SetupChoice, SweepRequest } from '@ductwright/contract/request'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { DRAG_AREA_RANGE, type DragAreaEstimate, fitDragArea } from '@ductwright/models/calibration/drag-area'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { circumstancesOf } from './circumstances.js'
import type { PriceList } from './costs.js'
import { type FoundSetup, findSetup } from './find-setup.js'

export interface AirframeChoice {
  readonly id: string
  readonly name: string
  readonly airframe: Airframe
  readonly present: {
    readonly setup: SetupChoice
    readonly parts: Parts
    readonly estimate: DragAreaEstimate
    readonly speed: number
  } | null
}

type Sections = Pick<SweepRequest, 'airframe' | 'field' | 'mass' | 'profile' | 'run' | 'limits'> & {
  readonly sweep: { readonly charge: number }
}

/**
 * Resolves the airframe of a request whose ids are known.
 * @throws InputError when the present setup cannot be built, or no drag area explains its speed
 */
export function resolveAirframe(request: Sections, catalogue: Catalogue, prices: PriceList): AirframeChoice {
  const { id, name, airframe } = namedAirframe(request.airframe, catalogue)
  const { measured } = request.airframe
  if (measured === null) return { id, name, airframe, present: null }
  const found = findSetup(measured.setup, catalogue, prices, '/airframe/measured/setup')
  const estimate = estimateDragArea(request, airframe, measured, found)
  const solved = { ...airframe, dragArea: estimate.dragArea }
  const circumstances = circumstancesOf(presentSections(request, measured), solved)
  const node = fanNode(circumstances, found.fan.part, measured.setup.nozzle_ratio)
  const present = { setup: measured.setup, parts: { ...found.parts, node }, estimate, speed: measured.speed }
  return { id, name, airframe: solved, present }
}

function namedAirframe(choice: SweepRequest['airframe'], catalogue: Catalogue) {
  if (choice.kind === 'given') return { id: choice.airframe.id, name: choice.name, airframe: choice.airframe }
  const listed = catalogue.airframes.find(({ part }) => part.id === choice.id)
  if (listed === undefined) throw new RangeError(`airframe ${choice.id} must be checked against the catalogue before`)
  return { id: choice.id, name: `${listed.maker} ${listed.name}`, airframe: listed.part }
}

function presentSections(request: Sections, measured: MeasuredPresent) {
  return { ...request, charge: request.sweep.charge, budget: null, basis: measured.basis, speedFloor: 0 }
}

function estimateDragArea(
  request: Sections,
  airframe: Airframe,
  measured: MeasuredPresent,
  found: FoundSetup,
): DragAreaEstimate {
  const circumstances = circumstancesOf(presentSections(request, measured), airframe)
  const { nozzle_ratio: nozzleRatio, duty } = measured.setup
  const setup = { fan: found.fan.part, nozzleRatio, parts: found.parts, duty }
  const estimate = fitDragArea(circumstances, setup, measured.speed, measured.speedUncertainty)
  if (estimate === null) throw new InputError('the request cannot be worked out', [speedFault(measured.speed)])
  return estimate
}

function speedFault(speed: number): Fault {
  const { low, high } = DRAG_AREA_RANGE
  const kmh = Math.round(speed * 3.6)
  return {
    pointer: '/airframe/measured/speed_km_h',
    rule: 'explainable',
    value: shown(kmh),
    message: `no drag area between ${low * 1e4} and ${high * 1e4} cm² makes this setup fly ${kmh} km/h; check the setup, its throttle and whether the speed was measured level`,
  }
}
