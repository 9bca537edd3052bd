// The structure of an airframe as a row of airframe-structure.csv, without the id.
import type { AirframeStructure, ControlSurface, LiftingPanel } from '@ductwright/models/structure/airframe-structure'
import type { structureColumns } from '../rows/structure-row.js'
import type { Cell, Cells, CellsOf } from './cells.js'
import { toGramSquareCentimetres, toMilli, toPercent } from './table-unit.js'

export function structureCells({ wing, tail, controls }: AirframeStructure): CellsOf<typeof structureColumns> {
  const control = (name: ControlSurface['name']) => controls.find((surface) => surface.name === name)
  return {
    ...panelCells('wing', wing),
    wing_elastic_offset_percent: toPercent(wing.elasticOffset),
    wing_lift_slope_per_rad: wing.liftSlope,
    ...panelCells('tail', tail),
    ...controlCells('aileron', control('aileron')),
    ...controlCells('elevator', control('elevator')),
  } satisfies Cells as CellsOf<typeof structureColumns>
}

function panelCells(name: 'wing' | 'tail', panel: LiftingPanel): Record<string, Cell> {
  return {
    [`${name}_semispan_mm`]: toMilli(panel.semispan),
    [`${name}_chord_mm`]: toMilli(panel.chord),
    [`${name}_taper`]: panel.taper,
    [`${name}_thickness_percent`]: toPercent(panel.thicknessRatio),
    [`${name}_torsional_stiffness_nm2`]: panel.torsionalStiffness,
    [`${name}_mass_offset_percent`]: toPercent(panel.massOffset),
  }
}

function controlCells(name: ControlSurface['name'], surface: ControlSurface | undefined): Record<string, Cell> {
  return {
    [`${name}_span_mm`]: surface === undefined ? null : toMilli(surface.span),
    [`${name}_chord_mm`]: surface === undefined ? null : toMilli(surface.chord),
    [`${name}_inertia_g_cm2`]: surface === undefined ? null : toGramSquareCentimetres(surface.inertia),
    [`${name}_linkage_nm_per_rad`]: surface?.linkageStiffness ?? null,
    [`${name}_servo_torque_nm`]: surface?.servoTorque ?? null,
  }
}
