// Loads in curved flight, scatter of the criteria, and the speeds and loads that an airframe allows in given air.
import { fieldAir, standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { STANDARD_GRAVITY, ZERO_CELSIUS } from '@ductwright/models/constants'
import { surfaceFrequency } from '@ductwright/models/structure/control-flutter'
import { torquePressure } from '@ductwright/models/structure/control-forces'
import { CRITERION_SCATTER, loadDivisor, stricterDivisor } from '@ductwright/models/structure/criterion-scatter'
import { divergenceSpeed } from '@ductwright/models/structure/divergence'
import { panelFlutterSpeed } from '@ductwright/models/structure/flutter'
import {
  bankLoadFactor,
  dynamicPressure,
  pullUpLoadFactor,
  speedAtPressure,
  tightestPullUp,
  tightestTurn,
  turnLoadFactor,
  UNIFORM_ROOT_MOMENT,
} from '@ductwright/models/structure/loads'
import {
  allowedLoadFactor,
  allowedMountLoad,
  ELLIPTIC_ROOT_MOMENT,
  MARGIN_CRITERIA,
  SAFETY_FACTOR,
} from '@ductwright/models/structure/reserve'
import { SPEED_CRITERIA, speedLimits, speedMargin } from '@ductwright/models/structure/speed-limits'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type AirframeClass,
  CLASSES,
  classAileron,
  classNumber,
  classResults,
  classStructure,
  structures,
} from './airframe-classes.js'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { DEGREE, KMH } from './believable-parts.js'

const SEA_LEVEL = standardAtmosphere(0)
const NONE = Number.POSITIVE_INFINITY
const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('loads of flight (elementary statics; McCormick for turns, from memory)', () => {
  const table = authorityTable('structure')

  it('dynamic pressures, and the speeds back from them', () => {
    for (const speed of [200, 300, 400, 500]) {
      const pressure = dynamicPressure(1.225, speed * KMH)
      expect(relativeError(pressure, quantityOf(table, `pressure_${speed}_km_h_pa`))).toBeLessThan(table.tolerance)
      expect(speedAtPressure(pressure, 1.225)).toBeCloseTo(speed * KMH, 9)
    }
    expect(speedAtPressure(NONE, 1.225)).toBe(NONE)
  })

  it('an evenly loaded wing bends its root 3π/8 times as much as an elliptic one', () => {
    expect(UNIFORM_ROOT_MOMENT / ELLIPTIC_ROOT_MOMENT).toBeCloseTo((3 * Math.PI) / 8, 12)
  })

  it('60° of bank are two g, and a turn of given radius takes the bank whose tangent is V²/(g·R)', () => {
    expect(bankLoadFactor(60 * DEGREE)).toBeCloseTo(2, 12)
    expect(bankLoadFactor(0)).toBe(1)
    fc.assert(
      fc.property(positive(10, 200), positive(10, 2000), (speed, radius) => {
        const bank = Math.atan((speed * speed) / (STANDARD_GRAVITY * radius))
        expect(relativeError(turnLoadFactor(speed, radius), bankLoadFactor(bank))).toBeLessThan(1e-9)
      }),
    )
  })

  it('a pull-up at 100 m/s of 102 m takes eleven g; it loads more than a level turn of that radius', () => {
    expect(pullUpLoadFactor(100, 1e4 / (10 * STANDARD_GRAVITY))).toBeCloseTo(11, 12)
    fc.assert(
      fc.property(positive(10, 200), positive(10, 2000), (speed, radius) => {
        expect(pullUpLoadFactor(speed, radius)).toBeGreaterThan(turnLoadFactor(speed, radius))
      }),
    )
  })

  it('the tightest radius flown takes exactly the load factor it was asked for', () => {
    fc.assert(
      fc.property(positive(10, 200), positive(1.05, 40), (speed, loadFactor) => {
        const turn = turnLoadFactor(speed, tightestTurn(speed, loadFactor))
        expect(relativeError(turn, loadFactor)).toBeLessThan(1e-12)
        const pullUp = pullUpLoadFactor(speed, tightestPullUp(speed, loadFactor))
        expect(relativeError(pullUp, loadFactor)).toBeLessThan(1e-12)
      }),
    )
    expect(tightestTurn(80, 1)).toBe(NONE)
    expect(tightestPullUp(80, 1)).toBe(NONE)
  })

  it('refuses impossible flight', () => {
    expect(() => bankLoadFactor(90 * DEGREE)).toThrow(/^bank must lie between 0 and π\/2 rad/)
    expect(() => turnLoadFactor(80, 0)).toThrow(/^radius must be finite and above 0 m, got 0$/)
    expect(() => pullUpLoadFactor(-80, 50)).toThrow(/^speed /)
    expect(() => tightestTurn(80, 0.9)).toThrow(/^load factor of a curved path must be at least 1, got 0\.9$/)
    expect(() => tightestPullUp(80, Number.NaN)).toThrow(/^load factor .* got NaN$/)
    expect(() => speedAtPressure(-1, 1.225)).toThrow(/^dynamic pressure must be at least 0 Pa, got -1$/)
    expect(() => speedAtPressure(1000, 0)).toThrow(/^air density /)
  })
})

describe('scatter of the criteria (assumed)', () => {
  it('every criterion of the margin has its row, and its reason says what is assumed', () => {
    expect(Object.keys(CRITERION_SCATTER)).toEqual([...MARGIN_CRITERIA])
    for (const criterion of MARGIN_CRITERIA) {
      const { uncertainty, reason } = CRITERION_SCATTER[criterion]
      expect(reason.startsWith('Assumed: ')).toBe(uncertainty > 0)
    }
  })

  it('95 of 100 drawn pieces hold what the divisor leaves, when the 95 % value is the stricter', () => {
    for (const criterion of ['control-flutter', 'fan-mount'] as const) {
      const { uncertainty } = CRITERION_SCATTER[criterion]
      // Share of a normal distribution above the allowed load, by the trapezoidal rule.
      const low = (1 / loadDivisor(criterion) - 1) / uncertainty
      const step = 1e-3
      let share = 0
      for (let z = low; z < 8; z += step) share += step * 0.5 * (gauss(z) + gauss(z + step))
      expect(share).toBeCloseTo(0.95, 3)
    }
  })

  it('the stricter of factor and 95 % value counts, never their product', () => {
    expect(loadDivisor('design-speed')).toBe(1)
    expect(loadDivisor('wing-flutter')).toBe(2.25)
    expect(loadDivisor('servo-torque')).toBe(2)
    expect(loadDivisor('wing-bending')).toBe(1.5)
    expect(loadDivisor('wing-divergence')).toBeCloseTo(1 / (1 - 1.645 * 0.22), 12)
    expect(loadDivisor('wing-divergence')).toBeGreaterThan(1.25 ** 2)
    fc.assert(
      fc.property(positive(1, 4), positive(0, 0.6), (factor, uncertainty) => {
        const divisor = stricterDivisor(factor, uncertainty)
        expect(divisor).toBeGreaterThanOrEqual(factor)
        expect(divisor * (1 - 1.645 * uncertainty)).toBeGreaterThanOrEqual(1 - 1e-12)
        expect([factor, 1 / (1 - 1.645 * uncertainty)]).toContain(divisor)
      }),
    )
  })

  it('refuses a factor that adds load and an uncertainty that leaves nothing', () => {
    expect(() => stricterDivisor(0.9, 0.1)).toThrow(/^design factor must be at least 1, got 0\.9$/)
    expect(() => stricterDivisor(1.5, 0.61)).toThrow(
      /^relative uncertainty must be at least 0 and below 0\.608, got 0\.61$/,
    )
    expect(() => stricterDivisor(1.5, -0.1)).toThrow(RangeError)
  })

  it('a mount carries less than its stated load, a wing its ultimate moment over the safety factor', () => {
    expect(allowedMountLoad(130)).toBeCloseTo(130 * (1 - 1.645 * 0.15), 12)
    const weight = 4.4 * STANDARD_GRAVITY
    const moment = SAFETY_FACTOR * ELLIPTIC_ROOT_MOMENT * 6 * weight * 1.1
    expect(allowedLoadFactor(moment, weight, 1.1)).toBeCloseTo(6, 12)
  })
})

describe('three classes of airframe (assumed ranges, computed)', () => {
  const speedOf = (name: AirframeClass, criterion: string) => {
    const limits = speedLimits({ structure: classStructure(name), designSpeed: null }, SEA_LEVEL)
    return (limits.find((limit) => limit.criterion === criterion)?.speed ?? Number.NaN) / KMH
  }
  const found: Readonly<Record<string, (name: AirframeClass) => number>> = {
    wing_flutter_km_h: (name) => panelFlutterSpeed(classStructure(name).wing, SEA_LEVEL) / KMH,
    wing_flutter_over_1_5_km_h: (name) => speedOf(name, 'wing-flutter'),
    wing_divergence_km_h: (name) => divergenceSpeed(classStructure(name).wing, SEA_LEVEL.density) / KMH,
    wing_divergence_over_1_25_km_h: (name) => speedOf(name, 'wing-divergence'),
    tail_flutter_over_1_5_km_h: (name) => speedOf(name, 'tail-flutter'),
    servo_factor_2_km_h: (name) => speedAtPressure(torquePressure(classAileron(name), 5 * DEGREE, 2), 1.225) / KMH,
    aileron_frequency_hz: (name) => surfaceFrequency(classAileron(name)) / (2 * Math.PI),
    tightest_pull_up_m: (name) => {
      const weight = classNumber(name, 'take_off_mass_kg') * STANDARD_GRAVITY
      const most = allowedLoadFactor(classNumber(name, 'root_moment_ultimate_nm'), weight, classNumber(name, 'span_m'))
      return tightestPullUp(classNumber(name, 'turn_speed_km_h') * KMH, most)
    },
  }

  it('every result of the table is worked out', () => {
    expect(Object.keys(found)).toEqual(classResults.map(({ quantity }) => quantity))
  })

  it.each(classResults.flatMap((result) => CLASSES.map((name) => ({ ...result, name }))))(
    '$quantity of $name',
    ({ quantity, name, tolerance }) => {
      expect(relativeError(found[quantity]?.(name) ?? Number.NaN, classNumber(name, quantity))).toBeLessThan(tolerance)
    },
  )

  it('the servo binds foam, the wing composite and carbon', () => {
    const binding = CLASSES.map((name) => {
      const limits = speedLimits({ structure: classStructure(name), designSpeed: null }, SEA_LEVEL)
      return limits.reduce((least, limit) => (limit.speed < least.speed ? limit : least)).criterion
    })
    expect(binding).toEqual(['servo-torque', 'wing-flutter', 'wing-flutter'])
  })
})

describe('speed limits', () => {
  const structure = classStructure('composite_sport')

  it('stand in the order of the criteria; the servo limit is the weakest surface, with its factor', () => {
    const limits = speedLimits({ structure, designSpeed: 120 }, SEA_LEVEL)
    expect(limits.map(({ criterion }) => criterion)).toEqual([...SPEED_CRITERIA])
    const weak = structure.controls.map((surface) => ({ ...surface, servoTorque: surface.servoTorque / 4 }))
    for (const place of [0, 1]) {
      const controls = structure.controls.map((surface, i) => (i === place ? (weak[i] ?? surface) : surface))
      const torque = speedLimits({ structure: { ...structure, controls }, designSpeed: null }, SEA_LEVEL).at(-1)
      const expected = Math.min(...controls.map((surface) => torquePressure(surface, 5 * DEGREE, 2)))
      expect(torque?.speed).toBeCloseTo(speedAtPressure(expected, SEA_LEVEL.density), 9)
    }
  })

  it('aileron and elevator are judged by the chord of wing and tail', () => {
    const [aileron] = structure.controls
    if (aileron === undefined) throw new RangeError('the class must have an aileron')
    const speed = (name: 'aileron' | 'elevator') => {
      const controls = [{ ...aileron, name }]
      const limits = speedLimits({ structure: { ...structure, controls }, designSpeed: null }, SEA_LEVEL)
      return limits.find(({ criterion }) => criterion === 'control-flutter')?.speed ?? Number.NaN
    }
    expect(speed('aileron') / speed('elevator')).toBeCloseTo(structure.wing.chord / structure.tail.chord, 9)
    expect(speed('aileron')).toBeCloseTo(
      surfaceFrequency(aileron) * structure.wing.chord * Math.sqrt(1 - 1.645 * 0.2),
      9,
    )
  })

  it('what limits nothing is left out', () => {
    expect(speedLimits({ structure: null, designSpeed: null }, SEA_LEVEL)).toEqual([])
    const air = { ...SEA_LEVEL, density: 1.225 }
    expect(speedLimits({ structure: null, designSpeed: 100 }, air)).toEqual([{ criterion: 'design-speed', speed: 100 }])
    const stiff = { ...structure, wing: { ...structure.wing, elasticOffset: 0 }, controls: [] }
    expect(speedLimits({ structure: stiff, designSpeed: null }, SEA_LEVEL).map(({ criterion }) => criterion)).toEqual([
      'wing-flutter',
      'tail-flutter',
    ])
  })

  it('are speeds above 0 in any believable air, and margins fall with speed to nothing at the limit', () => {
    fc.assert(
      fc.property(
        structures,
        positive(20, 250),
        positive(-400, 4000),
        positive(-25, 45),
        positive(0.1, 0.99),
        (drawn, designSpeed, elevation, celsius, share) => {
          const limits = speedLimits({ structure: drawn, designSpeed }, fieldAir(elevation, ZERO_CELSIUS + celsius))
          expect(limits.length).toBeGreaterThanOrEqual(3)
          for (const { speed } of limits) {
            expect(speed).toBeGreaterThan(0)
            expect(speed).toBeLessThan(NONE)
            expect(speedMargin(share * speed, speed)).toBeGreaterThan(speedMargin(1.01 * share * speed, speed))
            expect(speedMargin(speed, speed)).toBe(0)
            expect(speedMargin(1.01 * speed, speed)).toBeLessThan(0)
          }
        },
      ),
    )
  })

  it('allow one dynamic pressure at any height, but for control flutter, which does not feel the density', () => {
    fc.assert(
      fc.property(structures, positive(100, 4000), (drawn, height) => {
        const air = standardAtmosphere(height)
        const [low, high] = [SEA_LEVEL, air].map((place) => speedLimits({ structure: drawn, designSpeed: 90 }, place))
        for (const [i, { criterion, speed }] of (high ?? []).entries()) {
          const ground = low?.[i]?.speed ?? Number.NaN
          const ratio = criterion === 'control-flutter' ? 1 : Math.sqrt(SEA_LEVEL.density / air.density)
          expect(relativeError(speed / ground, ratio)).toBeLessThan(1e-5)
        }
      }),
    )
  })

  it('refuses a structure or air outside its range', () => {
    const limits =
      (changes: object, air = SEA_LEVEL) =>
      () =>
        speedLimits({ structure, designSpeed: 100, ...changes }, air)
    expect(limits({})).not.toThrow()
    expect(limits({ designSpeed: 0 })).toThrow(/^design speed must be finite and above 0 m\/s, got 0$/)
    expect(limits({ designSpeed: Number.NaN })).toThrow(/^design speed /)
    expect(limits({ structure: { ...structure, tail: { ...structure.tail, torsionalStiffness: -5 } } })).toThrow(
      /^torsional stiffness must be finite and above 0 N·m², got -5$/,
    )
    expect(limits({ structure: { ...structure, wing: { ...structure.wing, taper: 2 } } })).toThrow(/^taper /)
    expect(limits({}, { ...SEA_LEVEL, density: 0 })).toThrow(/^air density /)
    expect(limits({}, { ...SEA_LEVEL, pressure: Number.NaN })).toThrow(/^air pressure /)
  })
})

function gauss(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
}
