// Which spelling of CSV a file uses: `,` between cells with decimal points, or `;` with decimal points or commas, as
// spreadsheets save it where the comma is the decimal sign. Guessing wrong would turn 0,5 into 5, so a file that mixes
// the two decimal signs, and a set of files that mixes separators or decimal signs, is refused rather than guessed.
import type { CatalogueFault } from './catalogue-fault.js'

export type Separator = ',' | ';'
/** The decimal sign seen in a file; null while every number is whole. */
export type DecimalSign = '.' | ',' | null

const DECIMAL = /^\s*[+-]?\d*([.,])\d+(?:e[+-]?\d+)?\s*$/i

/** Separator of a header line; null when both occur, which no column name explains. */
export function separatorOf(header: string): Separator | null {
  const commas = header.includes(',')
  const semicolons = header.includes(';')
  if (commas && semicolons) return null
  return semicolons ? ';' : ','
}

/** Decimal signs used in a cell: one number, or numbers parted by spaces. */
export function decimalSigns(cell: string): readonly Exclude<DecimalSign, null>[] {
  return cell.split(/\s+/).flatMap((word) => {
    const sign = DECIMAL.exec(word)?.[1]
    return sign === '.' || sign === ',' ? [sign] : []
  })
}

/** The files as read, with what each one uses. */
export interface FileDialect {
  readonly file: string
  readonly separator: Separator
  readonly decimal: DecimalSign
}

/** Faults of files that disagree with the first one that commits itself. */
export function disagreements(dialects: readonly FileDialect[]): readonly CatalogueFault[] {
  return [...separatorFaults(dialects), ...decimalFaults(dialects)]
}

function separatorFaults(dialects: readonly FileDialect[]): CatalogueFault[] {
  const first = dialects[0]
  if (first === undefined) return []
  return dialects
    .filter((dialect) => dialect.separator !== first.separator)
    .map(({ file, separator }) => ({
      file,
      line: 1,
      column: '',
      rule: 'mixed-separators',
      value: JSON.stringify(separator),
      message: `separates cells by another sign than ${first.file} (${JSON.stringify(first.separator)}); save all files alike`,
    }))
}

function decimalFaults(dialects: readonly FileDialect[]): CatalogueFault[] {
  const first = dialects.find((dialect) => dialect.decimal !== null)
  if (first === undefined) return []
  return dialects
    .filter((dialect) => dialect.decimal !== null && dialect.decimal !== first.decimal)
    .map(({ file, decimal }) => ({
      file,
      line: 0,
      column: '',
      rule: 'mixed-decimals',
      value: JSON.stringify(decimal),
      message: `writes decimals with another sign than ${first.file} (${JSON.stringify(first.decimal)}); save all files alike`,
    }))
}
