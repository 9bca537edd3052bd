// An airframe from its columns, with or without what its structure and its drag are made of. What the columns leave empty
// is worked out: the drag area from the drag geometry, the span efficiency from the aspect ratio.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { builtUpDragArea } from '@ductwright/models/drag/build-up'
import type { DragGeometry } from '@ductwright/models/drag/drag-geometry'
import { estimatedOswald } from '@ductwright/models/drag/induced-drag'
import type { AirframeStructure } from '@ductwright/models/structure/airframe-structure'
import type { ListedAirframe } from '../catalogue.js'
import type { AirframeFields } from './airframe-fields.js'
import { pricedOf } from './cell.js'
import { fromKilometresPerHour, fromMilli, fromSquareCentimetres, fromSquareDecimetres } from './unit.js'

/**
 * Speed at which a drag area is built up, m/s, in standard air at sea level. Assumed: 80 m/s (288 km/h), the middle of
 * what these jets fly; friction moves the sum by a few per cent from there to the ends.
 */
export const REFERENCE_SPEED = 80
/** Highest aspect ratio for which the span efficiency can be estimated. */
const ESTIMATED_ASPECT_RATIO_MAX = 20

/** A column that must be filled in because nothing else says what it would, and why. */
export interface Lack {
  readonly column: 'design_speed_km_h' | 'drag_area_m2' | 'oswald_factor'
  readonly message: string
  /** What else would do in its place. */
  readonly other: 'structure' | 'drag' | null
}

/** What a row still lacks, depending on what else is known of the airframe. */
export function lacks(row: AirframeFields, known: { readonly structure: boolean; readonly drag: boolean }): Lack[] {
  const found: Lack[] = []
  const need = (column: Lack['column'], other: Lack['other'], why: string) => {
    if (row[column] === undefined) found.push({ column, other, message: `must be given ${why}` })
  }
  if (!known.structure) need('design_speed_km_h', 'structure', 'where the structure of the airframe is not')
  if (!known.drag) need('drag_area_m2', 'drag', 'where nothing is known to build it up from')
  if (aspectRatio(row) > ESTIMATED_ASPECT_RATIO_MAX)
    need('oswald_factor', null, `at an aspect ratio above ${ESTIMATED_ASPECT_RATIO_MAX}, where it cannot be estimated`)
  return found
}

/** What is wrong with a structure whose wing is too long for the span; null when nothing is. */
export function structureMisfit(row: AirframeFields, structure: AirframeStructure): string | null {
  const half = row.span_mm / 2
  return structure.wing.semispan <= fromMilli(half) ? null : `must be no more than ${half} mm, half of span_mm`
}

/** The airframe of a row that lacks nothing. */
export function listedAirframe(
  row: AirframeFields,
  structure: AirframeStructure | null,
  drag: DragGeometry | null,
): ListedAirframe {
  return {
    maker: row.maker,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    material: row.material,
    designSpeedBasis: row.design_speed_basis,
    part: airframe(row, structure, drag),
  }
}

function airframe(row: AirframeFields, structure: AirframeStructure | null, drag: DragGeometry | null): Airframe {
  return {
    id: row.id,
    dragArea: dragAreaOf(row, drag),
    dragBasis: row.drag_area_m2 === undefined ? 'built-up' : 'stated',
    dragGeometry: drag,
    span: fromMilli(row.span_mm),
    wingArea: fromSquareDecimetres(row.wing_area_dm2),
    oswald: row.oswald_factor ?? estimatedOswald(aspectRatio(row)),
    liftCoefficientMax: row.lift_coefficient_max,
    liftCoefficientMaxFlaps: row.lift_coefficient_max_flaps ?? row.lift_coefficient_max,
    emptyMass: fromMilli(row.empty_mass_g),
    takeOffMassLimit: fromMilli(row.take_off_mass_limit_g),
    fanDiameterMin: fromMilli(row.fan_diameter_min_mm),
    fanDiameterMax: fromMilli(row.fan_diameter_max_mm),
    exitDiameterMin: fromMilli(row.exit_diameter_min_mm),
    exitDiameterMax: fromMilli(row.exit_diameter_max_mm),
    ductLoss: row.duct_loss,
    inletLoss: row.inlet_loss,
    inletArea: fromSquareCentimetres(row.inlet_area_cm2),
    lipLoss: row.lip_loss,
    ramRecovery: row.ram_recovery,
    bayLength: fromMilli(row.bay_length_mm),
    bayWidth: fromMilli(row.bay_width_mm),
    bayHeight: fromMilli(row.bay_height_mm),
    designSpeed: row.design_speed_km_h === undefined ? null : fromKilometresPerHour(row.design_speed_km_h),
    structure,
    rootMomentUltimate: row.root_moment_ultimate_nm,
    mountLoad: row.mount_load_n,
    launch: row.launch,
    centreOfGravity: fromMilli(row.centre_of_gravity_mm),
    emptyStation: fromMilli(row.empty_station_mm),
    fanStation: fromMilli(row.fan_station_mm),
    escStation: fromMilli(row.esc_station_mm),
    packStationMin: fromMilli(row.pack_station_min_mm),
    packStationMax: fromMilli(row.pack_station_max_mm),
    noseBallastStation: fromMilli(row.nose_ballast_station_mm),
    tailBallastStation: fromMilli(row.tail_ballast_station_mm),
    ballastLimit: fromMilli(row.ballast_limit_g),
  }
}

function dragAreaOf(row: AirframeFields, drag: DragGeometry | null): number {
  if (row.drag_area_m2 !== undefined) return row.drag_area_m2
  if (drag === null) throw new RangeError(`airframe ${row.id}: drag_area_m2 must be given without a drag geometry`)
  return builtUpDragArea(drag, REFERENCE_SPEED, standardAtmosphere(0))
}

function aspectRatio(row: AirframeFields): number {
  return fromMilli(row.span_mm) ** 2 / fromSquareDecimetres(row.wing_area_dm2)
}
