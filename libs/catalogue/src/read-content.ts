// The canonical JSON of a catalogue as an upload. Its version hash shows that it was not damaged, not that it holds sound
// parts: anyone can hash anything. So every row is written back into the cells of its table and read again through the
// same schema as a table; what it says must come out the same.
import type { Catalogue, ListedAirframe } from './catalogue.js'
import { catalogueFromContent, sealCatalogue } from './catalogue-content.js'
import { CatalogueError, type CatalogueFault } from './catalogue-fault.js'
import { cellRule } from './cell-rule.js'
import { airframeCells } from './cells/airframe-cells.js'
import type { Cells } from './cells/cells.js'
import { dragCells } from './cells/drag-cells.js'
import { cellsOfEntry } from './cells/entry-cells.js'
import { infoCells } from './cells/shop-cells.js'
import { structureCells } from './cells/structure-cells.js'
import { isRecord, type JsonPlace, jsonFault, type PlacedRow, readJsonRow } from './json-rows.js'
import { emptyListFaults, rowGateFaults, setListFaults } from './list-checks.js'
import { type Entry, entryId, type ListName, listNames } from './lists.js'
import { infoRow } from './rows/info-row.js'
import { ROW_LIMIT } from './upload-limits.js'

/** A figure may lose its last bits on the way into a table and back. */
const CLOSE = 1e-9
/** A synchronous speed controller keeps only the product of drop and dead time: any pair with that product will do. */
const DIODE_DROP = 0.7

/**
 * A catalogue from the text that `catalogueContent` wrote.
 * @throws CatalogueError with all faults
 */
export function readContent(text: string): Catalogue {
  const catalogue = hashed(text)
  const faults: CatalogueFault[] = shapeFaults(catalogue)
  if (faults.length === 0) faults.push(...rowFaults(catalogue))
  if (faults.length > 0) throw new CatalogueError(faults)
  const { version, ...rest } = catalogue
  // Order and version are ours to make; a text that was hashed in another order is not canonical.
  const sealed = sealCatalogue(rest)
  if (sealed.version !== version) throw new CatalogueError([contentFault('', 'order', 'lists its rows out of order')])
  return sealed
}

function hashed(text: string): Catalogue {
  try {
    return catalogueFromContent(text)
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    throw new CatalogueError([contentFault('', 'content', error.message.replace(/^catalogue content: /, ''))])
  }
}

function contentFault(pointer: string, rule: string, message: string): CatalogueFault {
  return jsonFault({ list: 'catalogue', pointer }, '', rule, undefined, message)
}

const KEYS = ['name', 'currency', 'dated', 'receiverSupply', ...listNames]

function shapeFaults(catalogue: Catalogue): CatalogueFault[] {
  const keys = Object.keys(catalogue).filter((key) => key !== 'version')
  const strange = keys
    .filter((key) => !KEYS.includes(key))
    .map((key) => contentFault(`/${key}`, 'unknown-field', `${key} is not part of a catalogue`))
  const lists = listNames.flatMap((list) => {
    const rows: unknown = catalogue[list]
    if (!Array.isArray(rows)) return [contentFault(`/${list}`, 'type', 'must be a list of rows')]
    return rows.length > ROW_LIMIT ? [contentFault(`/${list}`, 'rows', `has more than ${ROW_LIMIT} rows`)] : []
  })
  return [...strange, ...lists]
}

function rowFaults(catalogue: Catalogue): CatalogueFault[] {
  const faults = headFaults(catalogue)
  const rows: PlacedRow[] = []
  for (const list of listNames)
    for (const [i, entry] of (catalogue[list] as readonly Entry[]).entries()) {
      const row = { list, entry, pointer: `/${list}/${i}` }
      const found = entryFaults(row, catalogue.currency)
      faults.push(...found)
      if (found.length === 0) rows.push(row)
    }
  // What holds between rows can only be said of rows that could be read.
  return faults.length > 0 ? faults : betweenRows(catalogue, rows)
}

function betweenRows(catalogue: Catalogue, rows: readonly PlacedRow[]): CatalogueFault[] {
  const places = new Map<string, JsonPlace>([
    [catalogue.receiverSupply.id, { list: 'catalogue', pointer: '/receiverSupply' }],
  ])
  const twice = rows.flatMap(({ list, entry, pointer }) => {
    const id = entryId(entry)
    const before = places.get(id)
    if (before === undefined) places.set(id, { list, pointer })
    const message = `is the id of ${before?.pointer} too; ids are used once in all tables`
    return before === undefined ? [] : [jsonFault({ list, pointer }, 'id', 'duplicate-id', id, message)]
  })
  const sets = setListFaults(catalogue, (id) => places.get(id) ?? null)
  return [...twice, ...rowGateFaults(rows), ...sets, ...emptyListFaults(catalogue)]
}

function headFaults(catalogue: Catalogue): CatalogueFault[] {
  if (!isRecord(catalogue.receiverSupply)) return [contentFault('/receiverSupply', 'type', 'must be an object')]
  const outcome = infoRow.safeParse(infoCells(catalogue))
  return (outcome.error?.issues ?? []).map((issue) => {
    const column = String(issue.path[0] ?? '')
    return jsonFault({ list: 'catalogue', pointer: '' }, column, cellRule(issue, '').rule, undefined, issue.message)
  })
}

/** What a row breaks as a row of its table, or that it says something no table could. */
function entryFaults({ list, entry, pointer }: PlacedRow, currency: string): CatalogueFault[] {
  const cells = guardedCells(list, entry)
  if (cells === null)
    return [jsonFault({ list, pointer }, '', 'shape', undefined, 'lacks what every row of this list has')]
  const read = readJsonRow(list, cells, pointer, currency)
  if ('faults' in read) return read.faults
  if (agree(read.row.entry, entry)) return []
  return [jsonFault({ list, pointer }, '', 'shape', undefined, 'says something no row of a table can say')]
}

/** The row as JSON cells; null when it has not the shape of one, which only walking it shows. */
function guardedCells(list: ListName, entry: Entry): Readonly<Record<string, unknown>> | null {
  try {
    return withoutBlanks(list === 'airframes' ? airframeOf(entry as ListedAirframe) : tableCells(list, entry))
  } catch (error) {
    if (error instanceof TypeError) return null
    throw error
  }
}

function airframeOf(listed: ListedAirframe): Readonly<Record<string, unknown>> {
  const { structure, dragGeometry } = listed.part
  return {
    ...airframeCells(listed),
    structure: structure && withoutBlanks(structureCells(structure)),
    drag: dragGeometry && withoutBlanks(dragCells(dragGeometry)),
  }
}

function tableCells(list: ListName, entry: Entry): Cells {
  const { dead_time_drop_v: drop = null, ...cells } = cellsOfEntry(list, entry)
  if (typeof drop !== 'number') return cells
  const frequency = Number(cells['switching_frequency_khz'])
  return { ...cells, diode_drop_v: DIODE_DROP, dead_time_ns: (drop / DIODE_DROP / 2 / frequency) * 1e6 }
}

function withoutBlanks(cells: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== null))
}

/** Equal, apart from the last bits of numbers. */
function agree(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= CLOSE * Math.max(Math.abs(a), Math.abs(b))
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b
  const [first, second] = [a, b] as [Record<string, unknown>, Record<string, unknown>]
  const keys = new Set([...Object.keys(first), ...Object.keys(second)])
  const alike = (key: string) =>
    Object.hasOwn(first, key) && Object.hasOwn(second, key) && agree(first[key], second[key])
  return Array.isArray(a) === Array.isArray(b) && [...keys].every(alike)
}
