// A patch from JSON: { rows: { fans: […], … }, prices: { id: 149 }, remove: [id, …], catalogue: { dated: … } }. Rows are in
// the columns of the tables. Every fault is found, also those that only show once the patch lies over the catalogue.
import * as z from 'zod'
import type { Catalogue } from '../catalogue.js'
import { CatalogueError, type CatalogueFault } from '../catalogue-fault.js'
import { cellRule } from '../cell-rule.js'
import { infoCells } from '../cells/shop-cells.js'
import type { CatalogueInfo } from '../diff/catalogue-diff.js'
import { escaped, isRecord, jsonFault } from '../json-rows.js'
import { priceCell } from '../rows/cell.js'
import { infoRow } from '../rows/info-row.js'
import { ROW_LIMIT } from '../upload-limits.js'
import { applyPatch, type PriceChange } from './catalogue-patch.js'
import { readRowLists } from './row-lists.js'

const SECTIONS = ['rows', 'prices', 'remove', 'catalogue']

/**
 * The catalogue with a patch from JSON laid over it.
 * @throws CatalogueError with all faults; the catalogue itself is never touched
 */
export function patchedCatalogue(catalogue: Catalogue, json: unknown): Catalogue {
  if (!isRecord(json))
    throw new CatalogueError([
      jsonFault({ list: 'catalogue', pointer: '' }, '', 'type', json, `must be an object with ${SECTIONS.join(', ')}`),
    ])
  const faults: CatalogueFault[] = unknownSections(json)
  const rows = readRowLists(json['rows'], '/rows', catalogue.currency, faults)
  faults.push(...unpricedAirframes(json['rows']))
  const prices = readPrices(json['prices'], faults)
  const removed = readRemoved(json['remove'], faults)
  const info = readInfo(json['catalogue'], catalogue, faults)
  if (rows.length + prices.length + removed.length > ROW_LIMIT)
    faults.push(
      jsonFault({ list: 'catalogue', pointer: '' }, '', 'rows', undefined, `touches more than ${ROW_LIMIT} rows`),
    )
  return applyPatch(catalogue, { rows, prices, removed, info }, faults)
}

function unknownSections(json: Readonly<Record<string, unknown>>): CatalogueFault[] {
  return Object.keys(json)
    .filter((key) => !SECTIONS.includes(key))
    .map((key) =>
      jsonFault(
        { list: 'catalogue', pointer: `/${escaped(key)}` },
        '',
        'unknown-field',
        key,
        `is not part of a patch; expected ${SECTIONS.join(', ')}`,
      ),
    )
}

/** An airframe given in a request may leave out maker and price; in a catalogue that would make it free. */
function unpricedAirframes(rows: unknown): CatalogueFault[] {
  const airframes = isRecord(rows) ? rows['airframes'] : undefined
  if (!Array.isArray(airframes)) return []
  return airframes.flatMap((row: unknown, i) =>
    ['maker', 'price']
      .filter((column) => isRecord(row) && !(column in row))
      .map((column) => {
        const place = { list: 'airframes' as const, pointer: `/rows/airframes/${i}/${column}` }
        return jsonFault(place, column, 'required', undefined, 'is missing: a catalogue states it of every airframe')
      }),
  )
}

const pricedCell = z.iso.date('must be a date written YYYY-MM-DD').nullable().optional()

function readPrices(value: unknown, faults: CatalogueFault[]): PriceChange[] {
  if (value === undefined) return []
  if (!isRecord(value)) {
    faults.push(
      jsonFault({ list: 'catalogue', pointer: '/prices' }, '', 'type', value, 'must be an object: id → price'),
    )
    return []
  }
  return Object.entries(value).flatMap(([id, given]) => {
    const pointer = `/prices/${escaped(id)}`
    const fields = isRecord(given) ? given : { price: given }
    const price = cell(priceCell(), fields['price'], `${pointer}${isRecord(given) ? '/price' : ''}`, 'price', faults)
    const priced = cell(pricedCell, fields['priced'], `${pointer}/priced`, 'priced', faults)
    const strange = Object.keys(fields).filter((key) => key !== 'price' && key !== 'priced')
    for (const key of strange)
      faults.push(
        jsonFault(
          { list: 'catalogue', pointer: `${pointer}/${escaped(key)}` },
          key,
          'unknown-column',
          key,
          'is not part of a price; expected price, priced',
        ),
      )
    return price === undefined ? [] : [{ id, price, pointer, ...(priced === undefined ? {} : { priced }) }]
  })
}

function cell<Value>(
  schema: z.ZodType<Value>,
  value: unknown,
  pointer: string,
  column: string,
  faults: CatalogueFault[],
): Value | undefined {
  const outcome = schema.safeParse(value)
  if (outcome.success) return outcome.data
  for (const issue of outcome.error.issues) {
    const { rule, message } = cellRule(issue, value)
    faults.push(jsonFault({ list: 'catalogue', pointer }, column, rule, value, message))
  }
  return undefined
}

function readRemoved(value: unknown, faults: CatalogueFault[]): { id: string; pointer: string }[] {
  if (value === undefined) return []
  const list = Array.isArray(value) ? value : null
  if (list === null)
    faults.push(jsonFault({ list: 'catalogue', pointer: '/remove' }, '', 'type', value, 'must be a list of ids'))
  return (list ?? []).flatMap((id: unknown, i) => {
    const pointer = `/remove/${i}`
    if (typeof id === 'string') return [{ id, pointer }]
    faults.push(jsonFault({ list: 'catalogue', pointer }, '', 'type', id, 'must be an id'))
    return []
  })
}

function readInfo(value: unknown, catalogue: Catalogue, faults: CatalogueFault[]): CatalogueInfo | null {
  if (value === undefined) return null
  const place = { list: 'catalogue' as const, pointer: '/catalogue' }
  if (!isRecord(value)) {
    faults.push(jsonFault(place, '', 'type', value, 'must be an object: columns of catalogue.csv'))
    return null
  }
  const outcome = infoRow.safeParse({ ...infoCells(catalogue), ...value })
  if (outcome.success && outcome.data.currency === catalogue.currency) return outcome.data
  if (outcome.success) {
    const message = `a patch cannot change the currency of the other prices (${catalogue.currency}); send the whole catalogue`
    faults.push(
      jsonFault(
        { list: 'catalogue', pointer: '/catalogue/currency' },
        'currency',
        'currency',
        value['currency'],
        message,
      ),
    )
    return null
  }
  for (const issue of outcome.error.issues) {
    const keys = issue.code === 'unrecognized_keys' ? issue.keys : [String(issue.path[0] ?? '')]
    for (const column of keys) {
      const { rule, message } = issue.code === 'unrecognized_keys' ? UNKNOWN : cellRule(issue, value[column])
      faults.push(
        jsonFault(
          { list: 'catalogue', pointer: `/catalogue/${escaped(column)}` },
          column,
          rule,
          value[column],
          message,
        ),
      )
    }
  }
  return null
}

const UNKNOWN = { rule: 'unknown-column', message: 'is not a column of catalogue.csv' }
