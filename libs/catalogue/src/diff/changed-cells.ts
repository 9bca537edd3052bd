// Which cells of a row differ, with the unit of each column. Where a whole structure or drag is new or gone that one word
// says so, and its columns are not listed one by one.
import type { Cell, Cells } from '../cells/cells.js'
import { unitOfColumn } from '../column-units.js'

export interface ColumnChange {
  /** As the table names it; of an airframe's structure or drag behind `structure.` or `drag.`. */
  readonly column: string
  /** Empty for words, counts, ratios and prices. */
  readonly unit: string
  readonly before: Cell
  readonly after: Cell
}

/** Differences in the order of the columns. */
export function changedCells(before: Cells, after: Cells): ColumnChange[] {
  const columns = [...new Set([...Object.keys(before), ...Object.keys(after)])]
  const turned = new Set(['structure', 'drag'].filter((part) => before[part] !== after[part]))
  return columns.flatMap((column) => {
    const [was, is] = [before[column] ?? null, after[column] ?? null]
    const [part = '', inner] = column.split('.')
    if (was === is || (inner !== undefined && turned.has(part))) return []
    return [{ column, unit: unitOfColumn(inner ?? column), before: was, after: is }]
  })
}
