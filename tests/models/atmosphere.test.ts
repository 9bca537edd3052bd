// The air against its standard, and what must hold in it.
import { fieldAir, geopotentialHeight, standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { GAS_CONSTANT_AIR, ZERO_CELSIUS } from '@ductwright/models/constants'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'

const standard = authorityTable('standard-atmosphere')
const field = authorityTable('field-air')

describe('standard atmosphere (ISO 2533:1975; 1000 m row printed, others computed)', () => {
  for (const row of standard.rows) {
    it(`at ${row.number('height_m')} m`, () => {
      const air = standardAtmosphere(row.number('height_m'))
      const found = {
        temperature_k: air.temperature,
        pressure_pa: air.pressure,
        density_kg_m3: air.density,
        sound_m_s: air.soundSpeed,
        viscosity_pa_s: air.viscosity,
      }
      for (const [column, value] of Object.entries(found)) {
        expect(relativeError(value, row.number(column)), column).toBeLessThan(standard.tolerance)
      }
    })
  }

  it('1000 m of geometric height is 999.84 m of geopotential height, with 89876.3 Pa (computed)', () => {
    expect(standardAtmosphere(geopotentialHeight(1000)).pressure).toBeCloseTo(89876.3, 1)
  })
})

describe('air over a field (perfect gas at standard pressure, computed)', () => {
  for (const row of field.rows) {
    it(`${row.number('elevation_m')} m and ${row.number('temperature_c')} °C`, () => {
      const air = fieldAir(row.number('elevation_m'), row.number('temperature_c') + ZERO_CELSIUS)
      expect(relativeError(air.density, row.number('density_kg_m3'))).toBeLessThan(field.tolerance)
    })
  }
})

describe('what must hold', () => {
  it('the gas law, and density falls with height', () => {
    fc.assert(
      fc.property(fc.double({ min: -400, max: 10_000, noNaN: true }), (height) => {
        const air = standardAtmosphere(height)
        expect(air.density * GAS_CONSTANT_AIR * air.temperature).toBeCloseTo(air.pressure, 6)
        expect(standardAtmosphere(height + 10).density).toBeLessThan(air.density)
      }),
    )
  })

  it('a field at standard temperature has standard air', () => {
    expect(fieldAir(2000, 275.15).density).toBeCloseTo(standardAtmosphere(2000).density, 9)
  })
})

describe('refusals name parameter, rule and value', () => {
  it.each([
    [() => standardAtmosphere(11_001), /height must lie between -500 and 11000 m, got 11001/],
    [() => standardAtmosphere(Number.NaN), /height must lie .* got NaN/],
    [() => fieldAir(-501, 290), /height must lie .* got -501/],
    [() => fieldAir(0, 15), /temperature must lie between 200 and 340 K, got 15/],
  ])('case %#', (act, message) => {
    expect(act).toThrow(RangeError)
    expect(act).toThrow(message)
  })
})
