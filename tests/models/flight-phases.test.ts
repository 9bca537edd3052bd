// A flight as phases: what must hold of every flight, and what one usual setup does.
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import type { TimelineInput } from '@ductwright/models/flight/flight-rig'
import { STORES } from '@ductwright/models/flight/full-throttle-hold'
import { flightTimeline, type Timeline } from '@ductwright/models/flight/timeline'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  airframeOf,
  type BelievableSetup,
  believableSetups,
  circumstancesOf,
  escOf,
  fanOf,
  motorOf,
  packOf,
  setupOf,
} from './believable-parts.js'

type Profile = Circumstances['profile']

/** A believable setup made ready; null when it does not fly at all. */
function ready({ circumstances, parts }: BelievableSetup, duty: number, profile: Partial<Profile> = {}) {
  const changed = { ...circumstances, profile: { ...circumstances.profile, ...profile } }
  const evaluator = new Evaluator(changed, { thorough: true })
  if (!evaluator.assemble(parts) || !evaluator.evaluate(duty)) return null
  const { mass, stall, parasite, induced, roll } = evaluator
  const input: TimelineInput = { parts, circumstances: changed, duty, mass, stall, parasite, induced, roll }
  return { evaluator, input }
}

/** 90 mm, 10 cells of 5 Ah: the setup that the tests vary. */
function usual(profile: Partial<Profile> = {}, changes: Partial<TimelineInput> = {}, air = 15): TimelineInput {
  const circumstances = circumstancesOf(airframeOf(), { airTemperature: ZERO_CELSIUS + air })
  const setup = setupOf(circumstances, fanOf(0.09), motorOf(1080, 0.33), escOf(160), packOf(10, 5))
  const made = ready(setup, 1, profile)
  if (made === null) throw new RangeError('the usual setup must fly')
  return { ...made.input, ...changes }
}

const simple: Partial<Profile> = { climbHeight: 0, approachTime: 0 }

describe('every flight', () => {
  const flights = (check: (timeline: Timeline, input: TimelineInput) => void, numRuns = 60) => {
    let flown = 0
    fc.assert(
      fc.property(believableSetups, fc.double({ min: 0.6, max: 1, noNaN: true }), (setup, duty) => {
        const made = ready(setup, duty)
        if (made === null) return
        check(flightTimeline(made.input), made.input)
        flown++
      }),
      { numRuns },
    )
    expect(flown).toBeGreaterThan(0.7 * numRuns)
  }

  it('is made of phases without gaps whose charges add up, and every number of it is one', () => {
    flights((timeline, { parts }) => {
      let clock = 0
      let charge = 0
      for (const phase of timeline.phases) {
        expect(phase.start).toBeCloseTo(clock, 6)
        clock += phase.time
        charge += phase.packCurrent * phase.time
        expect(phase.chargeLeft).toBeCloseTo(1 - charge / parts.source.capacity, 6)
        expect(Object.values(phase).some((value) => Number.isNaN(value))).toBe(false)
        expect(phase.packPower).toBeGreaterThanOrEqual(phase.packCurrent * phase.packVoltage * (1 - 1e-9))
      }
      expect(timeline.time).toBeCloseTo(clock, 6)
      expect(timeline.chargeUsed).toBeCloseTo(charge, 3)
    })
  })

  it('keeps its reserve, lasts no longer than wanted, and would not have lasted less than it did', () => {
    flights((timeline, { parts, circumstances }) => {
      const { reserve, flightTime, approachTime } = circumstances.profile
      if (timeline.endedBy === 'underpowered') return
      expect(timeline.chargeUsed).toBeLessThanOrEqual((1.01 - reserve) * parts.source.capacity)
      if (timeline.endedBy === 'time') expect(timeline.time).toBeCloseTo(flightTime, 6)
      else expect(timeline.time).toBeLessThan(flightTime + approachTime)
      expect(timeline.timeToReserve).toBeGreaterThanOrEqual(timeline.time - 1e-6)
    })
  })

  it('has one phase for each highest temperature, which no end of a phase exceeds', () => {
    flights((timeline) => {
      for (const store of STORES) {
        const { temperature, phase } = timeline.peaks[store]
        expect(timeline.phases.filter(({ peaks }) => peaks.includes(store)).length).toBe(phase === null ? 0 : 1)
        if (phase !== null) expect(timeline.phases[phase]?.peaks).toContain(store)
        expect(Math.max(...timeline.phases.map((each) => each[store]))).toBeLessThanOrEqual(temperature + 1e-9)
      }
    })
  })

  it('lasts to the reserve as the mean of full-throttle and cruise current says, within a few per cent', () => {
    const differences: number[] = []
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const made = ready(setup, 1, simple)
        if (made === null) return
        const { evaluator, input } = made
        const timeline = flightTimeline({ ...input, roll: null, halfTurns: 0 })
        if (timeline.endedBy === 'underpowered') return
        // The mean current is that of magnets at 50 °C; hotter ones draw more.
        if (timeline.peaks.case.temperature > ZERO_CELSIUS + 70) return
        differences.push(timeline.timeToReserve / evaluator.time - 1)
      }),
      { numRuns: 200 },
    )
    expect(differences.length).toBeGreaterThan(25)
    for (const difference of differences) expect(Math.abs(difference)).toBeLessThan(0.1)
    const mean = differences.reduce((sum, difference) => sum + difference, 0) / differences.length
    expect(Math.abs(mean)).toBeLessThan(0.03)
  })

  it('keeps every temperature limit with the cruise after each pass that it asks for', () => {
    const asked: number[] = []
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const profile = { ...simple, passTime: 10, reserve: 0.02 }
        const made = ready(setup, 1, profile)
        if (made === null) return
        const roomy = { ...made.input.parts.source, capacity: 10 * made.input.parts.source.capacity }
        const input = { ...made.input, parts: { ...made.input.parts, source: roomy }, roll: null, halfTurns: 0 }
        const { coolDown } = flightTimeline(input)
        if (coolDown === null) return
        const count = Math.round((input.circumstances.profile.flightTime * 0.25) / 10)
        const flightTime = count * (10 + coolDown)
        const circumstances = {
          ...input.circumstances,
          profile: { ...input.circumstances.profile, flightTime, fullThrottleShare: 10 / (10 + coolDown) },
        }
        const { peaks } = flightTimeline({ ...input, circumstances })
        const { motor, esc, source } = input.parts
        expect(peaks.winding.temperature).toBeLessThan(motor.windingTemperatureLimit + 1)
        expect(peaks.case.temperature).toBeLessThan(motor.magnetTemperatureLimit + 1)
        expect(peaks.board.temperature).toBeLessThan(esc.boardTemperatureLimit + 1)
        expect(peaks.pack.temperature).toBeLessThan(source.temperatureLimit + 1)
        if (coolDown > 0) asked.push(coolDown)
      }),
      { numRuns: 100 },
    )
    expect(asked.length).toBeGreaterThan(5)
  })
})

describe('the usual setup', () => {
  const timeline = flightTimeline(usual())

  it('rolls, climbs, passes, turns, cruises and approaches', () => {
    expect(timeline.phases.slice(0, 5).map(({ phase }) => phase)).toEqual([
      'take-off',
      'climb',
      'pass',
      'turn',
      'cruise',
    ])
    expect(timeline.phases.at(-1)?.phase).toBe('approach')
    expect(timeline.endedBy).toBe('time')
    expect(timeline.passes).toBe(5)
    const [, climb, pass, turn, cruise] = timeline.phases
    expect(60 / (climb?.time ?? 0)).toBeGreaterThan(20)
    expect(pass?.duty).toBe(1)
    expect(turn?.speed).toBe(cruise?.speed)
    expect(turn?.packCurrent).toBeGreaterThan(1.2 * (cruise?.packCurrent ?? 0))
    expect(timeline.packVoltage).toBe(Math.min(...timeline.phases.map(({ packVoltage }) => packVoltage)))
  })

  it('peaks where it is loaded last: winding in a pass, case after it, pack at the end', () => {
    const phaseOf = (store: (typeof STORES)[number]) => timeline.phases[timeline.peaks[store].phase ?? -1]?.phase
    expect(phaseOf('winding')).toBe('pass')
    expect(phaseOf('case')).toBe('turn')
    expect(phaseOf('pack')).toBe('approach')
  })

  it('launched it has no roll; without turns or height it has only passes and cruise', () => {
    const bare = flightTimeline(usual(simple, { roll: null, halfTurns: 0 }))
    expect(new Set(bare.phases.map(({ phase }) => phase))).toEqual(new Set(['pass', 'cruise']))
    expect(bare.passes).toBe(6)
  })

  it('a hotter day, a longer pass and more of them make it hotter', () => {
    const winding = (profile: Partial<Profile>, air = 15) =>
      flightTimeline(usual(profile, {}, air)).peaks.winding.temperature
    const base = winding({})
    expect(winding({}, 35)).toBeGreaterThan(base + 15)
    expect(winding({ passTime: 20 })).toBeGreaterThan(base)
    expect(winding({ fullThrottleShare: 0.35 })).toBeGreaterThan(base)
  })

  it('full throttle in one go is held just as long as the winding stays below its limit', () => {
    const input = usual(simple, { roll: null, halfTurns: 0 })
    const { fullThrottle } = flightTimeline(input)
    expect(fullThrottle.endedBy).toBe('winding')
    const { time } = fullThrottle
    const held = usual(
      { ...simple, flightTime: time, fullThrottleShare: 1, passTime: time },
      { roll: null, halfTurns: 0 },
    )
    const { peaks, passes } = flightTimeline(held)
    expect(passes).toBe(1)
    expect(Math.abs(peaks.winding.temperature - input.parts.motor.windingTemperatureLimit)).toBeLessThan(0.5)
  })

  it('limits that are never met leave the charge to end it; each limit that is lowered ends it by name', () => {
    const input = usual(simple, { roll: null, halfTurns: 0 })
    const { parts } = input
    const cold = { ...parts.motor, windingTemperatureLimit: 9e3, magnetTemperatureLimit: 9e3 }
    const limited = (motor: Partial<typeof cold>, board: number, pack: number) => {
      const esc = { ...parts.esc, boardTemperatureLimit: board }
      const source = { ...parts.source, temperatureLimit: pack }
      return flightTimeline({ ...input, parts: { ...parts, motor: { ...cold, ...motor }, esc, source } }).fullThrottle
    }
    const free = limited({}, 9e3, 9e3)
    expect(free.endedBy).toBe('charge')
    const mean = flightTimeline(input).phases[0]?.packCurrent ?? 0
    // Hot magnets ask for more current than the first pass did.
    const simplest = (0.8 * parts.source.capacity) / mean
    expect(free.time).toBeGreaterThan(0.8 * simplest)
    expect(free.time).toBeLessThan(simplest)
    const early = [
      limited({ magnetTemperatureLimit: ZERO_CELSIUS + 70 }, 9e3, 9e3),
      limited({}, ZERO_CELSIUS + 50, 9e3),
      limited({}, 9e3, ZERO_CELSIUS + 35),
    ]
    expect(early.map(({ endedBy }) => endedBy)).toEqual(['case', 'board', 'pack'])
    for (const { time } of early) expect(time).toBeLessThan(free.time)
  })

  it('asks for no cool-down with cool parts, for some with warm ones, for none that would help when one pass is too hot', () => {
    const asked = (limit: number) => {
      const input = usual()
      const motor = { ...input.parts.motor, windingTemperatureLimit: ZERO_CELSIUS + limit, magnetTemperatureLimit: 900 }
      return flightTimeline({ ...input, parts: { ...input.parts, motor } }).coolDown
    }
    expect(asked(400)).toBe(0)
    const some = asked(130) ?? 0
    expect(some).toBeGreaterThan(asked(140) ?? 0)
    expect(asked(50)).toBe(null)
  })

  it('takes what is left when it runs dry before the time is up', () => {
    const dry = flightTimeline(usual({ flightTime: 900 }))
    expect(dry.endedBy).toBe('charge')
    expect(dry.phases.at(-1)?.phase).toBe('approach')
    expect(dry.phases.at(-1)?.chargeLeft).toBeCloseTo(0.2, 2)
    expect(dry.timeToReserve).toBeCloseTo(dry.time, 6)
  })

  it('that cannot fly says so instead of inventing phases', () => {
    const heavy = usual({}, { parasite: 0.5 })
    const grounded = flightTimeline(heavy)
    expect(grounded.endedBy).toBe('underpowered')
    expect(grounded.passes).toBe(0)
    expect(grounded.firstPassSpeed).toBe(null)
    const endless = flightTimeline(usual({}, { roll: Number.POSITIVE_INFINITY }))
    expect(endless.phases).toEqual([])
    expect(endless.packVoltage).toBe(null)
    expect(endless.peaks.winding.phase).toBe(null)
  })

  it('8 Ah at 155 A for a quarter to a third of 4.5 min use about 4 Ah (common practice, no source)', () => {
    const circumstances = circumstancesOf(airframeOf())
    const setup = setupOf(circumstances, fanOf(0.09), motorOf(1310, 0.4), escOf(200), packOf(8, 8))
    const made = ready(setup, 1, { flightTime: 270, fullThrottleShare: 0.28, cruiseSpeed: 32 })
    expect(made).not.toBe(null)
    if (made === null) return
    const flown = flightTimeline(made.input)
    const pass = flown.phases.find(({ phase }) => phase === 'pass')
    expect(pass?.packCurrent).toBeGreaterThan(140)
    expect(pass?.packCurrent).toBeLessThan(170)
    expect(flown.chargeUsed / 3600).toBeGreaterThan(3.5)
    expect(flown.chargeUsed / 3600).toBeLessThan(4.5)
  })

  it('refuses what is no setup', () => {
    expect(() => flightTimeline(usual({}, { duty: 0 }))).toThrow(
      /duty of a flight must lie above 0 and at most 1, got 0/,
    )
    expect(() => flightTimeline(usual({}, { mass: Number.NaN }))).toThrow(
      /mass of a flight must be above 0 kg, got NaN/,
    )
    expect(() => flightTimeline(usual({}, { stall: -1 }))).toThrow(
      /stall speed of a flight must be above 0 m\/s, got -1/,
    )
    expect(() => flightTimeline(usual({}, { halfTurns: -1 }))).toThrow(
      /half turns after a pass must be at least 0, got -1/,
    )
  })
})
