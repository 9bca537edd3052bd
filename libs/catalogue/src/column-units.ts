// The unit of every column, as the row schemas state it, and how a column's name ends in it.
import type * as z from 'zod'
import { airframeColumns } from './rows/airframe-fields.js'
import { numericCells } from './rows/cell.js'
import { dragColumns } from './rows/drag-row.js'
import { escColumns } from './rows/esc-row.js'
import { fanColumns } from './rows/fan-row.js'
import { infoColumns } from './rows/info-row.js'
import { motorColumns } from './rows/motor-row.js'
import { packColumns } from './rows/pack-row.js'
import { setColumns } from './rows/set-row.js'
import { structureColumns } from './rows/structure-row.js'
import { treatmentColumns } from './rows/treatment-row.js'

/** Unit as it is shown → the ending of a column name that says it. */
export const SUFFIX_OF_UNIT: Readonly<Record<string, string>> = {
  mm: 'mm',
  'cm²': 'cm2',
  'dm²': 'dm2',
  'm²': 'm2',
  'm/s': 'm_s',
  'km/h': 'km_h',
  g: 'g',
  ns: 'ns',
  kHz: 'khz',
  rpm: 'rpm',
  '°': 'deg',
  A: 'a',
  V: 'v',
  W: 'w',
  mAh: 'mah',
  mΩ: 'mohm',
  N: 'n',
  N·m: 'nm',
  '°C': 'c',
  C: 'c',
  '%': 'percent',
  'rpm/V': 'rpm_per_v',
  'A per 1000 rpm': 'a_per_krpm',
  '% per K': 'percent_per_k',
  'J/K': 'j_per_k',
  'W/K': 'w_per_k',
  'N·m²': 'nm2',
  'per rad': 'per_rad',
  'N·m/rad': 'nm_per_rad',
  'g·cm²': 'g_cm2',
}

/** A column means the same in every table that has it. */
const UNITS: ReadonlyMap<string, string> = new Map(
  [
    fanColumns,
    motorColumns,
    escColumns,
    packColumns,
    airframeColumns,
    structureColumns,
    dragColumns,
    setColumns,
    treatmentColumns,
    infoColumns,
    { dead_time_drop_v: escColumns.diode_drop_v },
  ].flatMap((columns) => Object.entries<z.ZodType>(columns).map(([name, cell]) => [name, unitOf(cell)] as const)),
)

function unitOf(cell: z.ZodType): string {
  return numericCells.get(cell)?.unit ?? ''
}

/** The unit of a column of any table; empty for words, counts, ratios and prices. */
export function unitOfColumn(column: string): string {
  return UNITS.get(column) ?? ''
}
