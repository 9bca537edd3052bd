// Forced convection against worked solutions, what must hold, and what it says about the conductances and temperature
// limits that catalogues give.
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import {
  canConductance,
  cylinderNusselt,
  type FilmAir,
  laminarPlateNusselt,
  mixedPlateNusselt,
  TRANSITION_REYNOLDS,
} from '@ductwright/models/thermal/convection'
import { lumpRise } from '@ductwright/models/thermal/lump'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { motorOf } from './believable-parts.js'

const NUSSELT: Readonly<Record<string, (reynolds: number, prandtl: number) => number>> = {
  'laminar plate': laminarPlateNusselt,
  'mixed plate': mixedPlateNusselt,
  cylinder: cylinderNusselt,
}

/** Air at 60 °C and sea level, between a warm can and a summer's day; from memory. */
const FILM: FilmAir = { conductivity: 0.0281, kinematicViscosity: 1.9e-5, prandtl: 0.72 }

describe('Nusselt numbers (Çengel, chapter 7; printed)', () => {
  const table = authorityTable('forced-convection')
  it.each(table.rows.map((row) => [row.text('surface'), row.text('solution'), row] as const))(
    '%s, solution %s',
    (surface, _solution, row) => {
      const found = NUSSELT[surface]?.(row.number('reynolds'), row.number('prandtl')) ?? Number.NaN
      expect(relativeError(found, row.number('nusselt'))).toBeLessThan(table.tolerance)
    },
  )
})

describe('what must hold of convection', () => {
  const within = (min: number, max: number) => fc.double({ min, max, noNaN: true })

  it('more flow carries more heat away, along and across', () => {
    fc.assert(
      fc.property(within(0.02, 0.06), within(0.03, 0.1), within(2, 120), (diameter, length, speed) => {
        for (const flow of ['axial', 'cross'] as const) {
          const can = { diameter, length, flow }
          expect(canConductance(can, 1.05 * speed, FILM)).toBeGreaterThan(canConductance(can, speed, FILM))
        }
      }),
    )
  })

  it('the plate does not jump where its boundary layer turns turbulent', () => {
    const laminar = laminarPlateNusselt(TRANSITION_REYNOLDS, 0.71)
    expect(relativeError(mixedPlateNusselt(TRANSITION_REYNOLDS, 0.71), laminar)).toBeLessThan(2e-3)
  })

  it('a cylinder in hardly any flow keeps the conduction term of 0.3', () => {
    expect(cylinderNusselt(1, 0.72)).toBeGreaterThan(0.3)
    expect(cylinderNusselt(0.3, 0.72)).toBeLessThan(0.8)
  })

  it('of one shape, conductance in laminar flow grows as size to the 3/2', () => {
    const at = (scale: number) =>
      canConductance({ diameter: 0.03 * scale, length: 0.05 * scale, flow: 'axial' }, 60, FILM)
    expect(relativeError(at(1.5) / at(1), 1.5 ** 1.5)).toBeLessThan(1e-9)
  })
})

describe('conductances of the catalogue law (assumed) against the correlations', () => {
  /** Can of a mass: 4500 kg/m³ and 1.65 times as long as wide (assumed). */
  const canOf = (mass: number) => {
    const diameter = Math.cbrt((4 * mass) / (4500 * Math.PI * 1.65))
    return { diameter, length: 1.65 * diameter }
  }
  const MASSES = [0.085, 0.15, 0.25, 0.33, 0.5, 0.7]

  it.each(MASSES)(
    '%f kg in the 90 m/s behind a rotor: between half the smooth can and twice the can across',
    (mass) => {
      const law = motorOf(1080, mass).caseToAirConductance
      expect(law).toBeGreaterThan(0.5 * canConductance({ ...canOf(mass), flow: 'axial' }, 90, FILM))
      expect(law).toBeLessThan(2 * canConductance({ ...canOf(mass), flow: 'cross' }, 90, FILM))
    },
  )

  it('0.6 of it, as on the bench, belongs to a stream of 10 to 70 % of the speed, by laminar and turbulent laws', () => {
    // Conductance goes with speed to the ½ to 0.8.
    for (const mass of MASSES) {
      const can = { ...canOf(mass), flow: 'cross' } as const
      const ratio = (share: number) => canConductance(can, share * 90, FILM) / canConductance(can, 90, FILM)
      expect(ratio(0.1)).toBeLessThan(0.6)
      expect(ratio(0.7)).toBeGreaterThan(0.6)
    }
  })

  it('the motors of the demonstration lie in the same band, by their own cans', async () => {
    const { motors } = await readCatalogueFolder(demoCatalogueFolder)
    expect(motors.length).toBeGreaterThan(20)
    for (const { part } of motors) {
      const can = { diameter: part.canDiameter, length: part.canLength }
      const low = 0.4 * canConductance({ ...can, flow: 'axial' }, 90, FILM)
      const high = 2.2 * canConductance({ ...can, flow: 'cross' }, 90, FILM)
      expect(part.caseToAirConductance, part.id).toBeGreaterThan(low)
      expect(part.caseToAirConductance, part.id).toBeLessThan(high)
    }
  })
})

describe('a store that gives nothing away', () => {
  it('is the limit of one that gives little: 150 A through 30 mΩ in 1.6 kg of pack, 0.4018 K/s (computed)', () => {
    const table = authorityTable('pack-sag')
    const expected = quantityOf(table, 'adiabatic_rise_150_a_30_mohm_1600_g_k_per_s')
    const rise = lumpRise(150 ** 2 * 0.03, 1e-9, 1.6 * 1050, 60) / 60
    expect(relativeError(rise, expected)).toBeLessThan(table.tolerance)
  })
})

describe('temperature limits of the demonstration (classes of IEC 60085 and grades from memory)', () => {
  const { rows } = authorityTable('thermal-limits')
  const limitOf = (kind: string, name: string) => {
    const row = rows.find((each) => each.text('kind') === kind && each.text('name') === name)
    if (row === undefined) throw new RangeError(`no limit of ${kind} ${name}`)
    return row.number('limit_c')
  }
  const celsius = (kelvin: number) => Math.round(100 * (kelvin - ZERO_CELSIUS)) / 100

  it('classes and grades ascend', () => {
    for (const kind of ['insulation', 'magnet']) {
      const limits = rows.filter((row) => row.text('kind') === kind).map((row) => row.number('limit_c'))
      expect(limits.length).toBeGreaterThan(3)
      expect(limits).toEqual([...limits].sort((a, b) => a - b))
    }
  })

  it('windings are held to what insulation of class B to F stands', async () => {
    const { motors } = await readCatalogueFolder(demoCatalogueFolder)
    const limits = motors.map(({ part }) => celsius(part.windingTemperatureLimit))
    expect(Math.min(...limits)).toBeGreaterThanOrEqual(limitOf('insulation', 'B'))
    expect(Math.max(...limits)).toBeLessThanOrEqual(limitOf('insulation', 'F'))
  })

  it('magnets are of a grade that there is', async () => {
    const { motors } = await readCatalogueFolder(demoCatalogueFolder)
    const grades = rows.filter((row) => row.text('kind') === 'magnet').map((row) => row.number('limit_c'))
    for (const { part } of motors) expect(grades).toContain(celsius(part.magnetTemperatureLimit))
  })

  it('boards stay under what a transistor junction stands, packs under what a cell stands', async () => {
    const { escs, packs } = await readCatalogueFolder(demoCatalogueFolder)
    expect(escs.length).toBeGreaterThan(10)
    for (const { part } of escs) {
      expect(celsius(part.boardTemperatureLimit)).toBeLessThan(limitOf('transistor', 'junction'))
      expect(celsius(part.boardTemperatureLimit)).toBeGreaterThan(80)
    }
    for (const { part } of packs) {
      expect(celsius(part.temperatureLimit)).toBeLessThanOrEqual(limitOf('cell', 'highest'))
      expect(celsius(part.temperatureLimit)).toBeGreaterThanOrEqual(limitOf('cell', 'planned'))
    }
  })
})

describe('refusals name quantity, rule and value', () => {
  const can = { diameter: 0.036, length: 0.06, flow: 'axial' } as const
  it.each([
    [() => laminarPlateNusselt(0, 0.7), /Reynolds number of a plate must be above 0 and finite, got 0/],
    [() => laminarPlateNusselt(5.1e5, 0.7), /laminar plate must lie between 0 and 500000, got 510000/],
    [() => laminarPlateNusselt(1e5, 0.5), /Prandtl number of a plate must lie between 0.6 and 60, got 0.5/],
    [() => mixedPlateNusselt(4e5, 0.7), /mixed plate must lie between 500000 and 10000000, got 400000/],
    [() => mixedPlateNusselt(1e6, Number.NaN), /Prandtl number of a plate .* got NaN/],
    [() => cylinderNusselt(0.1, 0.7), /Reynolds number of a cylinder must lie between 0.28.* got 0.1/],
    [() => cylinderNusselt(2e7, 0.7), /Reynolds number of a cylinder .* 10000000, got 20000000/],
    [() => cylinderNusselt(1e4, -1), /Prandtl number of a cylinder must be above 0 and finite, got -1/],
    [() => canConductance(can, 0, FILM), /stream speed in m\/s must be above 0 and finite, got 0/],
    [() => canConductance(can, Number.POSITIVE_INFINITY, FILM), /stream speed .* got Infinity/],
    [() => canConductance({ ...can, diameter: -0.03 }, 50, FILM), /can diameter in m .* got -0.03/],
    [() => canConductance({ ...can, length: Number.NaN }, 50, FILM), /can length in m .* got NaN/],
    [() => canConductance(can, 50, { ...FILM, kinematicViscosity: 0 }), /kinematic viscosity in m²\/s .* got 0/],
    [() => canConductance(can, 50, { ...FILM, conductivity: -1 }), /conductivity in W\/\(m·K\) .* got -1/],
  ])('case %#', (act, message) => {
    expect(act).toThrow(RangeError)
    expect(act).toThrow(message)
  })
})
