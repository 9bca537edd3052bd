// Quantities at the border: units, decimal signs, and everything that is not a quantity.
import type { DocumentedUnitName } from '@ductwright/contract/documented-unit'
import { readBySchema } from '@ductwright/contract/issue-faults'
import { quantity } from '@ductwright/contract/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { faultsOf } from './faults-of.js'

const field = (unit: DocumentedUnitName, min = -1e6, max = 1e6) =>
  quantity({ unit, min, max, why: 'the test says so', about: 'A field.' })

const read = (unit: DocumentedUnitName, value: unknown): number => readBySchema(field(unit), value, 'field')

const rule = (unit: DocumentedUnitName, value: unknown): string | undefined =>
  faultsOf(() => read(unit, value))[0]?.rule

// Exact definitions of NIST SP 811 (2008), appendix B: 1 mi = 1609.344 m, 1 nautical mile = 1852 m, 1 ft = 0.3048 m,
// 1 lb = 0.45359237 kg, 1 oz = 1 lb / 16, T(°C) = (T(°F) - 32) / 1.8. Decimal values worked out by hand from them.
const conversions: readonly [string, DocumentedUnitName, number][] = [
  ['1 mph', 'km/h', 1.609344 / 3.6],
  ['224 mph', 'km/h', 360.493056 / 3.6],
  ['100 knots', 'km/h', 185.2 / 3.6],
  ['100 kn', 'km/h', 185.2 / 3.6],
  ['100 kts', 'km/h', 185.2 / 3.6],
  ['100 m/s', 'km/h', 100],
  ['360 kph', 'km/h', 100],
  ['360km/h', 'km/h', 100],
  ['360 KM/H', 'km/h', 100],
  ['1000 ft/s', 'km/h', 304.8],
  ['300 ft', 'm', 91.44],
  ['1 mile', 'm', 1609.344],
  ['1.5 km', 'm', 1500],
  ['7.5 lb', 'kg', 3.401942775],
  ['7,5 lb', 'kg', 3.401942775],
  ['16 oz', 'kg', 0.45359237],
  ['3500 g', 'kg', 3.5],
  ['12 min', 's', 720],
  ['12 min', 'min', 720],
  ['90 s', 'min', 90],
  ['0.5 h', 'min', 1800],
  ['20 °C', '°C', 293.15],
  ['59 °F', '°C', 288.15],
  ['59 F', '°C', 288.15],
  ['288.15 K', '°C', 288.15],
  ['-5 °C', '°C', 268.15],
  ['−5 °C', '°C', 268.15],
  ['15°', '°', 15],
  ['15 deg', '°', 15],
  ['25 %', 'share', 0.25],
  ['0.25', 'share', 0.25],
  ['0,250', 'share', 0.25],
  ['6', 'ratio', 6],
]

describe('a quantity at the border', () => {
  it.each(conversions)('reads %s for a field in %s by the definitions of NIST SP 811', (text, unit, expected) => {
    // 4 units in the last place: two roundings in the conversion, one in the figure expected, one to spare.
    expect(Math.abs(read(unit, text) - expected)).toBeLessThanOrEqual(4 * Number.EPSILON * expected)
  })

  it('reads a number and the same number as text in the documented unit to the same bits', () => {
    const number = fc.double({ min: 0.001, max: 900_000, noNaN: true }).map((value) => Number(value.toPrecision(9)))
    const decimal = number.filter((value) => !String(value).includes('e'))
    fc.assert(
      fc.property(decimal, fc.constantFrom('km/h', 'm', 'kg', 's', 'min', '°C' as const), (value, unit) => {
        expect(read(unit, `${value} ${unit}`)).toBe(read(unit, value))
      }),
    )
  })

  it('reads a decimal comma as a decimal point', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999 }), fc.integer({ min: 0, max: 99 }), (whole, part) => {
        expect(read('kg', `${whole},${part} kg`)).toBe(read('kg', `${whole}.${part} kg`))
      }),
    )
  })

  it('comes back from pounds, feet and knots to the number it started from', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1000, noNaN: true }), (value) => {
        const text = value.toFixed(6)
        expect(read('kg', `${text} lb`) / 0.45359237).toBeCloseTo(Number(text), 9)
        expect(read('m', `${text} ft`) / 0.3048).toBeCloseTo(Number(text), 9)
        expect((read('km/h', `${text} kn`) * 3600) / 1852).toBeCloseTo(Number(text), 9)
      }),
    )
  })

  it.each([
    ['360 km', 'dimension'],
    ['5 kg', 'dimension'],
    ['3000 rpm', 'dimension'],
    ['5 mOhm', 'dimension'],
    ['360 furlongs', 'unit'],
    ['360 parsnips', 'unit'],
    ['360', 'unit'],
    ['25 %', 'unit'],
    ['1,200 km/h', 'number'],
    ['1e400 km/h', 'finite'],
    ['1e999', 'finite'],
    ['NaN', 'number'],
    ['NaN km/h', 'number'],
    ['Infinity km/h', 'number'],
    ['', 'number'],
    ['km/h', 'number'],
    ['360 km/h km/h', 'number'],
    ['3.6.0 km/h', 'number'],
    ['0x10 km/h', 'number'],
    ['1 200 km/h', 'number'],
    ['300+60 km/h', 'number'],
    ['1:1e8', 'number'],
    ['[1,2] km/h', 'number'],
    ['f() km/h', 'number'],
    [`${'9'.repeat(100)} km/h`, 'number'],
    [Number.NaN, 'finite'],
    [Number.POSITIVE_INFINITY, 'finite'],
    [null, 'type'],
    [true, 'type'],
    [[360], 'type'],
    [{ value: 360 }, 'type'],
  ])('refuses %j for a speed by the rule "%s"', (value, expected) => {
    expect(rule('km/h', value)).toBe(expected)
  })

  it('refuses what overflows only when converted', () => {
    expect(rule('m', '1e306 km')).toBe('finite')
  })

  it('names rule, value, limits and reason when a value is out of range', () => {
    const speed = quantity({ unit: 'km/h', min: 50, max: 800, why: 'air compresses', about: 'Speed.' })
    const [fault] = faultsOf(() => readBySchema(speed, '600 mph', 'speed_km_h'))
    expect(fault).toEqual({
      pointer: '',
      rule: 'range',
      value: '"600 mph"',
      message: 'speed_km_h must be from 50 km/h to 800 km/h (965.6064 km/h): air compresses; got "600 mph"',
    })
  })

  it('allows both limits themselves and nothing beyond', () => {
    const speed = field('km/h', 50, 800)
    expect(readBySchema(speed, 50, 'field')).toBe(50 / 3.6)
    expect(readBySchema(speed, '800 km/h', 'field')).toBe(800 / 3.6)
    expect(faultsOf(() => readBySchema(speed, 800.0001, 'field'))[0]?.rule).toBe('range')
    expect(faultsOf(() => readBySchema(speed, 49.9999, 'field'))[0]?.rule).toBe('range')
  })

  it('says what is wanted, with examples, when the unit is unknown', () => {
    const [fault] = faultsOf(() => read('kg', '7 stones'))
    expect(fault?.message).toContain('unknown unit "stones"')
    expect(fault?.message).toContain('a number in kg, or text such as "3.5 kg", "7.5 lb"')
  })

  it('never throws anything but faults, whatever the text', () => {
    const units = fc.constantFrom<DocumentedUnitName>('km/h', '°C', 'share', 'kg')
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string({ unit: 'grapheme' }).map((tail) => `5 ${tail}`),
        ),
        units,
        (text, unit) => {
          try {
            expect(Number.isFinite(read(unit, text))).toBe(true)
          } catch (error) {
            expect(error).toHaveProperty('name', 'InputError')
          }
        },
      ),
    )
  })
})
