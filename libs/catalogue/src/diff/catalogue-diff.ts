// What differs between two catalogues, row by row in the columns of the tables: new, gone, dearer, cheaper, changed. Parts
// are compared by id, so a renamed id is one part gone and another new. Equal catalogues differ in nothing.
import { byCodeUnit, canonicalJson } from '../canonical-json.js'
import type { Catalogue } from '../catalogue.js'
import { cellsOfEntry } from '../cells/entry-cells.js'
import { infoCells } from '../cells/shop-cells.js'
import { type Entry, entryId, type ListName, listNames } from '../lists.js'
import { type ColumnChange, changedCells } from './changed-cells.js'

/** `changed` only where the price is the same; a row that became dearer and lighter is `dearer` with its columns. */
export type ChangeKind = 'new' | 'gone' | 'dearer' | 'cheaper' | 'changed'

/** One row that differs. */
export interface PartChange {
  readonly kind: ChangeKind
  /** The list of the catalogue it stands in. */
  readonly table: ListName
  /** The id; of a treatment its kind. */
  readonly id: string
  /** As the newer of the two names it. */
  readonly name: string
  readonly maker: string
  /** Prices, each in the currency of its catalogue; null where the part is not listed. */
  readonly before: number | null
  readonly after: number | null
  /** Every other column that differs; none for a part that is new or gone. */
  readonly columns: readonly ColumnChange[]
  /** The row as it is now, to make a patch of; null when it is gone. */
  readonly entry: Entry | null
}

/** Which catalogue one side of a comparison is. */
export interface ComparedCatalogue {
  readonly version: string
  readonly name: string
  readonly currency: string
  readonly dated: string
}

export type CatalogueInfo = Pick<Catalogue, 'name' | 'currency' | 'dated' | 'receiverSupply'>

export interface CatalogueDiff {
  readonly before: ComparedCatalogue
  readonly after: ComparedCatalogue
  /** Columns of catalogue.csv that differ: name, currency, date, receiver supply. */
  readonly head: readonly ColumnChange[]
  /** What those columns say now. */
  readonly info: CatalogueInfo
  /** In the order of the tables, then of the ids. */
  readonly parts: readonly PartChange[]
}

/** What is different in `b`, seen from `a`. */
export function diffCatalogues(a: Catalogue, b: Catalogue): CatalogueDiff {
  return {
    before: compared(a),
    after: compared(b),
    head: changedCells(infoCells(a), infoCells(b)),
    info: infoOf(b),
    parts: listNames.flatMap((table) => partChanges(table, a, b)),
  }
}

/** True when nothing differs. */
export function isEmptyDiff(diff: CatalogueDiff): boolean {
  return diff.head.length === 0 && diff.parts.length === 0
}

function compared({ version, name, currency, dated }: Catalogue): ComparedCatalogue {
  return { version, name, currency, dated }
}

function infoOf({ name, currency, dated, receiverSupply }: Catalogue): CatalogueInfo {
  return { name, currency, dated, receiverSupply }
}

function partChanges(table: ListName, a: Catalogue, b: Catalogue): PartChange[] {
  const old = new Map(a[table].map((entry: Entry) => [entryId(entry), entry]))
  const now = new Map(b[table].map((entry: Entry) => [entryId(entry), entry]))
  const ids = [...new Set([...old.keys(), ...now.keys()])].sort(byCodeUnit)
  const comparable = a.currency === b.currency
  return ids.flatMap((id) => {
    const change = partChange(table, old.get(id) ?? null, now.get(id) ?? null, comparable)
    return change === null ? [] : [change]
  })
}

function partChange(
  table: ListName,
  before: Entry | null,
  after: Entry | null,
  comparable: boolean,
): PartChange | null {
  const shown = after ?? before
  if (shown === null || same(before, after)) return null
  const { price: was = null } = before ?? {}
  const { price: is = null } = after ?? {}
  const columns = before === null || after === null ? [] : columnsOf(table, before, after)
  return {
    kind: before === null ? 'new' : after === null ? 'gone' : kindOf(before.price, after.price, comparable),
    table,
    id: entryId(shown),
    name: shown.name,
    maker: 'maker' in shown ? shown.maker : '',
    before: was,
    after: is,
    columns: comparable ? columns.filter(({ column }) => column !== 'price') : columns,
    entry: after,
  }
}

/** Rows that were read alike are written alike, which is seen at once; others may differ in the order of their fields. */
function same(a: Entry | null, b: Entry | null): boolean {
  return a !== null && b !== null && (JSON.stringify(a) === JSON.stringify(b) || canonicalJson(a) === canonicalJson(b))
}

function kindOf(before: number, after: number, comparable: boolean): ChangeKind {
  if (!comparable || before === after) return 'changed'
  return after > before ? 'dearer' : 'cheaper'
}

function columnsOf(table: ListName, before: Entry, after: Entry): ColumnChange[] {
  return changedCells(cellsOfEntry(table, before), cellsOfEntry(table, after))
}
