// The gate that keeps impossible fans out, at its edges.
import { fanGate, gateFigures } from '@ductwright/catalogue/fan-gate'
import type { Fan } from '@ductwright/models/fan/fan'
import { describe, expect, it } from 'vitest'

/** A believable fan of 90 mm. */
const fan: Fan = {
  id: 'fan-test-90-9',
  tipDiameter: 0.09,
  hubDiameter: 0.042,
  psi0: 0.7,
  psi1: 0.68,
  etaPeak: 0.71,
  phiPeak: 0.68,
  kappa: 0.45,
  tipSpeedLimit: 190,
  motorCanLimit: 0.037,
  shaftBore: 0.005,
  mass: 0.24,
}

const rules = (changes: Partial<Fan>) => fanGate({ ...fan, ...changes }).map((breach) => breach.rule)

describe('fanGate', () => {
  it('passes a believable fan, whose shaft power falls by about a tenth', () => {
    expect(fanGate(fan)).toEqual([])
    const figures = gateFigures(fan)
    expect(figures.powerChange).toBeGreaterThan(-0.13)
    expect(figures.powerChange).toBeLessThan(-0.07)
    expect(figures.deHaller).toBeGreaterThan(0.72)
    expect(figures.deHaller).toBeLessThan(0.74)
  })

  it('refuses a flat characteristic, whose power would rise in flight', () => {
    expect(rules({ psi1: 0.34, phiPeak: 0.62, kappa: 0.55, etaPeak: 0.74 })).toContain('power-in-flight')
    expect(gateFigures({ ...fan, psi1: 0.34 }).powerChange).toBeGreaterThan(0)
  })

  it('refuses a steep one, whose power would collapse', () => {
    expect(rules({ psi1: 1.3, phiPeak: 0.55 })).toContain('power-in-flight')
  })

  it('refuses blades that would stall standing', () => {
    expect(rules({ psi0: 0.95 })).toContain('de-haller')
  })

  it('refuses too much blade work', () => {
    expect(rules({ etaPeak: 0.45 })).toContain('euler-work')
  })

  it('refuses blade work that rises with flow', () => {
    expect(rules({ psi1: 0.6, phiPeak: 0.45, kappa: 0.8, etaPeak: 0.75 })).toContain('euler-work-slope')
  })

  it('refuses an efficiency that reaches its floor before thrust is gone', () => {
    expect(rules({ phiPeak: 0.45, kappa: 2 })).toContain('efficiency-floor')
  })

  it('says what it found', () => {
    const [breach] = fanGate({ ...fan, psi0: 0.95 }).filter((each) => each.rule === 'de-haller')
    expect(breach!.found).toBeLessThan(0.7)
    expect(breach!.words).toContain(breach!.found.toFixed(3))
  })
})
