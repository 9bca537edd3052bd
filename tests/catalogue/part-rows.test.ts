// What the columns of speed controllers, motors, packs and treatments become, and what they may not say together.
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { TREATMENTS } from '@ductwright/models/drag/treatments'
import { leadsResistance } from '@ductwright/models/pack/leads'
import { describe, expect, it } from 'vitest'
import { cellOf, demoFiles, faultsOf, withCell } from './edit-tables.js'

const demo = readCatalogue(demoFiles)

describe('a speed controller', () => {
  const esc = (line: number, files = demoFiles) =>
    readCatalogue(files).escs.find(({ part }) => part.id === cellOf(demoFiles, 'escs.csv', line, 'id'))!.part

  it('with a diode drops its voltage all the while, over half the path', () => {
    const files = withCell(demoFiles, 'escs.csv', 2, 'diode_drop_v', '0.85')
    expect(esc(2, files)).toMatchObject({ freewheelDrop: 0.85, deadTimeDrop: 0, freewheelResistanceShare: 0.5 })
    expect(esc(2, withCell(files, 'escs.csv', 2, 'dead_time_ns', '0'))).toEqual(esc(2, files))
  })

  it('with a second transistor drops it in two dead times of each period, over the whole path', () => {
    let files = withCell(demoFiles, 'escs.csv', 6, 'diode_drop_v', '0.9')
    files = withCell(files, 'escs.csv', 6, 'dead_time_ns', '300')
    files = withCell(files, 'escs.csv', 6, 'switching_frequency_khz', '24')
    const part = esc(6, files)
    expect(part).toMatchObject({ freewheelDrop: 0, freewheelResistanceShare: 1 })
    // 2 · 300 ns · 24 kHz · 0.9 V, computed by hand.
    expect(part.deadTimeDrop).toBeCloseTo(0.01296, 12)
  })
})

describe('a motor', () => {
  it('carries the limit of its magnets beside that of its winding', () => {
    const limits = demo.motors.map(({ part }) => Math.round(part.magnetTemperatureLimit - ZERO_CELSIUS))
    expect(new Set(limits)).toEqual(new Set([120, 150]))
  })
})

describe('a pack', () => {
  const pack = (files: Readonly<Record<string, string>>) =>
    readCatalogue(files).packs.find(({ part }) => part.id === cellOf(demoFiles, 'packs.csv', 2, 'id'))!.part

  it('gets the resistance of its leads from gauge, length and connector', () => {
    const gauge = Number(cellOf(demoFiles, 'packs.csv', 2, 'lead_gauge_awg'))
    const length = Number(cellOf(demoFiles, 'packs.csv', 2, 'lead_length_mm')) / 1000
    const { leadResistance, connector } = pack(demoFiles)
    expect(leadResistance).toBe(leadsResistance({ gauge, length, connector }))
  })

  it('may state the resistance in their place, with any connector, but not both', () => {
    let files = withCell(demoFiles, 'packs.csv', 2, 'lead_resistance_mohm', '1.7')
    const both = faultsOf(files)
    expect(both.map(({ column, rule }) => [column, rule])).toEqual([
      ['lead_gauge_awg', 'leads'],
      ['lead_length_mm', 'leads'],
    ])
    for (const column of ['lead_gauge_awg', 'lead_length_mm']) files = withCell(files, 'packs.csv', 2, column, '')
    files = withCell(files, 'packs.csv', 2, 'connector', 'blade 5 mm')
    expect(pack(files)).toMatchObject({ leadResistance: 0.0017, connector: 'blade 5 mm' })
  })

  it('is refused for a lasting current from 1.6 times the believable one', () => {
    // Cells of 2 mΩ: 0.28 V / 2 mΩ = 140 A, times 1.6: 224 A.
    let files = withCell(demoFiles, 'packs.csv', 2, 'cell_resistance_mohm', '2')
    files = withCell(files, 'packs.csv', 2, 'current_limit_a', '300')
    expect(pack(withCell(files, 'packs.csv', 2, 'continuous_current_a', '223.9')).continuousCurrent).toBe(223.9)
    expect(faultsOf(withCell(files, 'packs.csv', 2, 'continuous_current_a', '224.1'))).toEqual([
      {
        file: 'packs.csv',
        line: 2,
        column: 'continuous_current_a',
        rule: 'believable-current',
        value: '"224.1"',
        message: 'must be at most 224 A, 1.6 times what cells of 2 mΩ can be believed to give all the time',
      },
    ])
  })
})

describe('treatments', () => {
  it('are listed once each, sorted by kind, in kg and hours', () => {
    expect(demo.treatments.map(({ kind }) => kind)).toEqual([...TREATMENTS].sort())
    for (const { price, mass, hours } of demo.treatments) {
      expect(price).toBeGreaterThan(5)
      expect(mass).toBeGreaterThan(0.005)
      expect(mass).toBeLessThan(0.2)
      expect(hours).toBeGreaterThan(1)
      expect(hours).toBeLessThan(60)
    }
  })
})
