// The demonstration tables as text, and ways to write them otherwise or spoil one cell.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { CatalogueError, type CatalogueFault } from '@ductwright/catalogue/catalogue-fault'
import { demoCatalogueFolder, readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { tables } from '@ductwright/catalogue/tables'
import { parse } from 'csv-parse/sync'
import { stringify } from 'csv-stringify/sync'

export type Files = Readonly<Record<string, string>>

export const demoFiles: Files = Object.fromEntries(
  readdirSync(demoCatalogueFolder)
    .filter((name) => name.endsWith('.csv'))
    .map((name) => [name, readFileSync(join(demoCatalogueFolder, name), 'utf8')]),
)

/** All rows of a file, the header first; row i stands on line i + 1. */
export function rowsOf(files: Files, file: string): string[][] {
  return parse(files[file]!)
}

export function withRows(files: Files, file: string, rows: readonly (readonly string[])[]): Files {
  return { ...files, [file]: stringify(rows.map((row) => [...row])) }
}

export function columnOf(files: Files, file: string, column: string): number {
  const index = rowsOf(files, file)[0]!.indexOf(column)
  if (index < 0) throw new RangeError(`${file} has no column ${column}`)
  return index
}

/** The files with one cell replaced. */
export function withCell(files: Files, file: string, line: number, column: string, value: string): Files {
  const rows = rowsOf(files, file)
  rows[line - 1]![columnOf(files, file, column)] = value
  return withRows(files, file, rows)
}

export function cellOf(files: Files, file: string, line: number, column: string): string {
  return rowsOf(files, file)[line - 1]![columnOf(files, file, column)]!
}

/** Every file with another separator, and decimal commas if asked for. */
export function rewritten(files: Files, delimiter: ',' | ';', decimalComma: boolean): Files {
  return Object.fromEntries(
    Object.keys(files).map((file) => [file, rewrittenFile(files, file, delimiter, decimalComma)]),
  )
}

export function rewrittenFile(files: Files, file: string, delimiter: ',' | ';', decimalComma: boolean): string {
  const numeric = tables.find((table) => table.file === file)!.numeric
  const [header, ...rows] = rowsOf(files, file)
  const cells = rows.map((row) =>
    row.map((cell, i) => (decimalComma && numeric.has(header![i]!) ? cell.replaceAll('.', ',') : cell)),
  )
  return stringify([header!, ...cells], { delimiter })
}

/** The faults of reading files that must not be read. */
export function faultsOf(files: Files): readonly CatalogueFault[] {
  return faultsIn(() => readCatalogue(files))
}

/** The faults of anything that must not be taken. */
export function faultsIn(read: () => unknown): readonly CatalogueFault[] {
  try {
    read()
  } catch (error) {
    if (error instanceof CatalogueError) return error.faults
    throw error
  }
  throw new Error('it was taken without a fault')
}
