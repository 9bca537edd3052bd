// One changed cell in words: the name of the column without its unit, both values, the unit once.
import type { Cell } from '../cells/cells.js'
import { SUFFIX_OF_UNIT } from '../column-units.js'
import type { ColumnChange } from './changed-cells.js'
import { numberWords } from './number-words.js'

/** Columns whose name alone would not be understood in a sentence. */
const NAMES: Readonly<Record<string, string>> = {
  priced: 'date of the price',
  dated: 'date of the prices',
  structure: 'data of the structure',
  drag: 'data of the drag',
}

export function columnWords(change: ColumnChange): string {
  const { column, unit, before, after } = change
  const unitWords = unit === '' || (before === null && after === null) ? '' : ` ${unit}`
  const none = column === 'priced' ? 'that of the catalogue' : 'not given'
  return `${columnName(column, unit)} ${cellWords(before, none)} → ${cellWords(after, none)}${unitWords}`
}

function columnName(column: string, unit: string): string {
  const [part = '', inner] = column.split('.')
  const suffix = SUFFIX_OF_UNIT[unit]
  const bare = (name: string) => (suffix === undefined ? name : name.replace(new RegExp(`_${suffix}$`), ''))
  if (inner === undefined) return NAMES[column] ?? bare(column).replaceAll('_', ' ')
  return `${bare(inner).replaceAll('_', ' ')} (${part})`
}

function cellWords(cell: Cell, none: string): string {
  if (cell === null) return none
  return typeof cell === 'number' ? numberWords(cell) : cell
}
