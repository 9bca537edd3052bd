// Which rule a cell breaks, by what its schema found and by what the cell looks like: a formula, a number with its unit or
// with a decimal comma is named as such, because that is what its owner has to mend.
import type * as z from 'zod'
import { SUFFIX_OF_UNIT } from './column-units.js'

/** Starts like a formula and is no signed number. */
const FORMULA = /^\s*(?:[=@]|[+-](?!\s*(?:\d|[.,]\d)))/
const WITH_UNIT = /^\s*[+-]?\d+(?:[.,]\d+)?\s*(\D{1,14}?)\s*$/u
const DECIMAL_COMMA = /^\s*[+-]?\d*,\d+\s*$/
/** Units of the tables, and others that people write in their place. */
const UNITS: ReadonlySet<string> = new Set(
  [
    ...Object.keys(SUFFIX_OF_UNIT),
    ...['kg', 'lb', 'oz', 'cm', 'm', 'in', '"', 'Ah', 'mA', 'kA', 'mV', 'kV', 'kW', 'Ω', 'ohm', 'ohms', 'kΩ', 'mohm'],
    ...['Hz', 'MHz', 's', 'ms', 'µs', 'us', 'min', 'h', 'krpm', 'deg', 'rad', 'K', '°F', 'F', 'Nm', 'kgf', 'kV', 'mph'],
    ...['€', '$', '£', 'EUR', 'USD', 'GBP', 'kmh', 'km/h'],
  ].map((unit) => unit.toLowerCase()),
)
/** What the schemas say of a cell before they look closer: a plainer reason may stand behind it. */
const PLAIN = new Set(['number', 'text', 'choice', 'format', 'id'])

export interface CellRule {
  readonly rule: string
  readonly message: string
}

/** Rule and sentence for one issue of a cell. */
export function cellRule(issue: z.core.$ZodIssue, cell: unknown): CellRule {
  const rule = ruleOf(issue)
  const { message } = issue
  if (typeof cell !== 'string' || !PLAIN.has(rule)) return { rule, message }
  if (FORMULA.test(cell)) return { rule: 'formula', message: `starts like a spreadsheet formula; it ${message}` }
  if (rule !== 'number') return { rule, message }
  const unit = WITH_UNIT.exec(cell)?.[1] ?? ''
  if (UNITS.has(unit.toLowerCase())) {
    const cure = 'write the number alone, in the unit of the column'
    return { rule: 'unit', message: `has a unit (${unit}) in the cell; ${cure}: it ${message}` }
  }
  if (DECIMAL_COMMA.test(cell))
    return { rule: 'decimal-sign', message: `has a decimal comma where the numbers have points; it ${message}` }
  return { rule, message }
}

function ruleOf(issue: z.core.$ZodIssue): string {
  if (issue.code === 'custom') return String(issue.params?.['rule'] ?? 'value')
  if (issue.code === 'unrecognized_keys') return 'unknown-column'
  if (issue.code === 'too_small' || issue.code === 'too_big') return issue.origin === 'string' ? 'text' : 'range'
  if (issue.code === 'invalid_value') return 'choice'
  if (issue.code === 'invalid_format') return 'format'
  return issue.code === 'invalid_type' && issue.expected === 'string' ? 'text' : 'number'
}
