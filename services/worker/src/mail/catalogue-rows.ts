// The rows of the catalogue that differ between two versions, each with its sentence, for a mail that says why an answer
// changed. Versions are immutable, so both are still there.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { type CatalogueDiff, diffCatalogues } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import type { Records } from '@ductwright/records/records'
import type { ChangedRow } from '@ductwright/report/change-letter/answer-change'

export async function catalogueRows(records: Records, old: string, now: string): Promise<ChangedRow[]> {
  if (old === now) return []
  const [before, after] = [await records.getCatalogue(old), await records.getCatalogue(now)]
  if (before === null || after === null) return []
  return rowsBetween(catalogueFromContent(before), catalogueFromContent(after))
}

function rowsBetween(before: Catalogue, after: Catalogue): ChangedRow[] {
  const diff = diffCatalogues(before, after)
  const words = (part: Partial<CatalogueDiff>): string =>
    diffWords({ ...diff, head: [], parts: [], ...part }, after.currency).join('; ')
  const rows = diff.parts.map((part) => ({ id: part.id, kind: part.kind, words: words({ parts: [part] }) }))
  const supply = diff.head.filter(({ column }) => column.startsWith('receiver_supply'))
  if (supply.length === 0) return rows
  return [...rows, { id: after.receiverSupply.id, kind: 'changed', words: words({ head: supply }) }]
}
