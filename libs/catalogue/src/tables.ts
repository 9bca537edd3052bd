// The seven tables of a catalogue: file name, columns in the order they are written, which of them are numbers, and the
// schema of a row.
import type * as z from 'zod'
import { airframeColumns, airframeRow } from './rows/airframe-row.js'
import { numericCells } from './rows/cell.js'
import { escColumns, escRow } from './rows/esc-row.js'
import { fanColumns, fanRow } from './rows/fan-row.js'
import { infoColumns, infoRow } from './rows/info-row.js'
import { motorColumns, motorRow } from './rows/motor-row.js'
import { packColumns, packRow } from './rows/pack-row.js'
import { setColumns, setRow } from './rows/set-row.js'

export interface Table<Row> {
  readonly file: string
  readonly columns: readonly string[]
  readonly numeric: ReadonlySet<string>
  readonly row: z.ZodType<Row>
  /** A header without rows is allowed. */
  readonly mayBeEmpty: boolean
}

function table<Row>(
  file: string,
  columns: Readonly<Record<string, z.ZodType>>,
  row: z.ZodType<Row>,
  mayBeEmpty = false,
): Table<Row> {
  const names = Object.keys(columns)
  return {
    file,
    columns: names,
    numeric: new Set(names.filter((name) => numericCells.has(columns[name]!))),
    row,
    mayBeEmpty,
  }
}

export const infoTable = table('catalogue.csv', infoColumns, infoRow)
export const fanTable = table('fans.csv', fanColumns, fanRow)
export const motorTable = table('motors.csv', motorColumns, motorRow)
export const escTable = table('escs.csv', escColumns, escRow)
export const packTable = table('packs.csv', packColumns, packRow)
export const airframeTable = table('airframes.csv', airframeColumns, airframeRow)
export const setTable = table('sets.csv', setColumns, setRow, true)

export const tables = [infoTable, fanTable, motorTable, escTable, packTable, airframeTable, setTable] as const
