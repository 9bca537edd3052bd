// Take-off, stall, climb, dives, turns and the run in closed form: against computed numbers, and what must hold.
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { bestClimb, climbSpeed } from '@ductwright/models/flight/climb'
import { type Dive, diveSpeed, terminalSpeed, verticalDiveSpeed } from '@ductwright/models/flight/dive'
import { flightTime, meanCurrent } from '@ductwright/models/flight/flight-time'
import { entrySpeed, runSpeed } from '@ductwright/models/flight/run-speed'
import { stallSpeeds } from '@ductwright/models/flight/stall'
import { groundRoll, rollTime, stallSpeed } from '@ductwright/models/flight/take-off'
import { bankAngle, halfTurnTime, stallLoadFactor, sustainedLoadFactor, turnDrag } from '@ductwright/models/flight/turn'
import { inducedDragFactor } from '@ductwright/models/operating-point/level'
import { tightestTurn, turnLoadFactor } from '@ductwright/models/structure/loads'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { DEGREE } from './believable-parts.js'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

const DENSITY = 1.225
const WEIGHT = 5 * STANDARD_GRAVITY
const WING = { area: 0.35, span: 1.4, oswald: 0.8, dragArea: 0.35 * 0.025 }
const PARASITE = 0.5 * DENSITY * WING.dragArea
const INDUCED = inducedDragFactor(WING, WEIGHT, DENSITY)
const LIFTING = { wingArea: 0.35, liftCoefficientMax: 1.1, liftCoefficientMaxFlaps: 1.6 }

describe('field performance (McCormick; Anderson, from memory; computed)', () => {
  const table = authorityTable('field-performance')
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity))).toBeLessThan(table.tolerance)
  const stall = stallSpeed(WEIGHT, DENSITY, WING.area, 1.1)

  it('stall, lift-off and landing, clean and with flaps', () => {
    const speeds = stallSpeeds(LIFTING, WEIGHT, DENSITY)
    expect(speeds.clean).toBe(stall)
    check('stall_m_s', speeds.clean)
    check('lift_off_m_s', speeds.liftOff)
    check('stall_flaps_m_s', speeds.flaps)
    check('landing_m_s', speeds.landing)
  })

  it('flaps that lift less than none are refused', () => {
    expect(() => stallSpeeds({ ...LIFTING, liftCoefficientMaxFlaps: 1 }, WEIGHT, DENSITY)).toThrow(
      /liftCoefficientMaxFlaps must be at least liftCoefficientMax \(1\.1\), got 1/,
    )
  })

  it('ground roll', () => check('ground_roll_m', groundRoll(WEIGHT, DENSITY, stall, 45, 0.04, WING)))

  it('a roll takes the time of even acceleration to lift-off', () => {
    const acceleration = 17.3 ** 2 / (2 * 17.643)
    expect(rollTime(17.643, 17.3)).toBeCloseTo(17.3 / acceleration, 12)
  })

  it('too little thrust never takes off; more thrust takes less ground', () => {
    expect(groundRoll(WEIGHT, DENSITY, stall, 1, 0.04, WING)).toBe(Number.POSITIVE_INFINITY)
    const rolls = [10, 20, 40, 80].map((thrust) => groundRoll(WEIGHT, DENSITY, stall, thrust, 0.04, WING))
    expect(rolls).toEqual([...rolls].sort((a, b) => b - a))
  })

  it('climb', () => check('climb_m_s', climbSpeed(50, 30, turnDrag(PARASITE, INDUCED, 50, 1), WEIGHT)))

  const excess = (speed: number) => 40 - 0.2 * speed - turnDrag(PARASITE, INDUCED, speed, 1)
  it('best climb (scipy.optimize.minimize_scalar)', () => {
    check('best_climb_m_s', bestClimb(1.3 * stall, 67, excess, WEIGHT).rate)
  })

  it('no speed of a fine grid climbs better than the best climb, wherever thrust peaks', () => {
    fc.assert(
      fc.property(between(15, 120), between(0, 0.4), (thrust, fall) => {
        const spare = (speed: number) => thrust - fall * speed - turnDrag(PARASITE, INDUCED, speed, 1)
        const best = bestClimb(20, 70, spare, WEIGHT)
        const grid = Array.from({ length: 1001 }, (_, i) => climbSpeed(20 + i / 20, spare(20 + i / 20), 0, WEIGHT))
        expect(Math.max(...grid)).toBeLessThanOrEqual(best.rate + 0.01)
      }),
      { numRuns: 40 },
    )
  })

  it('straight up is the steepest climb, and a range of speeds without room is refused', () => {
    expect(climbSpeed(30, 500, 10, WEIGHT)).toBe(30)
    expect(() => bestClimb(30, 25, excess, WEIGHT)).toThrow(/between 30 m\/s and top speed, got a top speed of 25/)
  })
})

describe('dives (closed forms, and SciPy solve_ivp along the path)', () => {
  const { rows, tolerance } = authorityTable('dives')

  it.each(rows.map((row) => [row.text('kind'), row] as const))('%s, row %#', (kind, row) => {
    const mass = row.number('mass_kg')
    const weight = mass * STANDARD_GRAVITY
    const angle = row.number('angle_deg') * DEGREE
    const ways: Readonly<Record<string, () => number>> = {
      terminal: () => terminalSpeed(weight, angle, row.number('excess_n'), DENSITY, 0.009),
      free: () =>
        verticalDiveSpeed(
          terminalSpeed(weight, angle, 0, DENSITY, 0.009),
          row.number('entry_m_s'),
          row.number('height_m'),
          STANDARD_GRAVITY,
        ),
      full: () =>
        diveSpeed({
          steady: row.number('steady_m_s'),
          entry: row.number('entry_m_s'),
          excess: row.number('excess_n'),
          weight,
          mass,
          height: row.number('height_m'),
          angle,
        }),
    }
    expect(relativeError(ways[kind]?.() ?? Number.NaN, row.number('speed_m_s'))).toBeLessThan(tolerance)
  })

  /** Thrust falls linearly with V², as the closed form takes it. */
  const dive = (entry: number, height: number, angle: number, changes: Partial<Dive> = {}): number => {
    const steady = 88
    const excess = 6e-3 * (steady * steady - entry * entry)
    return diveSpeed({ steady, entry, excess, weight: 43, mass: 43 / STANDARD_GRAVITY, height, angle, ...changes })
  }
  const drops = [between(20, 87), between(5, 250), between(5 * DEGREE, 90 * DEGREE)] as const

  it('ends faster from higher and from a faster entry, above the level run of the same length, below the steady dive', () => {
    fc.assert(
      fc.property(...drops, (entry, height, angle) => {
        const reached = dive(entry, height, angle)
        expect(dive(entry, 1.1 * height, angle)).toBeGreaterThan(reached)
        expect(dive(1.01 * entry, height, angle)).toBeGreaterThan(reached)
        const length = height / Math.sin(angle)
        const excess = 6e-3 * (88 * 88 - entry * entry)
        expect(reached).toBeGreaterThan(runSpeed(88, entry, excess, 43 / STANDARD_GRAVITY, length))
        expect(reached).toBeLessThan(Math.sqrt(88 * 88 + (43 * Math.sin(angle)) / 6e-3))
      }),
    )
  })

  it('steeper is faster above the steady speed, where drag beats thrust; below it a longer path helps', () => {
    fc.assert(
      fc.property(between(89, 130), between(5, 250), between(5 * DEGREE, 80 * DEGREE), (entry, height, angle) => {
        expect(dive(entry, height, 1.1 * angle)).toBeGreaterThan(dive(entry, height, angle))
      }),
    )
    expect(dive(40, 20, 10 * DEGREE)).toBeGreaterThan(dive(40, 20, 60 * DEGREE))
  })

  it('without thrust it is the free dive: drag alone makes the law', () => {
    const terminal = terminalSpeed(WEIGHT, 90 * DEGREE, 0, DENSITY, 0.009)
    fc.assert(
      fc.property(between(5, 140), between(1, 300), (entry, height) => {
        const excess = -0.5 * DENSITY * 0.009 * entry * entry
        const free = { steady: 0, entry, excess, weight: WEIGHT, mass: 5, height, angle: 90 * DEGREE }
        expect(diveSpeed(free)).toBeCloseTo(verticalDiveSpeed(terminal, entry, height, STANDARD_GRAVITY), 9)
      }),
    )
  })

  it('no height leaves the entry speed, and an excess found elsewhere on the same law gives the same dive', () => {
    expect(dive(52.8, 0, 0.5)).toBe(52.8)
    const probed = { excess: 6e-3 * (88 * 88 - 60 * 60), excessSpeed: 60 }
    expect(dive(52.8, 80, 0.5, probed)).toBeCloseTo(dive(52.8, 80, 0.5), 10)
    // Entered at the steady speed the excess is 0 and says nothing; found elsewhere it does.
    const beside = dive(88 * 0.99999, 80, 0.5)
    expect(dive(88, 80, 0.5, probed)).toBeCloseTo(beside, 2)
  })

  it('where the excess says nothing, height turns into speed without loss', () => {
    const lossless = Math.sqrt(88 * 88 + 2 * STANDARD_GRAVITY * 60)
    expect(dive(88, 60, 0.5)).toBeCloseTo(lossless, 9)
    const slow = Math.sqrt(20 * 20 + 2 * STANDARD_GRAVITY * 60)
    expect(dive(20, 60, 0.5, { excess: -3 })).toBeCloseTo(slow, 9)
    expect(dive(88, 60, 0.5)).toBeGreaterThan(dive(87.99, 60, 0.5))
  })

  it('a height below the start and a dive that does not go down are refused', () => {
    expect(() => dive(50, -1, 0.5)).toThrow(/height of a dive must be at least 0 m, got -1/)
    expect(() => dive(50, 10, 0)).toThrow(/angle of a dive must lie above 0 and at most π\/2 rad, got 0/)
    expect(() => dive(50, 10, 2)).toThrow(/got 2/)
  })
})

describe('turns (McCormick, from memory; computed by bank angle and turn rate)', () => {
  const { rows, tolerance } = authorityTable('turns')

  it.each(rows)('row %#', (row) => {
    const speed = row.number('speed_m_s')
    const n = row.number('load_factor')
    const radius = tightestTurn(speed, n)
    expect(relativeError(bankAngle(n) / DEGREE, row.number('bank_deg'))).toBeLessThan(tolerance)
    expect(relativeError(radius, row.number('radius_m'))).toBeLessThan(tolerance)
    expect(relativeError(halfTurnTime(speed, radius), row.number('half_turn_s'))).toBeLessThan(tolerance)
    expect(relativeError(turnDrag(PARASITE, INDUCED, speed, n), row.number('drag_n'))).toBeLessThan(tolerance)
  })

  it('radius and load factor undo each other, and thrust equal to the drag of a turn sustains it', () => {
    fc.assert(
      fc.property(between(15, 120), between(1.01, 9), (speed, n) => {
        expect(turnLoadFactor(speed, tightestTurn(speed, n))).toBeCloseTo(n, 9)
        const drag = turnDrag(PARASITE, INDUCED, speed, n)
        expect(sustainedLoadFactor(PARASITE, INDUCED, speed, drag)).toBeCloseTo(n, 6)
      }),
    )
    expect(sustainedLoadFactor(PARASITE, INDUCED, 60, 1)).toBe(0)
  })

  it('at the stall the wing lifts just the weight, at twice that speed four times it', () => {
    expect(stallLoadFactor(14.42, 14.42)).toBe(1)
    expect(stallLoadFactor(28.84, 14.42)).toBe(4)
  })

  it('a load factor below 1 is refused', () => {
    expect(() => bankAngle(0.9)).toThrow(/load factor of a level turn must be at least 1, got 0.9/)
    expect(() => turnDrag(PARASITE, INDUCED, 40, Number.NaN)).toThrow(/got NaN/)
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
      fc.property(between(0.3, 0.95), between(50, 1500), (share, length) => {
        const steady = 88
        const entry = entrySpeed(steady, share, 0, STANDARD_GRAVITY)
        const reached = runSpeed(steady, entry, exact(steady, entry), mass, length)
        expect(reached).toBeGreaterThan(entry)
        expect(reached).toBeLessThan(steady)
        expect(runSpeed(steady, entry, exact(steady, entry), mass, 1.1 * length)).toBeGreaterThan(reached)
      }),
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
