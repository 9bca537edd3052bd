// Rows of a table through their schema: the parts that passed, and for every cell that did not the file, line, column,
// rule and value.
import type * as z from 'zod'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import { cellRule } from './cell-rule.js'
import type { CsvRow, CsvTable } from './csv-table.js'
import type { Table } from './tables.js'

/** A row that passed, with the place it came from. */
export interface ReadRow<Row> {
  readonly line: number
  readonly row: Row
}

/** What a table gave: rows that passed, and all its lines whether they passed or not. */
export interface ReadTable<Row> {
  readonly file: string
  readonly passed: readonly ReadRow<Row>[]
  readonly lines: readonly CsvRow[]
  readonly faults: readonly CatalogueFault[]
}

/** True for a table that could not be read at all: what it would have held is not known. */
export function isUnread(table: ReadTable<unknown>): boolean {
  return table.lines.length === 0 && table.faults.length > 0
}

export function readRows<Row>(table: Table<Row>, csv: CsvTable): ReadTable<Row> {
  const known = new Set(table.columns)
  const faults: CatalogueFault[] = [...csv.faults]
  const passed: ReadRow<Row>[] = []
  for (const { line, cells } of csv.rows) {
    const expected = Object.fromEntries(Object.entries(cells).filter(([column]) => known.has(column)))
    const outcome = table.row.safeParse(expected)
    if (outcome.success) passed.push({ line, row: outcome.data })
    else faults.push(...outcome.error.issues.flatMap((issue) => cellFault(issue, table.file, line, csv, cells)))
  }
  return { file: table.file, passed, lines: csv.rows, faults }
}

function cellFault(
  issue: z.core.$ZodIssue,
  file: string,
  line: number,
  csv: CsvTable,
  cells: Readonly<Record<string, string>>,
): CatalogueFault[] {
  const column = String(issue.path[0] ?? '')
  if (csv.missing.includes(column)) return []
  const cell = cells[column] ?? ''
  return [{ file, line, column, value: shownCell(cell), ...cellRule(issue, cell) }]
}
