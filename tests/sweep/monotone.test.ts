// What the bounds of the search rest on, tried on the real models: of two believable setups that differ in one attribute,
// which has more of what. The table below says it attribute by attribute; a pair where either cannot be worked out at all
// proves nothing and is not counted.
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { LIMIT_INDEX } from '@ductwright/models/evaluation/limits'
import { solveAtDuty } from '@ductwright/models/operating-point/at-duty'
import { emptyOperatingPoint, type OperatingPoint } from '@ductwright/models/operating-point/operating-point'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type BelievableSetup, believableSetups } from '../models/believable-parts.js'
import { soakPairs } from './config.js'

/** Far above the solvers' tolerance of 1e-11, and what the bounds allow themselves. */
const TOLERANCE = 1e-9

/** Height, m, that adds nothing to a speed. */
const NEARLY_LEVEL = 1e-9

const motorPower = ({ full }: Evaluator, { current, busVoltage }: OperatingPoint) =>
  current * (full.duty * busVoltage - current * full.escResistance)

const READINGS = {
  'standing thrust': (e) => e.stand.thrust,
  'standing blade speed': (e) => e.stand.bladeSpeed,
  'standing motor current': (e) => e.stand.current,
  'standing motor power': (e) => motorPower(e, e.stand),
  'standing pack current': (e) => e.stand.busCurrent,
  'full level speed': (e) => e.topFull.speed,
  'full level blade speed': (e) => e.topFull.bladeSpeed,
  'full level motor current': (e) => e.topFull.current,
  'full level motor power': (e) => motorPower(e, e.topFull),
  'full level pack current': (e) => e.topFull.busCurrent,
  'quoted level speed': (e) => e.top.speed,
  'quoted level blade speed': (e) => e.top.bladeSpeed,
  'quoted level motor current': (e) => e.top.current,
  'quoted level pack current': (e) => e.top.busCurrent,
  'bottom of a level path': (e) => e.diveSpeed,
  'end of the run': (e) => e.inRunSpeed,
  'cruise pack current': (e) => e.cruise.busCurrent,
  'cruise duty': (e) => e.cruise.duty,
  mass: (e) => e.mass,
  stall: (e) => e.stall,
  bending: (e) => e.bendingShare,
  pressure: (e) => e.pressureShare,
  'mount load': (e) => e.mountShare,
  'flight time': (e) => e.time,
  cost: (e) => e.cost,
  'take-off roll': (e) => e.limits.used[LIMIT_INDEX['take-off-roll']] as number,
  'cell voltage': (e) => e.limits.used[LIMIT_INDEX['cell-voltage']] as number,
  winding: (e) => e.windingPeaks.inner,
  magnet: (e) => e.windingPeaks.outer,
  'pack temperature': (e) => e.packTemperature,
} as const satisfies Record<string, (evaluator: Evaluator) => number>

type Reading = keyof typeof READINGS
type Parts = BelievableSetup['parts']

interface Attribute {
  /** The setup with more of the attribute, by a share from 0 to 1 of the most that is tried. */
  readonly raise: (setup: BelievableSetup, by: number) => BelievableSetup
  readonly neverRises: readonly Reading[]
  readonly neverFalls: readonly Reading[]
}

const withParts = (setup: BelievableSetup, parts: Partial<Parts>) => ({ ...setup, parts: { ...setup.parts, ...parts } })

/** An attribute of the controller raised by a factor of up to three, and by `more`, for what may be nothing. */
const esc = (key: Exclude<keyof Parts['esc'], 'id' | 'connector' | 'timings'>, more: number): Attribute['raise'] => {
  return (setup, by) => {
    const { esc: before } = setup.parts
    return withParts(setup, { esc: { ...before, [key]: before[key] * (1 + 2 * by) + more * by } })
  }
}

const source = (key: keyof Parts['source']): Attribute['raise'] => {
  return (setup, by) => {
    const { source: before } = setup.parts
    return withParts(setup, { source: { ...before, [key]: before[key] * (1 + 2 * by) } })
  }
}

const STANDING: readonly Reading[] = ['standing thrust', 'standing blade speed', 'mount load']
const STANDING_ELECTRICS: readonly Reading[] = ['standing motor current', 'standing motor power']
const LEVEL: readonly Reading[] = [
  ...(['full level speed', 'quoted level speed', 'pressure', 'bottom of a level path', 'end of the run'] as const),
]
const LEVEL_BLADES: readonly Reading[] = ['full level blade speed', 'quoted level blade speed']
const LEVEL_ELECTRICS: readonly Reading[] = [
  'full level motor current',
  'full level motor power',
  'quoted level motor current',
]

/** What takes voltage or power between cells and winding. */
const LOSS = {
  neverRises: [...STANDING, ...STANDING_ELECTRICS, ...LEVEL, ...LEVEL_BLADES, ...LEVEL_ELECTRICS],
  neverFalls: ['cruise pack current', 'cruise duty'],
} as const satisfies Partial<Attribute>

/** What weighs. */
const MASS = {
  neverRises: [...STANDING, ...STANDING_ELECTRICS, 'standing pack current', ...LEVEL, ...LEVEL_BLADES],
  neverFalls: [
    ...['mass', 'stall', 'bending', 'take-off roll'],
    ...['quoted level motor current', 'quoted level pack current', 'cruise pack current'],
  ] as readonly Reading[],
} as const satisfies Partial<Attribute>

const NOTHING_ELSE = Object.keys(READINGS).filter((reading) => !['cost', 'flight time'].includes(reading)) as Reading[]

/** Every attribute that differs between the units of a box, and duty: which reading moves which way when it rises. */
const ATTRIBUTES: Readonly<Record<string, Attribute>> = {
  'controller resistance': { raise: esc('resistance', 0), ...LOSS },
  'resistance temperature coefficient': { raise: esc('resistanceTemperatureCoefficient', 0), ...LOSS },
  'quiescent power': { raise: esc('quiescentPower', 4), ...LOSS },
  'proportional loss': { raise: esc('proportionalLoss', 0.01), ...LOSS },
  'switching time': { raise: esc('switchingTime', 0), ...LOSS },
  'switching frequency': { raise: esc('switchingFrequency', 0), ...LOSS },
  'freewheel drop': { raise: esc('freewheelDrop', 0.5), ...LOSS },
  'dead-time drop': { raise: esc('deadTimeDrop', 0.02), ...LOSS },
  'freewheel resistance share': {
    raise: (setup, by) => {
      const { esc: before } = setup.parts
      const { freewheelResistanceShare: share } = before
      return withParts(setup, { esc: { ...before, freewheelResistanceShare: share + by * (1 - share) } })
    },
    ...LOSS,
  },
  'cell resistance': { raise: source('cellResistance'), ...LOSS },
  'lead resistance': { raise: source('leadResistance'), ...LOSS },
  'pack mass': { raise: source('mass'), ...MASS },
  'controller mass': {
    raise: (setup, by) => withParts(setup, { escMass: setup.parts.escMass * (1 + 4 * by) }),
    ...MASS,
  },
  'stated mass': {
    raise: (setup, by) => {
      const { airframe, mass } = setup.circumstances
      const { pairMass, escMass, source: packs } = setup.parts
      const most = airframe.emptyMass + pairMass + escMass + packs.mass + airframe.ballastLimit
      const fixed = (mass.fixed ?? most) * (1 + by)
      return { ...setup, circumstances: { ...setup.circumstances, mass: { ...mass, fixed } } }
    },
    ...MASS,
  },
  capacity: { raise: source('capacity'), neverRises: NOTHING_ELSE, neverFalls: [...NOTHING_ELSE, 'flight time'] },
  cost: {
    raise: (setup, by) => withParts(setup, { cost: setup.parts.cost * (1 + by) }),
    neverRises: [...NOTHING_ELSE, 'flight time'],
    neverFalls: [...NOTHING_ELSE, 'flight time', 'cost'],
  },
}

const DUTY: Omit<Attribute, 'raise'> = {
  neverRises: ['flight time', 'take-off roll'],
  neverFalls: [
    ...STANDING,
    ...STANDING_ELECTRICS,
    ...LEVEL,
    ...LEVEL_BLADES,
    ...LEVEL_ELECTRICS,
    ...['standing pack current', 'full level pack current', 'quoted level pack current'],
    ...['bending', 'cell voltage', 'winding', 'magnet', 'pack temperature'],
  ] as readonly Reading[],
}

/** What switching, freewheeling and ripple take vanishes at full throttle: of what depends on it nothing is claimed up to there. */
const DUTY_TO_FULL: Omit<Attribute, 'raise'> = {
  neverRises: ['take-off roll'],
  neverFalls: [...STANDING, ...STANDING_ELECTRICS, ...LEVEL, ...LEVEL_BLADES, ...LEVEL_ELECTRICS, 'bending'],
}

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true })
/** Full throttle is a duty like no other: nothing switches there. */
const partThrottle = fc.double({ min: 0.4, max: 1, maxExcluded: true, noNaN: true })
const duties = fc.oneof({ arbitrary: partThrottle, weight: 4 }, { arbitrary: fc.constant(1), weight: 1 })

/** Entries below level speed, some into a path that is as good as level: a dive that hardly loses height. */
const entries = fc
  .record({ entrySpeedShare: share(0.2, 1), length: share(50, 1500), path: fc.option(share(20, 1000)) })
  .map(({ entrySpeedShare, length, path }) => {
    const entryHeight = path === null ? 0 : NEARLY_LEVEL
    return { entrySpeedShare, length, entryHeight, diveAngle: path === null ? 1 : Math.asin(NEARLY_LEVEL / path) }
  })

/** Controllers, leads and cells of every kind in between, on any of the setups; some at a stated mass. */
const setups: fc.Arbitrary<BelievableSetup> = fc
  .record({
    setup: believableSetups,
    esc: fc.record({
      resistanceTemperatureCoefficient: share(0, 0.008),
      quiescentPower: share(0.5, 12),
      proportionalLoss: share(0, 0.02),
      switchingTime: share(20e-9, 400e-9),
      switchingFrequency: share(8e3, 48e3),
      freewheelDrop: fc.oneof(fc.constant(0), share(0, 1)),
      deadTimeDrop: fc.oneof(fc.constant(0), share(0, 0.05)),
      freewheelResistanceShare: share(0.4, 1),
    }),
    resistance: share(0.4, 2.5),
    leads: share(0.4, 4),
    run: entries,
    fixed: fc.option(share(1.1, 1.9)),
  })
  .map(({ setup, esc: drawn, resistance, leads, run, fixed }) => {
    const { parts, circumstances } = setup
    const mass = { ...circumstances.mass, fixed: fixed === null ? null : fixed * circumstances.airframe.emptyMass }
    return {
      ...setup,
      circumstances: { ...circumstances, mass, run },
      parts: {
        ...parts,
        esc: { ...parts.esc, ...drawn, resistance: resistance * parts.esc.resistance },
        source: { ...parts.source, leadResistance: leads * parts.source.leadResistance },
      },
    }
  })

/** A setup worked through whatever it breaks; null when something cannot be worked out at all. */
function worked(setup: BelievableSetup, duty: number): Evaluator | null {
  const evaluator = new Evaluator(setup.circumstances, { thorough: true })
  return evaluator.assemble(setup.parts) && evaluator.evaluate(duty) ? evaluator : null
}

/** Below the speed of least drag being slower asks for more thrust, so nothing is claimed of currents there. */
function isSlow({ parasite, induced, top, topFull }: Evaluator): boolean {
  return [top, topFull].some(({ speed }) => parasite * speed ** 4 < induced)
}

/** The readings that moved the wrong way, with how much. */
function wrong(claims: Omit<Attribute, 'raise'>, before: Evaluator, after: Evaluator): string[] {
  const slow = isSlow(before) || isSlow(after)
  const against = (readings: readonly Reading[], sign: number) =>
    readings.flatMap((reading) => {
      if (slow && LEVEL_ELECTRICS.includes(reading)) return []
      const [from, to] = [READINGS[reading](before), READINGS[reading](after)]
      // Equal covers what is infinite in both, such as a roll that never ends.
      if (from === to || sign * (to - from) <= TOLERANCE * Math.abs(from)) return []
      return [`${reading} ${sign > 0 ? 'rises' : 'falls'} from ${from} to ${to}`]
    })
  return [...against(claims.neverRises, 1), ...against(claims.neverFalls, -1)]
}

const names = Object.keys(ATTRIBUTES)
const runs = Math.ceil(soakPairs() / (names.length + 2))

describe('on believable setups', () => {
  it(`thrust never rises with flight speed at one duty (${runs} pairs)`, () => {
    let compared = 0
    fc.assert(
      fc.property(setups, duties, share(0.2, 1.6), share(0.2, 1.6), (setup, duty, one, other) => {
        const { quoted, top } = worked(setup, duty) ?? {}
        if (quoted === undefined || top === undefined) return
        const thrusts = [Math.min(one, other), Math.max(one, other)].map((part) => {
          const point = emptyOperatingPoint()
          const { duct } = setup.parts.node
          const solved = solveAtDuty(duct, setup.circumstances.density, part * top.speed, quoted, point)
          return solved === 'ok' ? point.thrust : Number.NaN
        }) as [number, number]
        if (thrusts.some(Number.isNaN)) return
        compared++
        expect(thrusts[1]).toBeLessThanOrEqual(thrusts[0] + TOLERANCE * top.thrust)
      }),
      { numRuns: runs, endOnFailure: true },
    )
    expect(compared).toBeGreaterThan(0.5 * runs)
  })

  it.each(names)(`more %s moves nothing the wrong way (${runs} pairs)`, (name) => {
    const { raise, ...claims } = ATTRIBUTES[name] as Attribute
    let compared = 0
    fc.assert(
      fc.property(setups, duties, share(0.001, 1), (setup, duty, by) => {
        const [before, after] = [worked(setup, duty), worked(raise(setup, by), duty)]
        if (before === null || after === null) return
        compared++
        expect(wrong(claims, before, after)).toEqual([])
      }),
      { numRuns: runs, endOnFailure: true },
    )
    expect(compared).toBeGreaterThan(0.5 * runs)
  })

  it.each([
    ['below full throttle', partThrottle, DUTY],
    ['up to full throttle', duties, DUTY_TO_FULL],
  ] as const)(`more duty %s moves nothing the wrong way (${runs} pairs)`, (_, among, claims) => {
    let compared = 0
    fc.assert(
      fc.property(setups, among, among, (setup, one, other) => {
        const [before, after] = [worked(setup, Math.min(one, other)), worked(setup, Math.max(one, other))]
        if (before === null || after === null) return
        compared++
        expect(wrong(claims, before, after)).toEqual([])
      }),
      { numRuns: runs, endOnFailure: true },
    )
    expect(compared).toBeGreaterThan(0.5 * runs)
  })
})
