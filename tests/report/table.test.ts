// The ranked list on a terminal.
import { columns } from '@ductwright/contract/inert'
import { renderTable } from '@ductwright/report/table'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'

const ranks = (table: string) =>
  table.split('\n').flatMap((line) => (/^ {2,3}\d+ /.test(line) ? [Number(line.trim().split(/\s+/)[0])] : []))

describe('ranked table', () => {
  it.each([100, 80, 60])('fits %d columns whatever the names', (width) => {
    for (const hostile of [false, true]) {
      const table = renderTable(answer({ members: 700, hostile }), { width })
      expect(table.split('\n').length).toBeGreaterThan(24)
      for (const line of table.split('\n')) expect(columns(line)).toBeLessThanOrEqual(width)
    }
  })

  it('shows the best-ranked setup of each purchase, twelve at most, and counts the rest', () => {
    const table = renderTable(answer({ members: 700 }))
    expect(ranks(table)).toEqual([1, 4, 7, 10, 13, 16, 19, 22, 25, 28, 31, 34])
    expect(table).toContain('12 of 234 purchases, 700 setups; all in the file.')
  })

  it('does not depend on the order the front comes in', () => {
    const result = answer({ members: 40 })
    expect(renderTable({ ...result, front: [...result.front].reverse() })).toBe(renderTable(result))
  })

  it('says so when there is nothing to rank', () => {
    expect(renderTable(answer({ outcome: 'none' }))).toBe('No setup keeps every limit: there is nothing to rank.\n')
  })

  it('tells who reaches the target', () => {
    expect(renderTable(answer({ outcome: 'short' }))).not.toMatch(/\byes\b/)
    expect(renderTable(answer())).not.toMatch(/ no /)
  })
})
