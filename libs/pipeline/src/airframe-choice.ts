// Which airframe is flown and with what drag area: the catalogue's, one given in full, or either with the drag area
// solved from the measured speed of the present setup; then with the clean-up work that the request switches on.
import type { Catalogue, ListedTreatment } from '@ductwright/catalogue/catalogue'
import { REFERENCE_SPEED } from '@ductwright/catalogue/rows/airframe-of'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import type { MeasuredPresent, SetupChoice, SweepRequest } from '@ductwright/contract/request'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { fieldAir } from '@ductwright/models/atmosphere/standard-atmosphere'
import { DRAG_AREA_RANGE, type DragAreaEstimate, fitDragArea } from '@ductwright/models/calibration/drag-area'
import { builtUpDragArea } from '@ductwright/models/drag/build-up'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { circumstancesOf } from './circumstances.js'
import type { PriceList } from './costs.js'
import { type FoundSetup, findSetup } from './find-setup.js'
import { listedTreatments, treatedAirframe, treatmentFaults } from './treatments.js'

export interface AirframeChoice {
  readonly id: string
  readonly name: string
  /** With the work done. */
  readonly airframe: Airframe
  /** As it stands today. */
  readonly untreated: Airframe
  readonly treatments: readonly ListedTreatment[]
  /** Speed at which friction is taken, m/s. */
  readonly referenceSpeed: number
  readonly present: {
    readonly setup: SetupChoice
    readonly parts: Parts
    readonly estimate: DragAreaEstimate
    readonly speed: number
    readonly replacementCost: number
  } | null
}

type Sections = Pick<SweepRequest, 'airframe' | 'treatments' | 'field' | 'mass' | 'profile' | 'run' | 'limits'> & {
  readonly sweep: { readonly charge: number }
  /** Speed aimed at, m/s; null: none. */
  readonly aim: number | null
}

/**
 * Resolves the airframe of a request whose ids are known.
 * @throws InputError when the present setup cannot be built, no drag area explains its speed, or work cannot be worked out
 */
export function resolveAirframe(request: Sections, catalogue: Catalogue, prices: PriceList): AirframeChoice {
  const { id, name, airframe } = namedAirframe(request.airframe, catalogue)
  const faults = treatmentFaults(request.treatments, airframe, catalogue)
  if (faults.length > 0) throw new InputError('the request cannot be worked out', faults)
  const air = fieldAir(request.field.elevation, request.field.temperature)
  const referenceSpeed = request.aim ?? REFERENCE_SPEED
  const based = inAir(airframe, referenceSpeed, air)
  const present = presentOf(request, based, catalogue, prices)
  const untreated: Airframe =
    present === null ? based : { ...based, dragArea: present.estimate.dragArea, dragBasis: 'measured' }
  const treatments = listedTreatments(request.treatments, catalogue)
  return {
    id,
    name,
    airframe: treatedAirframe(untreated, treatments, referenceSpeed, air),
    untreated,
    treatments,
    referenceSpeed,
    present,
  }
}

/** A drag area that is built up belongs to the speed and the air it is flown in. */
function inAir(airframe: Airframe, speed: number, air: ReturnType<typeof fieldAir>): Airframe {
  const { dragBasis, dragGeometry } = airframe
  if (dragBasis !== 'built-up' || dragGeometry === null) return airframe
  return { ...airframe, dragArea: builtUpDragArea(dragGeometry, speed, air) }
}

function namedAirframe(choice: SweepRequest['airframe'], catalogue: Catalogue) {
  if (choice.kind === 'given') return { id: choice.airframe.id, name: choice.name, airframe: choice.airframe }
  const listed = catalogue.airframes.find(({ part }) => part.id === choice.id)
  if (listed === undefined) throw new RangeError(`airframe ${choice.id} must be checked against the catalogue before`)
  return { id: choice.id, name: `${listed.maker} ${listed.name}`, airframe: listed.part }
}

function presentOf(
  request: Sections,
  airframe: Airframe,
  catalogue: Catalogue,
  prices: PriceList,
): AirframeChoice['present'] {
  const { measured } = request.airframe
  if (measured === null) return null
  const found = findSetup(measured.setup, catalogue, prices, '/airframe/measured/setup')
  const estimate = estimateDragArea(request, airframe, measured, found)
  const circumstances = circumstancesOf(presentSections(request, measured), {
    ...airframe,
    dragArea: estimate.dragArea,
  })
  const node = fanNode(circumstances, found.fan.part, measured.setup.nozzle_ratio)
  return {
    setup: measured.setup,
    parts: { ...found.parts, node },
    estimate,
    speed: measured.speed,
    replacementCost: found.replacementCost,
  }
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
