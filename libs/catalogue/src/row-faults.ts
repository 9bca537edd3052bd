// Rows of a table through their schema: the parts that passed, and for every cell that did not the file, line, column,
// rule and value.
import type * as z from 'zod'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
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
  return [{ file, line, column, rule: ruleOf(issue), value: shownCell(cells[column] ?? ''), message: issue.message }]
}

function ruleOf(issue: z.core.$ZodIssue): string {
  if (issue.code === 'custom') return String(issue.params?.['rule'] ?? 'value')
  if (issue.code === 'too_small' || issue.code === 'too_big') return issue.origin === 'string' ? 'text' : 'range'
  if (issue.code === 'invalid_value') return 'choice'
  if (issue.code === 'invalid_format') return 'format'
  return issue.code === 'invalid_type' && issue.expected === 'string' ? 'text' : 'number'
}
