// Reads the tables of published and computed values in tests/authorities: comment lines open with #, the one that says
// "Tolerance:" gives the relative tolerance its test works with.
import { readFileSync } from 'node:fs'

export class AuthorityRow {
  readonly #cells: ReadonlyMap<string, string>
  readonly #table: string

  constructor(table: string, cells: ReadonlyMap<string, string>) {
    this.#table = table
    this.#cells = cells
  }

  text(column: string): string {
    const cell = this.#cells.get(column)
    if (cell === undefined) throw new RangeError(`table ${this.#table} has no column ${column}`)
    return cell
  }

  number(column: string): number {
    const cell = this.text(column)
    const value = Number(cell)
    if (cell === '' || Number.isNaN(value)) {
      throw new RangeError(`column ${column} of ${this.#table} must be a number, got "${cell}"`)
    }
    return value
  }
}

export interface AuthorityTable {
  readonly rows: readonly AuthorityRow[]
  /** Relative; 0 for a table of inputs. */
  readonly tolerance: number
}

export function authorityTable(name: string): AuthorityTable {
  const lines = readFileSync(new URL(`../authorities/${name}.csv`, import.meta.url), 'utf8').split('\n')
  const notes = lines.filter((line) => line.startsWith('#')).join(' ')
  const tolerance = /Tolerance: (exact|[\d.e-]+)/.exec(notes)?.[1]
  if (tolerance === undefined) throw new RangeError(`table ${name} must state its tolerance`)
  const [header = '', ...body] = lines.filter((line) => line !== '' && !line.startsWith('#'))
  const columns = header.split(',')
  const rows = body.map((line) => {
    const cells = line.split(',')
    if (cells.length !== columns.length)
      throw new RangeError(`row "${line}" of ${name} must have ${columns.length} cells`)
    return new AuthorityRow(name, new Map(columns.map((column, i) => [column, cells[i] ?? ''])))
  })
  return { rows, tolerance: tolerance === 'exact' ? 0 : Number(tolerance) }
}

/** Relative difference from an expected value that is not 0. */
export function relativeError(actual: number, expected: number): number {
  return Math.abs(actual - expected) / Math.abs(expected)
}

/** Value of a quantity in a table of name and value. */
export function quantityOf(
  table: AuthorityTable,
  quantity: string,
  where: Readonly<Record<string, string>> = {},
): number {
  const row = table.rows.find(
    (each) =>
      each.text('quantity') === quantity && Object.entries(where).every(([column, text]) => each.text(column) === text),
  )
  if (row === undefined) throw new RangeError(`no quantity ${quantity} in the table`)
  return row.number('value')
}
