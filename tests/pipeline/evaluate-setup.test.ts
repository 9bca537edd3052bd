// One setup on its own: figures, why it does not fit, what it costs; and the drag area found back from its own speed.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { parseSetup } from '@ductwright/contract/parse-setup'
import { setupReportSchema } from '@ductwright/contract/result-schema'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { beforeAll, describe, expect, it } from 'vitest'
import { relativeError } from '../models/authority-table.js'
import { faultsOf, prepared, present, workshop } from './workshop.js'

let catalogue: Catalogue
beforeAll(async () => {
  catalogue = await workshop()
})

const reportOf = (changes: Record<string, unknown> = {}, setup: Record<string, unknown> = {}) =>
  evaluateSetup(
    parseSetup({ airframe: { id: 'airframe-vintra-90' }, setup: { ...present, ...setup }, ...changes }),
    catalogue,
  )

describe('evaluate one setup', () => {
  it('gives every figure, passes the schema and is the same twice', () => {
    const report = reportOf()
    expect(report.refused).toEqual([])
    expect(report.figures?.residual).toBeLessThan(1e-6)
    expect(setupReportSchema.safeParse(JSON.parse(JSON.stringify(report))).success).toBe(true)
    expect(JSON.stringify(reportOf())).toBe(JSON.stringify(report))
    expect(report.cost).toBe(report.replacement_cost)
    expect(reportOf({ owned: [present.fan, present.motor] }).cost).toBeLessThan(report.cost)
  })

  it('names every reason why parts do not go together', () => {
    const rules = (setup: Record<string, unknown>) => reportOf({}, setup).refused.map(({ rule }) => rule)
    expect(rules({ fan: 'fan-solenne-105-9' })).toContain('motor-shaft')
    expect(rules({ motor: 'motor-isarn-4587-820' })).toContain('motor-bore')
    expect(rules({ nozzle_ratio: 0.7 })).toContain('blade-stall')
    expect(rules({ nozzle_ratio: 0.5 })).toContain('nozzle-exit')
  })

  it('a setup that cannot take off still has a report that JSON can carry', () => {
    const report = reportOf({ field: { rolling_friction: 0.5 } }, { duty: 0.5 })
    expect(report.figures?.limits.find(({ limit }) => limit === 'take-off-roll')?.used).toBeGreaterThan(1)
    expect(Number.isFinite(report.figures?.take_off_roll_m)).toBe(true)
    expect(setupReportSchema.safeParse(JSON.parse(JSON.stringify(report))).success).toBe(true)
  })

  it('refuses unknown parts and timings by place', () => {
    const [fault] = faultsOf(() => reportOf({}, { pack: 'pack-sarvik-5s-500' }))
    expect(fault).toMatchObject({ pointer: '/setup/pack', rule: 'unknown-part' })
    expect(fault?.message).toContain('pack-sarvik-5s-5000')
    expect(faultsOf(() => reportOf({}, { timing_deg: 40 }))[0]?.pointer).toBe('/setup/timing_deg')
  })
})

describe('drag area from the speed of a setup', () => {
  it('round trip: the speed worked out from a known drag area gives that area back to 1e-4, in both bases', () => {
    const report = reportOf({ charge: 0.7 })
    const known = report.airframe.drag_area_m2
    const speeds = { steady: report.figures?.speed_steady_km_h, 'in-run': report.figures?.speed_in_run_km_h }
    for (const [basis, speed_km_h] of Object.entries(speeds)) {
      const measured = { setup: present, speed_km_h, basis, speed_uncertainty: 0.01 }
      const estimate = prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured } }).chosen.present
        ?.estimate
      // Six digits of speed leave three times 1e-6 in the area.
      expect(relativeError(estimate?.dragArea ?? 0, known)).toBeLessThan(1e-4)
      expect(estimate?.low).toBeLessThan(known)
      expect(estimate?.high).toBeGreaterThan(known)
    }
  })

  it('the band widens with the uncertainty of the speed', () => {
    const widths = [0.002, 0.02, 0.05].map((speed_uncertainty) => {
      const measured = { setup: present, speed_km_h: 300, basis: 'steady', speed_uncertainty }
      const estimate = prepared(catalogue, { airframe: { id: 'airframe-vintra-90', measured } }).chosen.present
        ?.estimate
      return (estimate?.high ?? 0) - (estimate?.low ?? 0)
    })
    expect(widths[0]).toBeGreaterThan(0)
    expect(widths).toEqual([...widths].sort((a, b) => a - b))
  })
})
