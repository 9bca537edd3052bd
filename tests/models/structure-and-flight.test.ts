// Loads against computed numbers, balance, and what must hold.
import { BALANCE_TOLERANCE, packWindow, solveBalance } from '@ductwright/models/airframe/balance'
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { allowedLoadFactor, ELLIPTIC_ROOT_MOMENT, rootBendingMoment } from '@ductwright/models/structure/reserve'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { airframeOf } from './believable-parts.js'

describe('loads (elementary statics, computed)', () => {
  const table = authorityTable('structure')
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity))).toBeLessThan(table.tolerance)

  it('root bending moment of an elliptic distribution', () => {
    check('elliptic_root_factor', ELLIPTIC_ROOT_MOMENT)
    check(
      'elliptic_moment_5_kg_1400_mm_10_g_nm',
      rootBendingMoment(ELLIPTIC_ROOT_MOMENT, 10, 5 * STANDARD_GRAVITY, 1.4),
    )
  })

  it('a uniform distribution bends the root more: 1/8 against 1/(3π)', () => {
    expect(rootBendingMoment(0.125, 1, 1, 1)).toBe(0.125)
    // The root moment of an elliptic half wing by summing strips.
    let moment = 0
    let lift = 0
    for (let i = 0; i < 20_000; i++) {
      const y = (i + 0.5) / 40_000
      const strip = Math.sqrt(1 - (2 * y) ** 2)
      lift += 2 * strip
      moment += strip * y
    }
    expect(moment / lift).toBeCloseTo(ELLIPTIC_ROOT_MOMENT, 5)
  })

  const factors = authorityTable('load-factors')
  it.each(factors.rows)('load factor of an airframe (assumed ranges, computed), row %#', (row) => {
    const weight = row.number('mass_kg') * STANDARD_GRAVITY
    const found = allowedLoadFactor(row.number('root_moment_nm'), weight, row.number('span_mm') / 1000)
    expect(relativeError(found, row.number('load_factor'))).toBeLessThan(factors.tolerance)
  })
})

describe('balance', () => {
  const airframe = airframeOf()
  const balanced = (pair: number, packs: number) => {
    const balance = { packStation: 0, ballast: 0 }
    solveBalance(airframe, airframe.emptyMass, pair, 0.2, packs, balance)
    return balance
  }

  it('moments about the centre of gravity cancel, ballast in nose or tail included', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1.5, noNaN: true }),
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        (pair, packs) => {
          const { packStation, ballast } = balanced(pair, packs)
          const cg = airframe.centreOfGravity
          const moment =
            airframe.emptyMass * (airframe.emptyStation - cg) +
            pair * (airframe.fanStation - cg) +
            0.2 * (airframe.escStation - cg) +
            packs * (packStation - cg)
          const lever = (moment > 0 ? airframe.noseBallastStation : airframe.tailBallastStation) - cg
          expect(moment + ballast * lever).toBeCloseTo(0, 9)
          expect(ballast).toBeGreaterThanOrEqual(0)
          expect(packStation).toBeGreaterThanOrEqual(airframe.packStationMin)
          expect(packStation).toBeLessThanOrEqual(airframe.packStationMax)
        },
      ),
    )
  })

  it('no ballast while the packs can be moved, nose ballast for a heavy fan', () => {
    expect(balanced(0.6, 1.5).ballast).toBe(0)
    expect(balanced(4, 0.5).ballast).toBeGreaterThan(0)
    expect(balanced(4, 0.5).packStation).toBe(airframe.packStationMin)
  })

  it('the packs may be moved until the centre of gravity is off by its tolerance or their room ends (moments, computed)', () => {
    let [free, stopped] = [0, 0]
    for (const pair of [0.2, 0.4, 0.6, 0.8, 1, 1.2]) {
      for (const packs of [0.6, 1.2, 1.8]) {
        const balance = balanced(pair, packs)
        if (balance.ballast > airframe.ballastLimit) continue
        const mass = airframe.emptyMass + pair + 0.2 + packs + balance.ballast
        const window = packWindow(airframe, balance, mass, packs)
        const offset = (station: number) => {
          const { centreOfGravity: cg, emptyMass, noseBallastStation, tailBallastStation } = airframe
          const heavy = emptyMass * (airframe.emptyStation - cg) + pair * (airframe.fanStation - cg)
          const inner = heavy + 0.2 * (airframe.escStation - cg) + packs * (balance.packStation - cg)
          const ballast = balance.ballast * ((inner > 0 ? noseBallastStation : tailBallastStation) - cg)
          return (inner + packs * (station - balance.packStation) + ballast) / mass
        }
        for (const [end, limit] of [airframe.packStationMin, airframe.packStationMax].entries()) {
          const station = window?.[end] ?? Number.NaN
          if (station === limit) {
            stopped++
            expect(Math.abs(offset(station))).toBeLessThanOrEqual(BALANCE_TOLERANCE + 1e-12)
          } else {
            free++
            expect(offset(station)).toBeCloseTo(end === 0 ? -BALANCE_TOLERANCE : BALANCE_TOLERANCE, 12)
          }
        }
      }
    }
    expect(Math.min(free, stopped)).toBeGreaterThan(2)
  })

  it('nowhere when it takes more ballast than the airframe does', () => {
    const heavy = { packStation: airframe.packStationMin, ballast: airframe.ballastLimit * 1.001 }
    expect(packWindow(airframe, heavy, 4, 1)).toBeNull()
    expect(packWindow(airframe, { ...heavy, ballast: airframe.ballastLimit }, 4, 1)?.[0]).toBe(heavy.packStation)
  })
})
