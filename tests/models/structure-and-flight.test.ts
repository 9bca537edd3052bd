// Loads, field performance and the run against computed numbers, and what must hold.
import { solveBalance } from '@ductwright/models/airframe/balance'
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { climbSpeed, diveSpeed, terminalSpeed } from '@ductwright/models/flight/climb'
import { flightTime, meanCurrent } from '@ductwright/models/flight/flight-time'
import { entrySpeed, runSpeed } from '@ductwright/models/flight/run-speed'
import { groundRoll, stallSpeed } from '@ductwright/models/flight/take-off'
import { inducedDragFactor } from '@ductwright/models/operating-point/level'
import {
  allowedLoadFactor,
  ELLIPTIC_ROOT_MOMENT,
  pressureShare,
  rootBendingMoment,
} from '@ductwright/models/structure/reserve'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { airframeOf, DEGREE, KMH } from './believable-parts.js'

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

  it('share of the design pressure is the ratio of dynamic pressures', () => {
    for (const speed of [200, 300, 400, 500]) {
      // Against a design speed whose dynamic pressure is 1 Pa.
      check(`pressure_${speed}_km_h_pa`, pressureShare(speed * KMH, 1.225, Math.sqrt(2 / 1.225)))
    }
  })

  const factors = authorityTable('load-factors')
  it.each(factors.rows)('load factor of an airframe (assumed ranges, computed), row %#', (row) => {
    const weight = row.number('mass_kg') * STANDARD_GRAVITY
    const found = allowedLoadFactor(row.number('root_moment_nm'), weight, row.number('span_mm') / 1000)
    expect(relativeError(found, row.number('load_factor'))).toBeLessThan(factors.tolerance)
  })
})

describe('field performance (McCormick; Anderson, from memory; computed)', () => {
  const table = authorityTable('field-performance')
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity))).toBeLessThan(table.tolerance)
  const weight = 5 * STANDARD_GRAVITY
  const wing = { area: 0.35, span: 1.4, oswald: 0.8, dragArea: 0.35 * 0.025 }
  const stall = stallSpeed(weight, 1.225, 0.35, 1.1)

  it('stall', () => check('stall_m_s', stall))
  it('ground roll', () => check('ground_roll_m', groundRoll(weight, 1.225, stall, 45, 0.04, wing)))

  it('climb', () => {
    const drag = 0.5 * 1.225 * wing.dragArea * 2500 + inducedDragFactor(wing, weight, 1.225) / 2500
    check('climb_m_s', climbSpeed(50, 30, drag, weight))
  })

  it('dives', () => {
    const vertical = terminalSpeed(weight, 90 * DEGREE, 0, 1.225, 0.009)
    check('terminal_vertical_m_s', vertical)
    check('vertical_100_m_from_rest_m_s', diveSpeed(vertical, 0, 100, STANDARD_GRAVITY))
    check('vertical_100_m_from_60_m_s', diveSpeed(vertical, 60, 100, STANDARD_GRAVITY))
    check('terminal_45_deg_15_n_m_s', terminalSpeed(weight, 45 * DEGREE, 15, 1.225, 0.009))
  })

  it('too little thrust never takes off; more thrust takes less ground', () => {
    expect(groundRoll(weight, 1.225, stall, 1, 0.04, wing)).toBe(Number.POSITIVE_INFINITY)
    const rolls = [10, 20, 40, 80].map((thrust) => groundRoll(weight, 1.225, stall, thrust, 0.04, wing))
    expect(rolls).toEqual([...rolls].sort((a, b) => b - a))
  })
})

describe('the run', () => {
  const mass = 4.4
  /** Thrust falls linearly with V²: the case in which the formula is exact. */
  const exact = (steady: number, entry: number) => 8e-3 * (steady * steady - entry * entry)

  it('equals stepping the motion along the run when excess thrust falls with V²', () => {
    for (const entryShare of [0.4, 0.6, 1.2]) {
      const steady = 90
      const entry = entryShare * steady
      let v = entry
      const steps = 40_000
      for (let i = 0; i < steps; i++) {
        const half = v + (0.5 * (300 / steps) * exact(steady, v)) / (mass * v)
        v += ((300 / steps) * exact(steady, half)) / (mass * half)
      }
      expect(runSpeed(steady, entry, exact(steady, entry), mass, 300)).toBeCloseTo(v, 5)
    }
  })

  it('stays between entry and steady speed, grows with length, and is steady when entered steady', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 0.95, noNaN: true }),
        fc.double({ min: 50, max: 1500, noNaN: true }),
        (share, length) => {
          const steady = 88
          const entry = entrySpeed(steady, share, 0, STANDARD_GRAVITY)
          const reached = runSpeed(steady, entry, exact(steady, entry), mass, length)
          expect(reached).toBeGreaterThan(entry)
          expect(reached).toBeLessThan(steady)
          expect(runSpeed(steady, entry, exact(steady, entry), mass, 1.1 * length)).toBeGreaterThan(reached)
        },
      ),
    )
    expect(runSpeed(88, 88, 0, mass, 300)).toBe(88)
  })

  it('entered too slowly to accelerate it stays at its entry speed instead of becoming no number', () => {
    expect(runSpeed(22, 13, -4, mass, 400)).toBe(13)
  })

  it('height given up before it raises the entry by energy', () => {
    expect(entrySpeed(90, 0.6, 50, STANDARD_GRAVITY)).toBeCloseTo(Math.hypot(54, Math.sqrt(100 * STANDARD_GRAVITY)), 9)
  })
})

describe('flight time', () => {
  it('8 Ah with a quarter to a third at 155 A and 15 A between: 4 Ah in 4.5 min (common practice, no source)', () => {
    const mean = meanCurrent(155, 15, 0.28)
    const used = (mean * 270) / 3600
    expect(used).toBeGreaterThan(3.5)
    expect(used).toBeLessThan(4.5)
    expect(flightTime(8 * 3600, 0.2, mean)).toBeCloseTo((0.8 * 8 * 3600) / mean, 9)
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
})
