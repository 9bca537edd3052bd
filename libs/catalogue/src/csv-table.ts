// One CSV file (RFC 4180, or the same with `;`) as rows of named cells with their line numbers, every number in it with
// a decimal point. Reports what is wrong with the file as a file; what its cells mean is judged by the row schemas.
import { CsvError, parse } from 'csv-parse/sync'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import { type DecimalSign, decimalSigns, type Separator, separatorOf } from './csv-dialect.js'
import { FILE_LIMIT_BYTES, ROW_LIMIT, sizeFaults } from './upload-limits.js'

export interface CsvRow {
  readonly line: number
  readonly cells: Readonly<Record<string, string>>
}

export interface CsvTable {
  readonly file: string
  readonly separator: Separator
  readonly decimal: DecimalSign
  /** Expected columns that the header lacks. */
  readonly missing: readonly string[]
  readonly rows: readonly CsvRow[]
  readonly faults: readonly CatalogueFault[]
}

interface Record_ {
  readonly record: readonly string[]
  readonly info: { readonly lines: number }
}

const BYTE_ORDER_MARK = '\uFEFF'
const REPLACEMENT = '\uFFFD'

/** What a file should look like. */
export interface TableForm {
  readonly columns: readonly string[]
  /** Those of the columns that hold numbers. */
  readonly numeric: ReadonlySet<string>
  /** Those that the header may lack. */
  readonly dispensable: ReadonlySet<string>
  /** Anything but `full`: a header alone will do. */
  readonly presence: string
}

/** Reads one file's text. */
export function readTable(file: string, text: string, form: TableForm): CsvTable {
  const { numeric } = form
  const faults: CatalogueFault[] = []
  const blank: CsvTable = { file, separator: ',', decimal: null, missing: [], rows: [], faults }
  const report = (line: number, column: string, rule: string, value: string, message: string) =>
    faults.push({ file, line, column, rule, value: value === '' ? '' : shownCell(value), message })

  // As many characters take at least as many bytes.
  const large = text.length > FILE_LIMIT_BYTES ? sizeFaults({ [file]: text.length }) : []
  if (large.length > 0) return { ...blank, faults: large }
  const bad = unreadable(text)
  if (bad) {
    report(bad.line, '', 'encoding', '', bad.message)
    return blank
  }
  const body = text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text
  const header = body.slice(0, body.search(/[\r\n]|$/))
  const separator = separatorOf(header)
  if (separator === null) {
    report(1, '', 'separator', header, 'the header holds both `,` and `;`; use one of them between cells')
    return blank
  }

  const records = parseRecords(body, separator, report)
  const names = records[0]?.record ?? []
  if (records.length === 0) {
    if (faults.length === 0)
      report(0, '', 'empty-table', '', 'the file is empty; it needs a header and at least one row')
    return blank
  }
  if (records.length - 1 > ROW_LIMIT) {
    report(0, '', 'rows', String(records.length - 1), `has more than ${ROW_LIMIT} rows, the most that are read`)
    return blank
  }
  const missing = checkHeader(names, form, records[0]!.info.lines, report)
  const rows = records.slice(1).flatMap((record) => namedRow(record, names, report))
  if (records.length === 1 && form.presence === 'full')
    report(1, '', 'empty-table', '', 'the table has a header but no row')
  const decimal = decimalOf(rows, numeric)
  return { file, separator, decimal, missing, rows: withPoints(rows, numeric, separator, decimal, report), faults }
}

type Report = (line: number, column: string, rule: string, value: string, message: string) => void

function unreadable(text: string): { line: number; message: string } | null {
  const bad = text.search(new RegExp(`[${REPLACEMENT}\\0]`))
  if (bad < 0) return null
  const line = text.slice(0, bad).split('\n').length
  // Of every Latin letter in UTF-16 one byte of the two is zero.
  const wide = bad < 4 && text.slice(0, 64).split('\0').length > 4
  return { line, message: `is ${wide ? 'UTF-16' : 'not UTF-8'} text; save it as "CSV UTF-8"` }
}

function parseRecords(body: string, separator: Separator, report: Report): Record_[] {
  try {
    return parse(body, {
      delimiter: separator,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      max_record_size: 100_000,
    }) as unknown as Record_[]
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const lines = (error as { lines?: unknown }).lines
    report(
      typeof lines === 'number' ? lines : 0,
      '',
      'csv',
      '',
      'is not well-formed CSV: check the quotes on this line, or one left open before it',
    )
    return []
  }
}

function checkHeader(names: readonly string[], form: TableForm, line: number, report: Report): string[] {
  const { columns, dispensable } = form
  const known = new Set(columns)
  names.forEach((name, i) => {
    const twin = columns.find((column) => !names.includes(column) && stem(column) === stem(name))
    if (!known.has(name) && twin !== undefined)
      report(
        line,
        name,
        'unit',
        name,
        `is not a column of this table, which has ${twin}: convert its numbers and rename it`,
      )
    else if (!known.has(name))
      report(line, name, 'unknown-column', name, 'is not a column of this table; remove or rename it')
    else if (names.indexOf(name) !== i) report(line, name, 'duplicate-column', name, 'stands twice in the header')
  })
  const missing = columns.filter((column) => !names.includes(column) && !dispensable.has(column))
  for (const column of missing) report(line, column, 'missing-column', '', 'is missing from the header')
  return missing
}

/** What a column is called apart from its last word, which is mostly the unit. */
function stem(column: string): string {
  return column.includes('_') ? column.slice(0, column.lastIndexOf('_')) : column
}

function namedRow({ record, info }: Record_, names: readonly string[], report: Report): CsvRow[] {
  if (record.length !== names.length) {
    const message = `has ${record.length} cells where the header has ${names.length}; check separators and quotes`
    report(info.lines, '', 'cell-count', '', message)
    return []
  }
  return [{ line: info.lines, cells: Object.fromEntries(names.map((name, i) => [name, record[i]!])) }]
}

function decimalOf(rows: readonly CsvRow[], numeric: ReadonlySet<string>): DecimalSign {
  for (const { cells } of rows)
    for (const [column, cell] of Object.entries(cells))
      if (numeric.has(column)) for (const sign of decimalSigns(cell)) return sign
  return null
}

function withPoints(
  rows: readonly CsvRow[],
  numeric: ReadonlySet<string>,
  separator: Separator,
  decimal: DecimalSign,
  report: Report,
): CsvRow[] {
  const allowed = separator === ',' ? '.' : (decimal ?? '.')
  const message =
    separator === ','
      ? 'has a decimal comma in a file separated by `,`; use `;` between cells or a decimal point'
      : `is written with another decimal sign than the numbers before it (${JSON.stringify(allowed)})`
  return rows.map(({ line, cells }) => {
    const pointed = Object.entries(cells).map(([column, cell]) => {
      if (!numeric.has(column)) return [column, cell]
      if (decimalSigns(cell).some((sign) => sign !== allowed)) report(line, column, 'decimal-sign', cell, message)
      return [column, decimalSigns(cell).includes(',') ? cell.replaceAll(',', '.') : cell]
    })
    return { line, cells: Object.fromEntries(pointed) as Record<string, string> }
  })
}
