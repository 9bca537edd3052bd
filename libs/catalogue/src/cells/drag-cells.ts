// The drag of an airframe as a row of airframe-drag.csv, without the id.
import type { DragGeometry, FrictionSurface } from '@ductwright/models/drag/drag-geometry'
import type { dragColumns } from '../rows/drag-row.js'
import type { Cell, Cells, CellsOf } from './cells.js'
import { toDegrees, toMilli, toPercent, toSquareCentimetres, toSquareDecimetres } from './table-unit.js'

export function dragCells(geometry: DragGeometry): CellsOf<typeof dragColumns> {
  const { body, trailingEdges, gaps, gear } = geometry
  return {
    ...surfaceCells('wing', geometry.wing),
    ...surfaceCells('tail', geometry.tail),
    body_wetted_area_dm2: toSquareDecimetres(body.wettedArea),
    body_length_mm: toMilli(body.length),
    body_fineness: body.fineness,
    body_interference: body.interference,
    body_laminar_percent: toPercent(body.laminarShare),
    roughness: geometry.roughness,
    trailing_edge_length_mm: toMilli(trailingEdges.length),
    trailing_edge_thickness_mm: toMilli(trailingEdges.thickness),
    gap_affected_area_dm2: toSquareDecimetres(gaps.affectedArea),
    gap_sweep_deg: toDegrees(gaps.sweep),
    horn_area_cm2: toSquareCentimetres(geometry.horns),
    gear_wheel_area_cm2: toSquareCentimetres(gear.wheels),
    gear_strut_area_cm2: toSquareCentimetres(gear.struts),
    gear_exposed_percent: toPercent(gear.exposed),
    door_edge_area_cm2: toSquareCentimetres(geometry.doorEdges),
    flat_face_area_cm2: toSquareCentimetres(geometry.flatFaces),
    cooling_drag_area_cm2: toSquareCentimetres(geometry.cooling),
    spillage_drag_area_cm2: toSquareCentimetres(geometry.spillage),
  } satisfies Cells as CellsOf<typeof dragColumns>
}

function surfaceCells(name: 'wing' | 'tail', surface: FrictionSurface): Record<string, Cell> {
  return {
    [`${name}_wetted_area_dm2`]: toSquareDecimetres(surface.wettedArea),
    [`${name}_chord_mm`]: toMilli(surface.chord),
    [`${name}_thickness_percent`]: toPercent(surface.thicknessRatio),
    [`${name}_thickness_position_percent`]: toPercent(surface.thicknessPosition),
    [`${name}_interference`]: surface.interference,
    [`${name}_laminar_percent`]: toPercent(surface.laminarShare),
  }
}
