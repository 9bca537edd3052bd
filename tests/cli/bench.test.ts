// The bench-fit command as a child process, on the example that ships.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { BenchReport } from '@ductwright/contract/bench-report'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { describe, expect, it } from 'vitest'
import { ductwright, projectFolder } from './command.js'

const EXAMPLE = 'examples/bench-points.json'
const example = (): Record<string, unknown> => JSON.parse(readFileSync(join(projectFolder, EXAMPLE), 'utf8'))

describe('bench-fit', () => {
  it('prints one canonical JSON document with --json', async () => {
    const { code, out, err } = await ductwright(['bench-fit', EXAMPLE, '--json'])
    const report = JSON.parse(out) as BenchReport
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toBe(`${canonicalJson(report)}\n`)
    expect(report.estimates).toHaveLength(3)
  })

  it('prints the same row in words, with its bands and cautions', async () => {
    const { out: json } = await ductwright(['bench-fit', EXAMPLE, '--json'])
    const { code, out: text } = await ductwright(['bench-fit', EXAMPLE])
    const { row } = JSON.parse(json) as BenchReport
    expect(code).toBe(0)
    for (const [name, value] of Object.entries(row ?? {})) expect(text).toMatch(new RegExp(`^${name}: +${value}$`, 'm'))
    expect(text).toContain('standard uncertainty')
    expect(text).toContain('Nobody in the plane of the rotor')
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
  })

  it('ends with 1 when the readings give no fan, and says what would', async () => {
    const { points, ...rest } = example()
    const one = JSON.stringify({ ...rest, points: (points as unknown[]).slice(0, 2) })
    const { code, out } = await ductwright(['bench-fit', '-'], one)
    expect(code).toBe(1)
    expect(out.replace(/\s+/g, ' ')).toContain('measure with a second nozzle too')
    expect(out).toContain('Nobody in the plane of the rotor')
  })

  it('ends with 2 on a field that is wrong or a part that is unknown, by name', async () => {
    const bad = await ductwright(['bench-fit', '-'], JSON.stringify({ ...example(), colour: 'red' }))
    const stranger = await ductwright(['bench-fit', '-'], JSON.stringify({ ...example(), fan: 'fan-none' }))
    expect([bad.code, stranger.code]).toEqual([2, 2])
    expect(bad.err).toContain('/colour')
    expect(stranger.err).toContain('fan-none')
    expect(bad.err + stranger.err).not.toMatch(/\n\s+at /)
  })
})
