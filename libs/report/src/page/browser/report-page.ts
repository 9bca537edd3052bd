// The page's script: brings the list to life that stands in the page already. It reads the numbers out of the page, sorts
// the table, draws the lines, keeps table, lines and number fields on the same spans, and answers for own numbers.
// Nothing is fetched, stored or sent.
import { bare } from '@ductwright/contract/figures'
import type { PageData } from '../page-data.js'
import { axesOf } from './axes.js'
import { type Brush, brushed, isWithin, nothingBrushed } from './brush.js'
import { brushForm } from './brush-form.js'
import { compareForm } from './compare-form.js'
import { parallelPlot } from './parallel-plot.js'
import { sortTable } from './sort-table.js'

export function startReportPage(page: Document): void {
  const data = JSON.parse(need(page, 'list-data').textContent ?? '') as PageData
  if (data.rows.length === 0) return
  for (const tool of page.querySelectorAll<HTMLElement>('[data-tool]')) tool.hidden = false
  sortTable(need(page, 'whole-list') as HTMLTableElement, data.rows)
  compareForm(need(page, 'own-numbers') as HTMLFormElement, need(page, 'own-verdict'), data)
  startBrush(page, data)
}

function startBrush(page: Document, data: PageData): void {
  const axes = axesOf(data.rows, data.currency)
  const table = need(page, 'whole-list') as HTMLTableElement
  const rows = [...table.querySelectorAll<HTMLTableRowElement>('tr[data-rank]')]
  const byRank = new Map(data.rows.map((row) => [String(row.rank), row]))
  let brush: Brush = nothingBrushed
  const show = (next: Brush) => {
    brush = next
    plot.show(brush)
    form.show(brush)
    let kept = 0
    for (const row of rows) {
      const known = byRank.get(row.dataset['rank'] ?? '')
      row.hidden = known === undefined || !isWithin(known.raw, brush)
      if (!row.hidden) kept += 1
    }
    need(page, 'kept').textContent = `${bare('count', kept)} of ${bare('count', data.rows.length)} setups shown`
  }
  const plot = parallelPlot(need(page, 'lines'), data, axes, (key, span) => show(brushed(brush, key, span)))
  const form = brushForm(need(page, 'spans'), axes, (key, span) => show(brushed(brush, key, span)))
  need(page, 'reset').addEventListener('click', () => show(nothingBrushed))
  for (const row of rows) {
    row.addEventListener('pointerenter', () => plot.mark(Number(row.dataset['rank'])))
    row.addEventListener('pointerleave', () => plot.mark(null))
  }
  show(brush)
}

/** @throws Error when the page lacks an element its script works on */
function need(page: Document, id: string): HTMLElement {
  const found = page.getElementById(id)
  if (found === null) throw new Error(`the page has no element ${id}`)
  return found
}
