// A fan fitted from readings of the wire: the catalogue's own fan found back from what `evaluate` says it does standing,
// what is said of it, and why there is none.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { benchReportSchema } from '@ductwright/contract/bench-report'
import { parseBench } from '@ductwright/contract/bench-request'
import { parseSetup } from '@ductwright/contract/parse-setup'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { fitBench } from '@ductwright/pipeline/fit-bench'
import { beforeAll, describe, expect, it } from 'vitest'
import { relativeError } from '../models/authority-table.js'
import { faultsOf, present, workshop } from './workshop.js'

let catalogue: Catalogue
let points: Record<string, number>[]

const NOZZLES = [1, 0.88, 0.76, 0.66]
const FAN = 'fan-corune-90-8'

/** Readings of the setup of these tests standing in a nozzle, as worked out for an airframe without lip or inlet loss. */
function standing(nozzle_ratio: number, charge: number): Record<string, number> {
  const jet = catalogue.airframes.find(({ part }) => part.id === 'airframe-vintra-90')
  if (jet === undefined) throw new Error('no such airframe')
  const bench = {
    ...jet,
    part: { ...jet.part, ductLoss: 0.3, inletLoss: 0, lipLoss: 0, exitDiameterMin: 0.03, exitDiameterMax: 0.2 },
  }
  const setup = parseSetup({ airframe: { id: jet.part.id }, setup: { ...present, nozzle_ratio }, charge })
  const { figures } = evaluateSetup(setup, { ...catalogue, airframes: [bench] })
  if (figures === null) throw new Error(`nothing at ${nozzle_ratio}`)
  const { thrust_n, shaft_rpm, pack_current_a, pack_voltage_v } = figures.standing
  return { nozzle_ratio, thrust_n, rpm: shaft_rpm, current_a: pack_current_a, pack_voltage_v }
}

beforeAll(async () => {
  catalogue = await workshop()
  points = [...NOZZLES.map((nozzle) => standing(nozzle, 0.9)), ...NOZZLES.map((nozzle) => standing(nozzle, 0.4))]
})

const rig = { duct_loss: 0.3, elevation_m: 0, temperature_c: 15, motor_temperature_c: 50 }
const reportOf = (changes: Record<string, unknown> = {}) =>
  fitBench(
    parseBench({ fan: FAN, motor: present.motor, timing_deg: 15, esc: present.esc, rig, points, ...changes }),
    catalogue,
  )
const without = (...fields: string[]) =>
  points.map((point) => Object.fromEntries(Object.entries(point).filter(([field]) => !fields.includes(field))))

describe('a bench fit', () => {
  it('finds the catalogue’s fan back from what the models say it does', () => {
    const report = reportOf()
    const listed = catalogue.fans.find(({ part }) => part.id === FAN)?.part
    expect(report.refused).toEqual([])
    for (const { value, listed: wanted, low, high } of report.estimates) {
      // The standing point has cold windings or warm ones; the bench assumes one temperature for windings and magnets.
      expect(relativeError(value, wanted ?? 0)).toBeLessThan(0.01)
      expect([low < value, value < high]).toEqual([true, true])
    }
    expect(report.row?.pressure_rise_at_zero_flow).toBeCloseTo(listed?.psi0 ?? 0, 2)
    expect(report.row).toMatchObject({ tip_diameter_mm: 90, efficiency_curvature: listed?.kappa })
    expect(report.comparison.filter((words) => /agrees with the listed/.test(words))).toHaveLength(3)
    expect(report.comparison.at(-1)).toMatch(/At point \d \(nozzle ratio .* the listed fan would give .*\sN for/)
    expect(report.doubts).toEqual([])
  })

  it('passes its schema, is the same twice, and tells each reading against the fit', () => {
    const report = reportOf()
    expect(benchReportSchema.safeParse(JSON.parse(JSON.stringify(report))).error).toBeUndefined()
    expect(JSON.stringify(reportOf())).toBe(JSON.stringify(report))
    expect(report.points).toHaveLength(points.length)
    expect(report.points[0]?.readings.map(({ reading }) => reading)).toEqual([
      'rpm',
      'thrust_n',
      'current_a',
      'pack_voltage_v',
    ])
    for (const { readings } of report.points) {
      for (const { measured, fitted, deviation } of readings) {
        expect(relativeError(fitted, measured)).toBeLessThan(0.02)
        expect(Math.abs(deviation ?? 0)).toBeLessThan(1)
      }
    }
    expect(report.agreement?.words).toContain('within the')
  })

  it('a fan of one’s own has no listed values, and the same answer', () => {
    const listed = catalogue.fans.find(({ part }) => part.id === FAN)?.part
    const given = {
      tip_diameter_mm: 90,
      hub_diameter_mm: (listed?.hubDiameter ?? 0) * 1000,
      peak_efficiency_flow_coefficient: listed?.phiPeak,
      efficiency_curvature: listed?.kappa,
    }
    const report = reportOf({ fan: { given } })
    expect(report.fan).toEqual({ id: null, name: 'Fan as given' })
    expect(report.estimates.map(({ listed: none }) => none)).toEqual([null, null, null])
    expect(report.comparison).toEqual([])
    expect(report.row).toEqual(reportOf().row)
  })

  it('says where a held value was the answer, and where it was not', () => {
    const hold = { pressure_rise_slope: { value: 0.7, uncertainty: 0.05 } }
    const one = reportOf({ hold, points: points.slice(0, 1) })
    expect(one.estimates.map(({ origin }) => origin)).toEqual(['measured', 'held', 'measured'])
    expect(one.held.at(-1)).toBe('pressure_rise_slope held at 0.700 ± 0.050: the answer is that value alone.')
    const loose = { pressure_rise_slope: { value: 0.7, uncertainty: 0.9 } }
    expect(reportOf({ hold: loose }).held.at(-1)).toContain('the readings settle it without')
    const mixed = { pressure_rise_slope: { value: 0.7, uncertainty: 0.1 } }
    expect(reportOf({ hold: mixed }).held.at(-1)).toContain('mixes it with the readings')
  })

  it('a row far from the listed one is said to be', () => {
    const weak = points.map((point) => ({ ...point, thrust_n: (point['thrust_n'] ?? 0) * 0.86 }))
    const report = reportOf({ points: weak, uncertainties: { thrust: 0.01, thrust_scale: 0.005 } })
    expect(report.refused).toEqual([])
    expect(report.comparison.join(' ')).toMatch(/lies \d\.\d standard uncertainties below the listed/)
  })

  it('warns of a rotor that no catalogue would take', () => {
    const hold = { pressure_rise_slope: { value: 0.2, uncertainty: 0.02 } }
    const report = reportOf({ hold, points: points.slice(1, 2) })
    expect(report.refused).toEqual([])
    expect(report.doubts.join(' ')).toMatch(/would not take this row as it stands: shaft power changes/)
  })

  it('carries the cautions of a bench', () => {
    const words = reportOf().cautions.join(' ')
    for (const danger of ['anchor', 'plane of the rotor', 'Eye and ear', 'Arm last', 'arc and burn']) {
      expect(words).toContain(danger)
    }
  })
})

describe('no fan', () => {
  const refusal = (changes: Record<string, unknown>) => {
    const report = reportOf(changes)
    expect(report.row).toBeNull()
    expect([report.estimates, report.points, report.agreement]).toEqual([[], [], null])
    expect(benchReportSchema.safeParse(JSON.parse(JSON.stringify(report))).success).toBe(true)
    return report.refused
  }

  it.each([
    ['one nozzle', () => ({ points: points.filter(({ nozzle_ratio }) => nozzle_ratio === 0.88) }), /second nozzle/],
    ['no thrust', () => ({ points: without('thrust_n') }), /Measure thrust/],
    ['no motor', () => ({ motor: null }), /peak_efficiency_percent undetermined\. Name the motor/],
    ['no current', () => ({ points: without('current_a', 'pack_voltage_v') }), /Measure current/],
    ['no speed', () => ({ motor: null, points: without('rpm') }), /Measure rpm/],
    [
      'alike nozzles',
      () => ({ points: points.slice(0, 2).map((p, i) => ({ ...p, nozzle_ratio: 0.88 - 0.04 * i })) }),
      /too much alike/,
    ],
  ])('%s: undetermined, with what would help', (_what, changes, words) => {
    const [first, ...more] = refusal(changes())
    expect(more).toEqual([])
    expect(first).toMatchObject({ rule: 'undetermined', pointer: '/points' })
    expect(first?.words).toMatch(words)
  })

  it('a slipped reading is named by its point', () => {
    const slipped = points.map((point, i) => (i === 2 ? { ...point, thrust_n: 2 * (point['thrust_n'] ?? 0) } : point))
    const [first] = refusal({ points: slipped })
    expect(first).toMatchObject({ rule: 'inconsistent', pointer: '/points/2' })
    expect(first?.words).toMatch(/The thrust of .*\sN at point 3 lies .* standard deviations above/)
  })

  it('a fan that cannot be is not given', () => {
    const greedy = without('pack_voltage_v').map((point) => ({ ...point, current_a: 2.4 * Number(point['current_a']) }))
    expect(refusal({ points: greedy })[0]).toMatchObject({
      rule: 'implausible',
      words: expect.stringContaining('peak_efficiency_percent'),
    })
  })

  it('unknown parts, and points that nothing can be made of, are faults of the request', () => {
    expect(faultsOf(() => reportOf({ fan: 'fan-corune-90-9' }))[0]).toMatchObject({
      pointer: '/fan',
      rule: 'unknown-part',
    })
    expect(faultsOf(() => reportOf({ motor: present.esc }))[0]).toMatchObject({
      pointer: '/motor',
      rule: 'unknown-part',
    })
    expect(faultsOf(() => reportOf({ esc: 'esc-none' }))[0]?.pointer).toBe('/esc')
    const blind = faultsOf(() =>
      reportOf({ motor: null, points: [{ nozzle_ratio: 0.9, current_a: 100, pack_voltage_v: 37 }] }),
    )
    expect(blind[0]).toMatchObject({ pointer: '/points/0', rule: 'required' })
  })
})
