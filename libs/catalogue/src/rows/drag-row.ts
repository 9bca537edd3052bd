// One row of airframe-drag.csv: what the drag area of an airframe is built up from, so that each treatment of it can be
// worked out. The same names, without the id, make the object "drag" of an airframe given in JSON.
import type { DragGeometry, FrictionSurface } from '@ductwright/models/drag/drag-geometry'
import * as z from 'zod'
import { idCell, numberCell } from './cell.js'
import { prefixed } from './prefixed.js'
import { fromDegrees, fromMilli, fromPercent, fromSquareCentimetres, fromSquareDecimetres } from './unit.js'

const surface = () => ({
  wetted_area_dm2: numberCell(0.5, 800, 'dm²'),
  chord_mm: numberCell(30, 1000, 'mm'),
  thickness_percent: numberCell(2, 25, '%'),
  thickness_position_percent: numberCell(10, 60, '%'),
  interference: numberCell(1, 1.5, ''),
  laminar_percent: numberCell(0, 80, '%'),
})

const frontalArea = () => numberCell(0, 1000, 'cm²')

export const dragColumns = {
  ...prefixed('wing', surface()),
  ...prefixed('tail', surface()),
  body_wetted_area_dm2: numberCell(2, 800, 'dm²'),
  body_length_mm: numberCell(200, 6000, 'mm'),
  body_fineness: numberCell(2, 25, ''),
  body_interference: numberCell(1, 1.5, ''),
  body_laminar_percent: numberCell(0, 80, '%'),
  roughness: numberCell(1, 3, ''),
  trailing_edge_length_mm: numberCell(0, 20_000, 'mm'),
  trailing_edge_thickness_mm: numberCell(0, 15, 'mm'),
  gap_affected_area_dm2: numberCell(0, 300, 'dm²'),
  gap_sweep_deg: numberCell(-60, 60, '°'),
  horn_area_cm2: frontalArea(),
  gear_wheel_area_cm2: frontalArea(),
  gear_strut_area_cm2: frontalArea(),
  gear_exposed_percent: numberCell(0, 100, '%'),
  door_edge_area_cm2: frontalArea(),
  flat_face_area_cm2: frontalArea(),
  cooling_drag_area_cm2: frontalArea(),
  spillage_drag_area_cm2: frontalArea(),
}

const columns = z.strictObject(dragColumns)

type DragFields = z.output<typeof columns>

/** "drag" of an airframe in JSON. */
export const dragObject = columns.transform(geometryOf)

/** A row of the table, with the airframe it belongs to. */
export interface DragRow {
  readonly airframeId: string
  readonly geometry: DragGeometry
}

export const dragTableColumns = { airframe_id: idCell(), ...dragColumns }

export const dragRow = columns
  .safeExtend({ airframe_id: idCell() })
  .transform((row): DragRow => ({ airframeId: row.airframe_id, geometry: geometryOf(row) }))

function geometryOf(row: DragFields): DragGeometry {
  return {
    wing: surfaceOf(row, 'wing'),
    tail: surfaceOf(row, 'tail'),
    body: {
      wettedArea: fromSquareDecimetres(row.body_wetted_area_dm2),
      length: fromMilli(row.body_length_mm),
      fineness: row.body_fineness,
      interference: row.body_interference,
      laminarShare: fromPercent(row.body_laminar_percent),
    },
    roughness: row.roughness,
    trailingEdges: {
      length: fromMilli(row.trailing_edge_length_mm),
      thickness: fromMilli(row.trailing_edge_thickness_mm),
    },
    gaps: {
      affectedArea: fromSquareDecimetres(row.gap_affected_area_dm2),
      sweep: fromDegrees(row.gap_sweep_deg),
    },
    horns: fromSquareCentimetres(row.horn_area_cm2),
    gear: {
      wheels: fromSquareCentimetres(row.gear_wheel_area_cm2),
      struts: fromSquareCentimetres(row.gear_strut_area_cm2),
      exposed: fromPercent(row.gear_exposed_percent),
    },
    doorEdges: fromSquareCentimetres(row.door_edge_area_cm2),
    flatFaces: fromSquareCentimetres(row.flat_face_area_cm2),
    cooling: fromSquareCentimetres(row.cooling_drag_area_cm2),
    spillage: fromSquareCentimetres(row.spillage_drag_area_cm2),
  }
}

function surfaceOf(row: DragFields, name: 'wing' | 'tail'): FrictionSurface {
  return {
    wettedArea: fromSquareDecimetres(row[`${name}_wetted_area_dm2`]),
    chord: fromMilli(row[`${name}_chord_mm`]),
    thicknessRatio: fromPercent(row[`${name}_thickness_percent`]),
    thicknessPosition: fromPercent(row[`${name}_thickness_position_percent`]),
    interference: row[`${name}_interference`],
    laminarShare: fromPercent(row[`${name}_laminar_percent`]),
  }
}
