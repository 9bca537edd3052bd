// The axes of the parallel lines and what is picked on them.
import type { Objectives } from '@ductwright/contract/result'
import { axesOf, placeOf, valueAt } from '@ductwright/report/page/browser/axes'
import { brushed, isWithin, nothingBrushed } from '@ductwright/report/page/browser/brush'
import { spanOf } from '@ductwright/report/page/browser/brush-form'
import { ownObjectives } from '@ductwright/report/page/browser/compare-form'
import { sortedRanks } from '@ductwright/report/page/browser/sort-table'
import { pageData } from '@ductwright/report/page/page-data'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'

const raw: fc.Arbitrary<Objectives> = fc.record({
  speed_km_h: fc.double({ min: 40, max: 900, noNaN: true }),
  flight_time_s: fc.double({ min: 20, max: 2400, noNaN: true }),
  cost: fc.double({ min: 0, max: 40_000, noNaN: true }),
  margin: fc.double({ min: -0.3, max: 0.95, noNaN: true }),
})

describe('the axes', () => {
  it('hold every setup between round ends, with two to seven ticks', () => {
    fc.assert(
      fc.property(fc.array(raw, { minLength: 1, maxLength: 12 }), (raws) => {
        for (const axis of axesOf(
          raws.map((one) => ({ raw: one })),
          'EUR',
        )) {
          expect(axis.ticks.length).toBeGreaterThanOrEqual(2)
          expect(axis.ticks.length).toBeLessThanOrEqual(7)
          for (const one of raws) {
            const place = placeOf(axis, one[axis.key])
            expect(place).toBeGreaterThanOrEqual(-1e-6)
            expect(place).toBeLessThanOrEqual(1 + 1e-6)
            expect(Math.abs(valueAt(axis, place) - one[axis.key])).toBeLessThanOrEqual(axis.grain * 0.5 + 1e-6)
          }
        }
      }),
    )
  })

  it('have better up: more speed, time and distance to the design load, less money', () => {
    const raws = [
      { raw: { speed_km_h: 300, flight_time_s: 200, cost: 100, margin: 0.1 } },
      { raw: { speed_km_h: 360, flight_time_s: 300, cost: 900, margin: 0.3 } },
    ]
    const [low, high] = raws.map(({ raw }) => axesOf(raws, 'EUR').map((axis) => placeOf(axis, raw[axis.key])))
    expect(high?.map((place, at) => place > (low?.[at] ?? 0))).toEqual([true, true, false, true])
  })

  it('say their unit, the currency of the answer among them', () => {
    const names = axesOf([{ raw: { speed_km_h: 300, flight_time_s: 200, cost: 100, margin: 0.1 } }], 'CHF')
    expect(names.map(({ name }) => name)).toEqual([
      'speed, km/h',
      'flight time, min',
      'to pay, CHF',
      'below the design load, %',
    ])
  })
})

describe('the brush', () => {
  const setup = { speed_km_h: 350, flight_time_s: 260, cost: 700, margin: 0.2 }

  it('keeps what lies within every span, ends included', () => {
    const fast = brushed(nothingBrushed, 'speed_km_h', { low: 350, high: 400 })
    expect(isWithin(setup, fast)).toBe(true)
    expect(isWithin(setup, brushed(fast, 'cost', { low: 0, high: 699 }))).toBe(false)
    expect(isWithin(setup, brushed(fast, 'cost', null))).toBe(true)
    expect(isWithin(setup, brushed(fast, 'speed_km_h', { low: 351, high: 400 }))).toBe(false)
    expect(nothingBrushed.size).toBe(0)
  })

  it('reads its ends in the unit of the axis, an empty one as open', () => {
    expect(spanOf({ scale: 1 / 60 }, '4.5', '')).toEqual({ low: 270, high: Number.POSITIVE_INFINITY })
    expect(spanOf({ scale: 100 }, '', '25')).toEqual({ low: Number.NEGATIVE_INFINITY, high: 0.25 })
    expect(spanOf({ scale: 1 }, ' ', '')).toBeNull()
  })
})

describe('own numbers', () => {
  it('count once all four are there', () => {
    const four = { speed: '350', time: '4.5', cost: '0', margin: '20' }
    expect(ownObjectives(four)).toEqual({ speed_km_h: 350, flight_time_s: 270, cost: 0, margin: 0.2 })
    expect(ownObjectives({ ...four, cost: '' })).toBeNull()
    expect(ownObjectives({ ...four, time: 'four' })).toBeNull()
  })
})

describe('sorting', () => {
  const { rows } = pageData(answer({ members: 12 }))

  it('keeps the order of the list among equals, both ways', () => {
    const up = sortedRanks(rows, 'purchase', false)
    expect(up).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
    expect(sortedRanks(rows, 'purchase', true)).toEqual([10, 11, 12, 7, 8, 9, 4, 5, 6, 1, 2, 3])
  })

  it('refuses a column there is not', () => {
    expect(() => sortedRanks(rows, 'colour', false)).toThrow('the list has no column colour')
  })
})
