// One setup worked through, and the receipt, on a terminal.
import { columns } from '@ductwright/contract/inert'
import { renderReceipt } from '@ductwright/report/receipt'
import { renderSetupReport } from '@ductwright/report/setup-report'
import { describe, expect, it } from 'vitest'
import { setupReport } from './fixture.js'

/** The cells of the line that opens with this label, by position of two or more blanks. */
function row(text: string, label: string): string[] {
  const line = text.split('\n').find((candidate) => candidate.startsWith(label))
  return (line ?? '')
    .slice(label.length)
    .trim()
    .split(/\s{2,}/)
}

describe('setup report', () => {
  it('shows every quantity at the five operating points with its unit', () => {
    const text = renderSetupReport(setupReport())
    expect(row(text, 'Air speed')).toEqual(['km/h', '0', '371', '362', '341', '160'])
    expect(row(text, 'Shaft ')).toEqual(['rpm', '37,950', '37,950', '37,950', '37,950', '21,450'])
    expect(row(text, 'Motor efficiency')).toEqual(['%', '89', '89', '89', '89', '89'])
    expect(text).toMatch(/standing {2}top, full {2}top, quoted {2}last pass {2}cruise/)
  })

  it('names losses, heat, loads, limits, cost, assumptions and cautions', () => {
    const report = setupReport()
    const text = renderSetupReport(report).replace(/\s+/g, ' ')
    const facts = [
      'Lost in the motor',
      'motor winding 104 °C',
      'wing bending in the hardest turn',
      'take-off roll',
      '26 % used',
    ]
    for (const fact of [...facts, 'To pay: 760.45 EUR', 'Breaks first', ...report.assumptions, ...report.cautions]) {
      expect(text).toContain(fact)
    }
  })

  it('says when less is kept free than was wanted, and only then', () => {
    const report = setupReport()
    const wanting = (headroom: number) =>
      renderSetupReport({
        ...report,
        understood: { ...report.understood, limits: { ...report.understood.limits, headroom } },
      }).replace(/\s+/g, ' ')
    expect(wanting(0.1)).toContain('(7 % free). That is less than the 10 % you want kept free.')
    expect(wanting(0.05)).not.toContain('you want kept free')
  })

  it('gives the reasons, and still the cautions, when the setup is refused', () => {
    const report = setupReport({ refused: true })
    const text = renderSetupReport(report).replace(/\s+/g, ' ')
    expect(text).toContain('The pack has 12 cells, the speed controller takes 8 at most.')
    expect(text).toContain(report.cautions[0])
    expect(text).not.toContain('OPERATING POINTS')
  })

  it('fits 100 columns whatever the names', () => {
    for (const wish of [{}, { hostile: true }, { hostile: true, refused: true }]) {
      const text = renderSetupReport(setupReport(wish))
      expect(text).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/u)
      for (const line of text.split('\n')) expect(columns(line)).toBeLessThanOrEqual(100)
    }
  })
})

describe('receipt', () => {
  it('tells time, threads and work, stage by stage', () => {
    const text = renderReceipt({
      started: '2026-11-25T09:30:00.000Z',
      seconds: 3.2,
      threads: 2,
      shards: 16,
      evaluated: 120_000,
      stages: [{ stage: 'evaluate', seconds: 3.1 }],
    })
    expect(text).toContain('3.20 s on 2 threads')
    expect(text).toContain('16 shards, 120,000 setups worked out, 37,500 a second')
    expect(text).toMatch(/evaluate: +3\.10 s/)
  })
})
