// Leads by gauge and length against computed wire tables, and what a pack can be believed to give.
import { believableCurrent, believableRate } from '@ductwright/models/pack/believable-rate'
import {
  CONTACT_CONNECTORS,
  contactResistance,
  leadsResistance,
  wireDiameter,
  wireResistance,
} from '@ductwright/models/pack/leads'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'

const gauge = fc.integer({ min: -3, max: 40 })
const length = fc.double({ min: 0, max: 5, noNaN: true })

describe('wire by gauge (ASTM B258 and IEC 60028, from memory; values computed)', () => {
  const table = authorityTable('wire-gauge')

  it.each(table.rows.map((row) => [row.number('gauge'), row] as const))('gauge %i', (number, row) => {
    expect(relativeError(wireDiameter(number) * 1000, row.number('diameter_mm'))).toBeLessThan(table.tolerance)
    expect(relativeError(wireResistance(number, 1) * 1000, row.number('resistance_mohm_per_m'))).toBeLessThan(
      table.tolerance,
    )
  })

  it('halves its section every three gauges, within half a per cent', () => {
    fc.assert(
      fc.property(fc.integer({ min: -3, max: 37 }), (number) => {
        expect(relativeError(wireResistance(number + 3, 1) / wireResistance(number, 1), 2)).toBeLessThan(0.005)
      }),
    )
  })

  it.each([
    ['a gauge below 0000', () => wireDiameter(-4), /gauge must lie between -3 and 40, got -4/],
    ['a gauge above 40', () => wireDiameter(41), /got 41/],
    ['a gauge that is no number', () => wireDiameter(Number.NaN), /got NaN/],
    ['a negative length', () => wireResistance(10, -1), /length must be 0 m or more, got -1/],
    ['an endless wire', () => wireResistance(10, Number.POSITIVE_INFINITY), /got Infinity/],
  ])('refuses %s', (_what, act, message) => {
    expect(act).toThrow(RangeError)
    expect(act).toThrow(message)
  })
})

describe('leads of a pack', () => {
  it('count both wires and both contacts: 150 mm of gauge 10 on 6.5 mm bullets', () => {
    // 2 · (0.15 m · 3.27685 mΩ/m + 0.08 mΩ), computed by hand.
    expect(leadsResistance({ gauge: 10, length: 0.15, connector: 'bullet 6.5 mm' })).toBeCloseTo(1.143055e-3, 8)
  })

  it('lose less with a larger bullet', () => {
    const contacts = CONTACT_CONNECTORS.map(contactResistance)
    expect(contacts.length).toBeGreaterThan(4)
    expect(contacts.slice(1).every((ohms, i) => ohms < contacts[i]!)).toBe(true)
  })

  it('rise with length and with gauge', () => {
    fc.assert(
      fc.property(gauge, length, fc.constantFrom(...CONTACT_CONNECTORS), (number, metres, connector) => {
        const leads = { gauge: number, length: metres, connector }
        expect(leadsResistance({ ...leads, length: metres + 0.1 })).toBeGreaterThan(leadsResistance(leads))
        if (number < 40 && metres > 1e-6)
          expect(leadsResistance({ ...leads, gauge: number + 1 })).toBeGreaterThan(leadsResistance(leads))
      }),
    )
  })

  it('refuse a connector whose contacts nobody listed', () => {
    expect(() => leadsResistance({ gauge: 10, length: 0.1, connector: 'open' })).toThrow(
      /connector must be one of bullet 2 mm, .*, got "open"/,
    )
  })
})

describe('believable rate (assumed: a lasting drop of 0.28 V over a cell)', () => {
  const HOUR = 3600

  it.each([
    [0.006, 46.67],
    [0.009, 31.11],
    [0.0175, 16],
  ])('of a cell with %f Ω·Ah is about %f per hour', (k, rate) => {
    expect(believableRate(k / 5, 5 * HOUR)).toBeCloseTo(rate, 2)
  })

  it('times the charge is the believable current, whatever the charge', () => {
    const ohms = fc.double({ min: 1e-4, max: 0.2, noNaN: true })
    const charge = fc.double({ min: 360, max: 2e5, noNaN: true })
    fc.assert(
      fc.property(ohms, charge, (resistance, capacity) => {
        const current = (believableRate(resistance, capacity) * capacity) / HOUR
        expect(relativeError(current, believableCurrent(resistance))).toBeLessThan(1e-12)
        expect(relativeError(current * resistance, 0.28)).toBeLessThan(1e-12)
      }),
    )
  })

  it.each([
    ['no resistance', () => believableCurrent(0), /cell resistance must be above 0 Ω, got 0/],
    ['a resistance that is no number', () => believableRate(Number.NaN, 18000), /cell resistance .* got NaN/],
    ['no charge', () => believableRate(0.002, 0), /capacity must be above 0 A·s, got 0/],
  ])('refuses %s', (_what, act, message) => {
    expect(act).toThrow(RangeError)
    expect(act).toThrow(message)
  })
})
