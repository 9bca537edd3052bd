// One row of airframe-structure.csv: what flutter, divergence and control forces of an airframe are worked out from. The
// same names, without the id, make the object "structure" of an airframe given in JSON.
import type { AirframeStructure, ControlSurface, LiftingPanel } from '@ductwright/models/structure/airframe-structure'
import * as z from 'zod'
import { idCell, numberCell } from './cell.js'
import { between } from './order.js'
import { prefixed } from './prefixed.js'
import { fromGramSquareCentimetres, fromMilli, fromPercent } from './unit.js'

const panel = () => ({
  semispan_mm: numberCell(50, 2000, 'mm'),
  chord_mm: numberCell(30, 1000, 'mm'),
  taper: numberCell(0.1, 1.2, ''),
  thickness_percent: numberCell(2, 25, '%'),
  torsional_stiffness_nm2: numberCell(0.01, 20_000, 'N·m²'),
  mass_offset_percent: numberCell(1, 50, '%'),
})

const control = () => ({
  span_mm: numberCell(20, 2000, 'mm'),
  chord_mm: numberCell(5, 300, 'mm'),
  inertia_g_cm2: numberCell(0.1, 100_000, 'g·cm²'),
  linkage_nm_per_rad: numberCell(0.02, 1000, 'N·m/rad'),
  servo_torque_nm: numberCell(0.01, 50, 'N·m'),
})

export const structureColumns = {
  ...prefixed('wing', panel()),
  wing_elastic_offset_percent: numberCell(-25, 60, '%'),
  wing_lift_slope_per_rad: numberCell(1, 6.3, 'per rad'),
  ...prefixed('tail', panel()),
  ...prefixed('aileron', control()),
  ...prefixed('elevator', control()),
}

const columns = z
  .strictObject(structureColumns)
  .refine(
    (row) => row.aileron_chord_mm < row.wing_chord_mm,
    between('wing_chord_mm', 'aileron_chord_mm', 'must be less than'),
  )
  .refine(
    (row) => row.aileron_span_mm <= row.wing_semispan_mm,
    between('wing_semispan_mm', 'aileron_span_mm', 'must be no more than'),
  )
  .refine(
    (row) => row.elevator_chord_mm <= row.tail_chord_mm,
    between('tail_chord_mm', 'elevator_chord_mm', 'must be no more than'),
  )
  .refine(
    (row) => row.elevator_span_mm <= 2.5 * row.tail_semispan_mm,
    between('tail_semispan_mm', 'elevator_span_mm', 'must be no more than 2.5 times'),
  )

type StructureFields = z.output<typeof columns>

/** "structure" of an airframe in JSON. */
export const structureObject = columns.transform(structureOf)

/** A row of the table, with the airframe it belongs to. */
export interface StructureRow {
  readonly airframeId: string
  readonly structure: AirframeStructure
}

export const structureTableColumns = { airframe_id: idCell(), ...structureColumns }

export const structureRow = columns
  .safeExtend({ airframe_id: idCell() })
  .transform((row): StructureRow => ({ airframeId: row.airframe_id, structure: structureOf(row) }))

function structureOf(row: StructureFields): AirframeStructure {
  return {
    wing: {
      ...panelOf(row, 'wing'),
      elasticOffset: fromPercent(row.wing_elastic_offset_percent),
      liftSlope: row.wing_lift_slope_per_rad,
    },
    tail: panelOf(row, 'tail'),
    controls: [controlOf(row, 'aileron'), controlOf(row, 'elevator')],
  }
}

function panelOf(row: StructureFields, name: 'wing' | 'tail'): LiftingPanel {
  return {
    semispan: fromMilli(row[`${name}_semispan_mm`]),
    chord: fromMilli(row[`${name}_chord_mm`]),
    taper: row[`${name}_taper`],
    thicknessRatio: fromPercent(row[`${name}_thickness_percent`]),
    torsionalStiffness: row[`${name}_torsional_stiffness_nm2`],
    massOffset: fromPercent(row[`${name}_mass_offset_percent`]),
  }
}

function controlOf(row: StructureFields, name: ControlSurface['name']): ControlSurface {
  return {
    name,
    span: fromMilli(row[`${name}_span_mm`]),
    chord: fromMilli(row[`${name}_chord_mm`]),
    inertia: fromGramSquareCentimetres(row[`${name}_inertia_g_cm2`]),
    linkageStiffness: row[`${name}_linkage_nm_per_rad`],
    servoTorque: row[`${name}_servo_torque_nm`],
  }
}
