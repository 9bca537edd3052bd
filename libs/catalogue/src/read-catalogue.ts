// Tables in, one immutable catalogue out, or one error with every fault in every table.
import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { joinAirframes } from './airframe-join.js'
import type { Catalogue } from './catalogue.js'
import { currencyFaults, duplicateIds, gateFaults, setFaults } from './catalogue-checks.js'
import { sealCatalogue } from './catalogue-content.js'
import { CatalogueError, type CatalogueFault, shownCell } from './catalogue-fault.js'
import { disagreements, type FileDialect } from './csv-dialect.js'
import { readTable } from './csv-table.js'
import { type ReadTable, readRows } from './row-faults.js'
import {
  airframeTable,
  dragTable,
  escTable,
  fanTable,
  infoTable,
  motorTable,
  packTable,
  setTable,
  structureTable,
  type Table,
  tables,
  treatmentTable,
} from './tables.js'
import { sizeFaults, tableText } from './upload-limits.js'

/** The invented catalogue that comes with the project. */
export const demoCatalogueFolder: string = fileURLToPath(new URL('../data', import.meta.url))

const MISSING = 'is missing; a catalogue needs all its tables but those of structure, drag and treatments'
const ID_COLUMNS = new Map([[infoTable.file, 'receiver_supply_id']])

/**
 * Reads the tables of a catalogue. `files`: file name → text.
 * @throws CatalogueError with all faults
 */
export function readCatalogue(files: Readonly<Record<string, string>>): Catalogue {
  const faults: CatalogueFault[] = unexpectedFiles(Object.keys(files))
  const dialects: FileDialect[] = []

  const read = <Row>(table: Table<Row>): ReadTable<Row> => {
    const text = files[table.file]
    if (text === undefined) {
      if (table.presence !== 'optional') faults.push(fileFault(table.file, 'missing-file', MISSING))
      return { file: table.file, passed: [], lines: [], faults: [] }
    }
    const csv = readTable(table.file, text, table)
    if (csv.rows.length > 0) dialects.push(csv)
    const rows = readRows(table, csv)
    faults.push(...rows.faults)
    return rows
  }

  const info = read(infoTable)
  const fans = read(fanTable)
  const motors = read(motorTable)
  const escs = read(escTable)
  const packs = read(packTable)
  const airframes = read(airframeTable)
  const structures = read(structureTable)
  const drags = read(dragTable)
  const sets = read(setTable)
  const treatments = read(treatmentTable)

  const joined = joinAirframes({ airframes, structures, drags })
  const priced = [fans, motors, escs, packs, airframes, sets, treatments]
  faults.push(...disagreements(dialects), ...oneInfoRow(info), ...duplicateIds([info, ...priced], ID_COLUMNS))
  faults.push(...gateFaults(fans), ...joined.faults, ...setFaults(sets, fans, motors))
  const head = info.passed[0]?.row
  if (head) faults.push(...currencyFaults(priced, head.currency))
  if (faults.length > 0 || head === undefined) throw new CatalogueError(inOrder(faults))

  return sealCatalogue({
    ...head,
    fans: rowsOf(fans),
    motors: rowsOf(motors),
    escs: rowsOf(escs),
    packs: rowsOf(packs),
    airframes: joined.airframes,
    sets: rowsOf(sets),
    treatments: rowsOf(treatments),
  })
}

/**
 * Reads the tables of a folder; files that are not `.csv` are left alone.
 * @throws CatalogueError with all faults
 */
export async function readCatalogueFolder(folder: string): Promise<Catalogue> {
  const names = (await readdir(folder)).filter((name) => name.toLowerCase().endsWith('.csv')).sort()
  const sizes = await Promise.all(names.map(async (name) => [name, (await stat(join(folder, name))).size] as const))
  const large = sizeFaults(Object.fromEntries(sizes))
  if (large.length > 0) throw new CatalogueError(large)
  const bytes = await Promise.all(names.map(async (name) => [name, await readFile(join(folder, name))] as const))
  return readCatalogue(Object.fromEntries(bytes.map(([name, content]) => [name, tableText(content)])))
}

function rowsOf<Row>(table: ReadTable<Row>): readonly Row[] {
  return table.passed.map(({ row }) => row)
}

function unexpectedFiles(names: readonly string[]): CatalogueFault[] {
  const known = tables.map((table) => table.file)
  return names
    .filter((name) => !known.includes(name))
    .map((name) =>
      fileFault(
        shownCell(name).slice(1, -1),
        'unknown-file',
        `is not a table of a catalogue; expected ${known.join(', ')}`,
      ),
    )
}

function oneInfoRow(info: ReadTable<unknown>): CatalogueFault[] {
  return info.lines.slice(1).map(({ line }) => ({
    file: info.file,
    line,
    column: '',
    rule: 'one-row',
    value: '',
    message: 'is a second row; this table has exactly one',
  }))
}

function fileFault(file: string, rule: string, message: string): CatalogueFault {
  return { file, line: 0, column: '', rule, value: '', message }
}

function inOrder(faults: readonly CatalogueFault[]): CatalogueFault[] {
  const place = (file: string) => {
    const index = tables.findIndex((table) => table.file === file)
    return index < 0 ? tables.length : index
  }
  return [...faults].sort((a, b) => place(a.file) - place(b.file) || a.line - b.line)
}
