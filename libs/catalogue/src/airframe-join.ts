// Puts airframes together from their three tables: the airframe itself, its structure and its drag, each a row or none.
// A row that failed its own schema still counts as being there, so that one fault is not reported as two.

import type { ListedAirframe } from './catalogue.js'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import type { CsvRow } from './csv-table.js'
import { isUnread, type ReadRow, type ReadTable } from './row-faults.js'
import type { AirframeFields } from './rows/airframe-fields.js'
import { lacks, listedAirframe, structureMisfit } from './rows/airframe-of.js'
import type { DragRow } from './rows/drag-row.js'
import type { StructureRow } from './rows/structure-row.js'
import { airframeTable } from './tables.js'

export interface AirframeTables {
  readonly airframes: ReadTable<AirframeFields>
  readonly structures: ReadTable<StructureRow>
  readonly drags: ReadTable<DragRow>
}

interface Joined {
  readonly airframes: readonly ListedAirframe[]
  readonly faults: readonly CatalogueFault[]
}

/** The airframes that lack nothing, and the faults of those that do. */
export function joinAirframes(tables: AirframeTables): Joined {
  const faults = [...ownerFaults(tables.structures, tables), ...ownerFaults(tables.drags, tables)]
  const [structures, drags] = [byAirframe(tables.structures), byAirframe(tables.drags)]
  const airframes = tables.airframes.passed.flatMap(({ line, row }) => {
    const found = faultsOfRow(line, row, structures, drags)
    faults.push(...found)
    if (found.length > 0) return []
    const structure = structures.passed.get(row.id)?.row.structure ?? null
    return [listedAirframe(row, structure, drags.passed.get(row.id)?.row.geometry ?? null)]
  })
  return { airframes, faults }
}

/** A table by the airframe each row belongs to; of several rows the first. */
interface ByAirframe<Row> {
  readonly file: string
  readonly passed: ReadonlyMap<string, ReadRow<Row>>
  readonly cells: ReadonlyMap<string, CsvRow['cells']>
}

function byAirframe<Row extends { readonly airframeId: string }>(table: ReadTable<Row>): ByAirframe<Row> {
  return {
    file: table.file,
    passed: new Map(table.passed.toReversed().map((read) => [read.row.airframeId, read])),
    cells: new Map(table.lines.toReversed().map(({ cells }) => [cells['airframe_id'] ?? '', cells])),
  }
}

/** Rows of an unknown airframe, and second rows of a known one. */
function ownerFaults(table: ReadTable<unknown>, { airframes }: AirframeTables): CatalogueFault[] {
  const known = new Set(airframes.lines.map(({ cells }) => cells['id']))
  const first = new Map<string, number>()
  return table.lines.flatMap(({ line, cells }) => {
    const id = cells['airframe_id'] ?? ''
    if (id === '') return []
    const at = { file: table.file, line, column: 'airframe_id', value: shownCell(id) }
    const before = first.get(id)
    if (before !== undefined)
      return [{ ...at, rule: 'duplicate-row', message: `has a row on line ${before} already; an airframe has one` }]
    first.set(id, line)
    if (known.has(id) || isUnread(airframes)) return []
    return [{ ...at, rule: 'unknown-part', message: `is not the id of an airframe in ${airframes.file}` }]
  })
}

function faultsOfRow(
  line: number,
  row: AirframeFields,
  structures: ByAirframe<StructureRow>,
  drags: ByAirframe<DragRow>,
): CatalogueFault[] {
  const known = { structure: structures.cells.has(row.id), drag: drags.cells.has(row.id) }
  const where = { structure: structures.file, drag: drags.file }
  const missing = lacks(row, known).map(({ column, message, other }) => ({
    file: airframeTable.file,
    line,
    column,
    rule: 'required',
    value: shownCell(''),
    message: other === null ? message : `${message}: ${where[other]} has no row for it`,
  }))
  return [...missing, ...misfits(row, structures)]
}

function misfits(row: AirframeFields, structures: ByAirframe<StructureRow>): CatalogueFault[] {
  const own = structures.passed.get(row.id)
  const message = own ? structureMisfit(row, own.row.structure) : null
  if (own === undefined || message === null) return []
  const column = 'wing_semispan_mm'
  const value = shownCell(structures.cells.get(row.id)?.[column] ?? '')
  return [{ file: structures.file, line: own.line, column, rule: 'structure-fit', value, message }]
}
