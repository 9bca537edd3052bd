// Kinds of table cells: what a number, a whole number, a short text, an id or a choice may be. Every kind takes the text
// of a CSV cell (decimal point) or the JSON value of the same name, so one row schema serves both borders.
// Which columns hold numbers is kept in `numericCells`: only there may a decimal comma be read.
import * as z from 'zod'

/** Cells whose text may carry a decimal comma, with the unit for messages. */
export const numericCells = z.registry<{ readonly unit: string }>()

/** Cells that may be left empty; a table in which all of them are may lack the column. */
export const blankCells = z.registry<{ readonly blank: true }>()

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i
const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Co}\p{Cs}\p{Zl}\p{Zp}]/u
const FORMULA = /^[=+\-@]/
const ID = /^[a-z0-9]+(?:-[a-z0-9]+)*$/
const ID_LENGTH = 64

function numberFromText(value: unknown): unknown {
  if (typeof value !== 'string') return value
  const text = value.trim()
  return NUMBER.test(text) ? Number(text) : value
}

/** A finite number from `min` to `max`, both allowed, in `unit` (empty for a ratio). */
export function numberCell(min: number, max: number, unit: string) {
  const allowed = `a number from ${min} to ${max}${unit ? ` ${unit}` : ''}`
  const number = z.number(`must be ${allowed}`).gte(min, `must be ${allowed}`).lte(max, `must be ${allowed}`)
  return z.preprocess(numberFromText, number).register(numericCells, { unit })
}

/** A whole number from `min` to `max`, both allowed. */
export function wholeCell(min: number, max: number) {
  const allowed = `must be a whole number from ${min} to ${max}`
  const number = z.number(allowed).int(allowed).gte(min, allowed).lte(max, allowed)
  return z.preprocess(numberFromText, number).register(numericCells, { unit: '' })
}

/** A number cell that may be left empty, in JSON left out. */
export function optionalNumberCell(min: number, max: number, unit: string) {
  return blankable(numberCell(min, max, unit), unit)
}

/** A whole number cell that may be left empty, in JSON left out. */
export function optionalWholeCell(min: number, max: number) {
  return blankable(wholeCell(min, max), '')
}

function blankable(cell: z.ZodType<number>, unit: string) {
  return z
    .preprocess((value) => (typeof value === 'string' && value.trim() === '' ? undefined : value), cell.optional())
    .optional()
    .register(numericCells, { unit })
    .register(blankCells, { blank: true })
}

/** Ascending numbers in one cell, parted by spaces, or a JSON list. */
export function listCell(min: number, max: number, most: number, unit: string) {
  const allowed = `must be 1 to ${most} ascending numbers from ${min} to ${max} ${unit}, parted by spaces`
  const number = z.number(allowed).gte(min, allowed).lte(max, allowed)
  const list = z.array(number, allowed).min(1, allowed).max(most, allowed).refine(isAscending, allowed)
  return z.preprocess(listFromText, list).register(numericCells, { unit })
}

function listFromText(value: unknown): unknown {
  return typeof value === 'string' ? value.trim().split(/\s+/).map(numberFromText) : value
}

function isAscending(values: readonly number[]): boolean {
  return values.every((value, i) => i === 0 || value > values[i - 1]!)
}

/** One line of printable text; never a spreadsheet formula, because people open these tables in a spreadsheet. */
export function textCell(most: number) {
  return z
    .string(`must be a text of 1 to ${most} characters`)
    .trim()
    .normalize('NFC')
    .min(1, `must be a text of 1 to ${most} characters`)
    .max(most, `must be a text of 1 to ${most} characters`)
    .refine((text) => !UNPRINTABLE.test(text), {
      error: 'holds control or invisible characters; use one line of plain text',
      params: { rule: 'control-character' },
    })
    .refine((text) => !FORMULA.test(text), {
      error: 'starts like a spreadsheet formula (= + - @); start it with a letter or a digit',
      params: { rule: 'formula' },
    })
}

/** A part id: lower-case words and digits joined by single hyphens. */
export function idCell() {
  return z.string('must be an id').superRefine((id, context) => {
    if (FORMULA.test(id)) refuseId(context, 'formula', 'starts like a spreadsheet formula (= + - @)')
    else if (id.length > ID_LENGTH) refuseId(context, 'id', `is longer than ${ID_LENGTH} characters`)
    else if (!ID.test(id)) refuseId(context, 'id', 'must be lower-case letters and digits joined by single hyphens')
  })
}

function refuseId(context: z.RefinementCtx<string>, rule: string, message: string): void {
  context.addIssue({ code: 'custom', message, params: { rule } })
}

/** One of a few words. */
export function choiceCell<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, `must be one of: ${words.join(', ')}`)
}

/** A price in the currency of its row. */
export function priceCell() {
  return numberCell(0, 100_000, '')
}

/** An ISO 4217 code. */
export function currencyCell() {
  return z.string('must be a currency').regex(/^[A-Z]{3}$/, 'must be three capital letters, an ISO 4217 code')
}

/** A day, which may be left empty, in JSON left out. */
export function optionalDateCell() {
  const day = z.iso.date('must be a date written YYYY-MM-DD').optional()
  return z
    .preprocess((value) => (value === '' ? undefined : value), day)
    .optional()
    .register(blankCells, { blank: true })
}

/** The date of a price where the row has one of its own. */
export function pricedOf(row: { readonly priced?: string | undefined }): { readonly priced?: string } {
  return row.priced === undefined ? {} : { priced: row.priced }
}
