// The ranked list on a terminal.
import { columns } from '@ductwright/contract/inert'
import { renderTable } from '@ductwright/report/table'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'

const ranks = (table: string) =>
  table.split('\n').flatMap((line) => (/^ {0,3}\d+ {2}/.test(line) ? [Number(line.trim().split(/\s+/)[0])] : []))

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
    const shown = ranks(table)
    expect(shown).toHaveLength(12)
    // Three settings a purchase, so every best one comes after two others.
    expect(shown.every((rank) => rank % 3 === 1)).toBe(true)
    expect(shown).toEqual([...shown].sort((a, b) => a - b))
    expect(table).toContain('12 of 234 purchases, 700 setups; all in the file.')
  })

  it('names the picks and the knee, and the other settings of the same parts', () => {
    const table = renderTable(answer({ members: 24 })).replace(/\s+/g, ' ')
    expect(table).toContain('Best all round, best for the money, safest, fastest. Merle 90 / 12 blades')
    expect(table).toContain('Dearer beyond it. Merle 90')
    expect(table).toContain('2 other settings of these parts: 361 to 362 km/h')
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
