// The page against the other forms of the same answer: every string of the letter, every figure of the table of the file,
// the same bytes each time, and a policy that names what is really in it.
import { createHash } from 'node:crypto'
import { benchCard } from '@ductwright/report/bench-card/bench-card'
import { answerCharts } from '@ductwright/report/charts/answer-charts'
import { composeLetter } from '@ductwright/report/compose-letter'
import { renderCsv } from '@ductwright/report/csv'
import type { Block, Letter } from '@ductwright/report/letter'
import { renderReportPage } from '@ductwright/report/page/report-page'
import { describe, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'
import { receipt } from '../report/fixture-receipt.js'

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" }

const read = (html: string) => html.replace(/&([\w#]+);/g, (whole, name: string) => entities[name] ?? whole)

/** What stands between tags, in order; the tag of a unit within a figure is no break. */
function texts(html: string): string {
  const body = html.slice(html.indexOf('<body'), html.indexOf('<script'))
  return read(body.replace(/<span class="unit">|<\/span>(?=<\/strong>)/g, '').replace(/<[^>]+>/g, '\n'))
}

function strings(block: Block): readonly string[] {
  switch (block.kind) {
    case 'lead':
    case 'paragraph':
      return [block.text]
    case 'tiles':
      return block.tiles.flatMap(({ value, label }) => [value, label])
    case 'pairs':
      return block.pairs.flatMap(({ label, value }) => [label, value])
    case 'list':
      return block.items
    case 'bars':
      return block.bars.flatMap(({ label, shown }) => [label, shown])
    case 'picture':
      return [block.picture.title, block.picture.alt]
    case 'grid':
      return [...block.columns.map(({ title }) => title), ...block.rows.flat()]
    case 'ranked':
      return [
        ...block.columns.map(({ title }) => title),
        ...block.rows.flatMap(({ cells, below }) => [...cells, below]),
      ]
  }
}

const whole = ({ title, headline, sections, footer }: Letter) => [
  title,
  headline,
  ...footer,
  ...sections.flatMap(({ heading, blocks }) => [heading, ...blocks.flatMap(strings)]),
]

describe('the report page', () => {
  it.each(['reached', 'short', 'none'] as const)(
    'says all that the letter says, and the cards, when %s',
    async (outcome) => {
      const result = answer({ outcome })
      const shown = texts(await renderReportPage(result, receipt()))
      const letter = composeLetter(result, receipt(), await answerCharts(result))
      const cards = result.picks.map((pick) => benchCard(result, pick))
      const wanted = [letter, ...cards].flatMap(whole)
      expect(wanted.length).toBeGreaterThan(80)
      expect(wanted.filter((words) => !shown.includes(words))).toEqual([])
    },
  )

  it('has the figures of the file in its table', async () => {
    const result = answer({ members: 30 })
    const html = await renderReportPage(result)
    const [, ...lines] = renderCsv(result).trim().split('\r\n')
    const rows = [...html.matchAll(/<tr data-rank="(\d+)"[^>]*>(.*?)<\/tr>/gs)]
    expect(rows).toHaveLength(30)
    rows.forEach(([, rank, row = ''], at) => {
      const cells = [...row.matchAll(/<td data-label="[^"]*">([^<]*)<\/td>/g)].map(([, cell = '']) => read(cell))
      const [number, purchase, asked, speed, , cost] = lines[at]?.split(',') ?? []
      expect([rank, cells[0]]).toEqual([number, number])
      expect(cells.slice(1, 4)).toEqual([purchase, asked, speed])
      expect(cells[5]?.replaceAll(',', '')).toBe(cost)
    })
  })

  it('names in its policy the script and the style that are in it', async () => {
    const html = await renderReportPage(answer())
    const policy = read(/http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1] ?? '')
    const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`
    const script = /<script>(.*?)<\/script>/s.exec(html)?.[1] ?? ''
    const style = /<style>(.*?)<\/style>/s.exec(html)?.[1] ?? ''
    expect(script.length).toBeGreaterThan(5000)
    expect(policy).toContain(`script-src ${hash(script)};`)
    expect(policy).toContain(`style-src ${hash(style)};`)
    expect(html.match(/<script|<style/g)).toHaveLength(3)
    expect(html).not.toMatch(/ style=| on[a-z]+="/)
  })

  it('is the same bytes for the same answer, its ids unique', async () => {
    const html = await renderReportPage(answer())
    expect(await renderReportPage(answer())).toBe(html)
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)
    expect(ids.length).toBeGreaterThan(10)
    expect(new Set(ids).size).toBe(ids.length)
  })
})
