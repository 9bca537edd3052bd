// The evaluate command as a child process.
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { SetupReport } from '@ductwright/contract/setup'
import { describe, expect, it } from 'vitest'
import { ductwright, exampleSetup } from './command.js'

describe('evaluate', () => {
  it('prints one canonical JSON document with --json, its figures in balance', async () => {
    const { code, out, err } = await ductwright(['evaluate', '-', '--json'], JSON.stringify(exampleSetup()))
    const report = JSON.parse(out) as SetupReport
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toBe(`${canonicalJson(report)}\n`)
    expect(report.figures?.residual).toBeLessThan(1e-6)
  })

  it('prints the same speed in words', async () => {
    const setup = JSON.stringify(exampleSetup())
    const { out: json } = await ductwright(['evaluate', '-', '--json'], setup)
    const { code, out: text } = await ductwright(['evaluate', '-'], setup)
    const speed = (JSON.parse(json) as SetupReport).figures?.speed_steady_km_h ?? Number.NaN
    expect(code).toBe(0)
    expect(text).toContain(`${Math.round(speed)} km/h`)
  })

  it('ends with 1 when the setup cannot be built, and says why', async () => {
    const { setup } = exampleSetup()
    const off = exampleSetup({ setup: { ...(setup as object), nozzle_ratio: 0.5 } })
    const { code, out } = await ductwright(['evaluate', '-', '--json'], JSON.stringify(off))
    const report = JSON.parse(out) as SetupReport
    expect(code).toBe(1)
    expect(report.refused.length).toBeGreaterThan(0)
  })

  it('refuses a missing field and an unknown part by name', async () => {
    const { setup, ...rest } = exampleSetup()
    const missing = await ductwright(['evaluate', '-'], JSON.stringify(rest))
    const unknown = exampleSetup({ setup: { ...(setup as object), motor: 'no-such-motor' } })
    const stranger = await ductwright(['evaluate', '-'], JSON.stringify(unknown))
    expect([missing.code, stranger.code]).toEqual([2, 2])
    expect(missing.err).toMatch(/\/setup/)
    expect(stranger.err).toMatch(/no-such-motor/)
    expect(missing.err + stranger.err).not.toMatch(/\n\s+at /)
  })
})
