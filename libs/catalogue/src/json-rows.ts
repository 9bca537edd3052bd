// Rows given as JSON objects, column → value, through the same schemas as the tables; an airframe carries its structure and
// its drag inside. Each fault has the JSON Pointer of the value beside table, column, rule and value.
import type * as z from 'zod'
import { canonicalJson } from './canonical-json.js'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import { cellRule } from './cell-rule.js'
import type { Entry, ListName } from './lists.js'
import { airframeRow } from './rows/airframe-row.js'
import { escTable, fanTable, motorTable, packTable, setTable, treatmentTable } from './tables.js'

type RowSchemas = { readonly [List in ListName]: z.ZodType<Entry<List>> }

export const ROW_SCHEMAS: RowSchemas = {
  fans: fanTable.row,
  motors: motorTable.row,
  escs: escTable.row,
  packs: packTable.row,
  airframes: airframeRow,
  sets: setTable.row,
  treatments: treatmentTable.row,
}

/** Where a value stands in what was sent. */
export interface JsonPlace {
  readonly list: ListName | 'catalogue'
  readonly pointer: string
}

/** A row that passed, with its place. */
export interface PlacedRow<List extends ListName = ListName> {
  readonly list: List
  readonly entry: Entry<List>
  readonly pointer: string
}

/** One fault of a value in JSON. `value`: as sent. */
export function jsonFault(
  { list, pointer }: JsonPlace,
  column: string,
  rule: string,
  value: unknown,
  message: string,
): CatalogueFault {
  return { file: `${list}.csv`, line: 0, column, rule, value: shownValue(value), message, pointer }
}

function shownValue(value: unknown): string {
  if (value === undefined) return ''
  if (typeof value === 'number') return String(value)
  return shownCell(typeof value === 'string' ? value : canonicalJson(value)).replace(/^"(.*)"$/s, '$1')
}

/** The row, or its faults. `currency`: filled in where the row names none. */
export function readJsonRow<List extends ListName>(
  list: List,
  value: unknown,
  pointer: string,
  currency: string,
): { readonly row: PlacedRow<List> } | { readonly faults: CatalogueFault[] } {
  if (!isRecord(value))
    return { faults: [jsonFault({ list, pointer }, '', 'type', value, 'must be an object: column → value')] }
  const row = 'currency' in value ? value : { ...value, currency }
  const outcome = (ROW_SCHEMAS[list] as z.ZodType<Entry<List>>).safeParse(row)
  const foreign = currencyFaults(list, row, pointer, currency)
  if (outcome.success && foreign.length === 0) return { row: { list, entry: outcome.data, pointer } }
  const issues = outcome.error?.issues ?? []
  return { faults: [...issues.flatMap((issue) => issueFaults(issue, list, row, pointer)), ...foreign] }
}

function currencyFaults(
  list: ListName,
  row: Readonly<Record<string, unknown>>,
  pointer: string,
  currency: string,
): CatalogueFault[] {
  const found = row['currency']
  if (typeof found !== 'string' || found === currency) return []
  const message = `is not the currency of this catalogue (${currency}); a catalogue has one currency`
  return [jsonFault({ list, pointer: `${pointer}/currency` }, 'currency', 'currency', found, message)]
}

function issueFaults(
  issue: z.core.$ZodIssue,
  list: ListName,
  row: Readonly<Record<string, unknown>>,
  pointer: string,
): CatalogueFault[] {
  const path = issue.path.map(String)
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) =>
      fault([...path, key], 'unknown-column', 'is not a column of this table; remove or rename it'),
    )
  const value = path.reduce<unknown>((inside, key) => (isRecord(inside) ? inside[key] : undefined), row)
  if (value === undefined && path.length > 0) return [fault(path, 'required', `is missing: it ${issue.message}`)]
  const { rule, message } = cellRule(issue, value)
  return [fault(path, rule, message)]

  function fault(where: readonly string[], rule: string, message: string): CatalogueFault {
    const at = where.reduce<unknown>((inside, key) => (isRecord(inside) ? inside[key] : undefined), row)
    const place = { list, pointer: `${pointer}${where.map((key) => `/${escaped(key)}`).join('')}` }
    return jsonFault(place, where.join('.'), rule, at, message)
  }
}

/** A key as a JSON Pointer carries it. */
export function escaped(key: string): string {
  return key.replaceAll('~', '~0').replaceAll('/', '~1')
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
