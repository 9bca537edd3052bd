// The tables of a catalogue: file name, columns in the order they are written, which of them are numbers or may be left
// out, and the schema of a row.
import type * as z from 'zod'
import { airframeColumns, airframeFields } from './rows/airframe-fields.js'
import { blankCells, numericCells } from './rows/cell.js'
import { dragRow, dragTableColumns } from './rows/drag-row.js'
import { escColumns, escRow } from './rows/esc-row.js'
import { fanColumns, fanRow } from './rows/fan-row.js'
import { infoColumns, infoRow } from './rows/info-row.js'
import { motorColumns, motorRow } from './rows/motor-row.js'
import { packColumns, packRow } from './rows/pack-row.js'
import { setColumns, setRow } from './rows/set-row.js'
import { structureRow, structureTableColumns } from './rows/structure-row.js'
import { treatmentColumns, treatmentRow } from './rows/treatment-row.js'

export interface Table<Row> {
  readonly file: string
  readonly columns: readonly string[]
  readonly numeric: ReadonlySet<string>
  /** Columns the header may lack, since each of their cells may be empty. */
  readonly dispensable: ReadonlySet<string>
  readonly row: z.ZodType<Row>
  /** `full`: needs rows. `rows-optional`: a header without rows will do. `optional`: the file itself may be missing too. */
  readonly presence: 'full' | 'rows-optional' | 'optional'
}

function table<Row>(
  file: string,
  columns: Readonly<Record<string, z.ZodType>>,
  row: z.ZodType<Row>,
  presence: Table<Row>['presence'] = 'full',
): Table<Row> {
  const names = Object.keys(columns)
  return {
    file,
    columns: names,
    numeric: new Set(names.filter((name) => numericCells.has(columns[name]!))),
    dispensable: new Set(names.filter((name) => blankCells.has(columns[name]!))),
    row,
    presence,
  }
}

export const infoTable = table('catalogue.csv', infoColumns, infoRow)
export const fanTable = table('fans.csv', fanColumns, fanRow)
export const motorTable = table('motors.csv', motorColumns, motorRow)
export const escTable = table('escs.csv', escColumns, escRow)
export const packTable = table('packs.csv', packColumns, packRow)
export const airframeTable = table('airframes.csv', airframeColumns, airframeFields)
export const structureTable = table('airframe-structure.csv', structureTableColumns, structureRow, 'optional')
export const dragTable = table('airframe-drag.csv', dragTableColumns, dragRow, 'optional')
export const setTable = table('sets.csv', setColumns, setRow, 'rows-optional')
export const treatmentTable = table('treatments.csv', treatmentColumns, treatmentRow, 'optional')

export const tables = [
  infoTable,
  fanTable,
  motorTable,
  escTable,
  packTable,
  airframeTable,
  structureTable,
  dragTable,
  setTable,
  treatmentTable,
] as const
