// Own parts from JSON: { name, rows: { fans: […], motors: […], … } } in the columns of the tables. A fan may be `like` a
// shared one: the columns it does not give are taken from there once, when it is read. So the cells of a bench fit, which
// say how a fan behaves and not what it weighs or costs, become a fan of one's own.

import { canonicalJson, sha256Hex } from '../canonical-json.js'
import type { Catalogue } from '../catalogue.js'
import { CatalogueError, type CatalogueFault } from '../catalogue-fault.js'
import { cellRule } from '../cell-rule.js'
import { fanCells } from '../cells/fan-cells.js'
import { escaped, isRecord, jsonFault } from '../json-rows.js'
import { readRowLists } from '../patch/row-lists.js'
import { textCell } from '../rows/cell.js'
import { type CatalogueLayer, layered } from './catalogue-layer.js'

/** More own parts than anyone keeps in a workshop. */
export const LAYER_ROWS_MAX = 500
const SECTIONS = ['name', 'rows']

export interface ReadLayer {
  readonly layer: CatalogueLayer
  /** What to keep: canonical JSON with every `like` filled in, so that it no longer depends on the shared catalogue. */
  readonly content: string
  /** SHA-256 of it, hex. */
  readonly version: string
}

/**
 * Own parts as sent, judged alone and over the shared catalogue.
 * @throws CatalogueError with all faults, each with a pointer into what was sent
 */
export function readLayer(json: unknown, shared: Catalogue): ReadLayer {
  const faults: CatalogueFault[] = []
  const { layer, given } = layerOf(json, shared, faults)
  layered(shared, layer, faults)
  const content = canonicalJson({ name: layer.name, currency: shared.currency, rows: given })
  return { layer, content, version: sha256Hex(content) }
}

/**
 * Own parts as they were kept.
 * @throws CatalogueError when they are in another currency than the shared catalogue
 */
export function layerFromContent(content: string, shared: Catalogue): CatalogueLayer {
  const { name, currency, rows } = JSON.parse(content) as Readonly<Record<string, unknown>>
  const faults: CatalogueFault[] = []
  if (currency !== shared.currency) {
    const message = `is the currency of these own parts; the catalogue now has ${shared.currency}: send them again`
    faults.push(jsonFault({ list: 'catalogue', pointer: '/rows' }, 'currency', 'currency', currency, message))
    throw new CatalogueError(faults)
  }
  const { layer } = layerOf({ name, rows }, shared, faults)
  if (faults.length > 0) throw new CatalogueError(faults)
  return layer
}

function layerOf(
  json: unknown,
  shared: Catalogue,
  faults: CatalogueFault[],
): { readonly layer: CatalogueLayer; readonly given: unknown } {
  if (!isRecord(json)) {
    const message = `must be an object with ${SECTIONS.join(', ')}`
    throw new CatalogueError([jsonFault({ list: 'catalogue', pointer: '' }, '', 'type', json, message)])
  }
  for (const key of Object.keys(json).filter((key) => !SECTIONS.includes(key))) {
    const message = `is not part of a list of own parts; expected ${SECTIONS.join(', ')}`
    faults.push(jsonFault({ list: 'catalogue', pointer: `/${escaped(key)}` }, '', 'unknown-field', key, message))
  }
  const given = filledIn(json['rows'], shared, faults)
  const rows = readRowLists(given, '/rows', shared.currency, faults)
  if (rows.length > LAYER_ROWS_MAX) {
    const message = `holds more than ${LAYER_ROWS_MAX} rows, the most that are kept for one owner`
    faults.push(jsonFault({ list: 'catalogue', pointer: '/rows' }, '', 'rows', rows.length, message))
  }
  return { layer: { name: nameOf(json['name'], faults), rows }, given }
}

function nameOf(value: unknown, faults: CatalogueFault[]): string {
  const outcome = textCell(60).safeParse(value)
  if (outcome.success) return outcome.data
  for (const issue of outcome.error.issues) {
    const { rule, message } = cellRule(issue, value)
    faults.push(jsonFault({ list: 'catalogue', pointer: '/name' }, 'name', rule, value, message))
  }
  return ''
}

/** The rows with the columns of the fans they are like. */
function filledIn(rows: unknown, shared: Catalogue, faults: CatalogueFault[]): unknown {
  const fans = isRecord(rows) ? rows['fans'] : undefined
  if (!isRecord(rows) || !Array.isArray(fans)) return rows
  return { ...rows, fans: fans.map((fan: unknown, i) => likeShared(fan, `/rows/fans/${i}`, shared, faults)) }
}

function likeShared(row: unknown, pointer: string, shared: Catalogue, faults: CatalogueFault[]): unknown {
  if (!isRecord(row) || !('like' in row)) return row
  const { like, ...own } = row
  const fan = shared.fans.find(({ part }) => part.id === like)
  if (fan === undefined) {
    const place = { list: 'fans' as const, pointer: `${pointer}/like` }
    faults.push(jsonFault(place, 'like', 'unknown-part', like, 'is not the id of a fan of this catalogue'))
    return own
  }
  const { id: _id, ...cells } = fanCells(fan)
  return { ...Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== null)), ...own }
}
