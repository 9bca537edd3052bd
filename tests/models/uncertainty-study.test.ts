// Studies of whole setups: the same seed gives the same bytes, bands settle and stand where linear propagation puts them,
// what is known exactly has no band, what is known worse has a wider one, and what does not fly is counted.
import { LIMIT_INDEX, LIMITS } from '@ductwright/models/evaluation/limits'
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { perturb, type StudiedSetup } from '@ductwright/models/uncertainty/perturb'
import { runSamples } from '@ductwright/models/uncertainty/sample-run'
import { type Study, type StudyOptions, studySetup } from '@ductwright/models/uncertainty/study'
import { Tolerances, VARIED_INPUTS, type VariedInput } from '@ductwright/models/uncertainty/tolerances'
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

const standard = Tolerances.standard
const exact = standard.scaled(0)

const measure = (detail: SetupDetail): number[] => [
  detail.speed,
  detail.flightTime,
  detail.temperatures.winding,
  detail.standing.thrust,
]

function studied(setup: BelievableSetup): StudiedSetup {
  return { ...setup, nozzleRatio: setup.parts.node.duct.nozzleRatio }
}

const sportJet = studied(
  setupOf(circumstancesOf(airframeOf()), fanOf(0.09), motorOf(1400, 0.35), escOf(160), packOf(8, 5)),
)

function study(setup: StudiedSetup, options: Partial<StudyOptions> = {}, duty = 1): Study {
  return studySetup(setup, duty, { seed: 1, tolerances: standard, targetSpeed: 60, ...options }, measure)
}

function nominal(setup: StudiedSetup, duty = 1): SetupDetail | null {
  const { circumstances, parts } = perturb(
    setup,
    Array.from(exact.rows, (row) => (row.effect === 'factor' ? 1 : 0)),
  )
  const detail = setupDetail(circumstances, parts, duty)
  return 'refused' in detail ? null : detail
}

function detailOf(setup: StudiedSetup): SetupDetail {
  const detail = nominal(setup)
  if (detail === null) throw new RangeError('setup must fly')
  return detail
}

const widths = (of: Study): number[] => of.bands.map((band) => (band === null ? Number.NaN : band.high - band.low))

describe('the bands of a study', () => {
  it('are as wide as nothing and stand at the figures themselves when every input is known', () => {
    let flying = 0
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const alone = nominal(studied(setup))
        const found = study(studied(setup), { tolerances: exact, samples: 20, targetSpeed: alone?.speed ?? 0 })
        expect(found.flies).toBe(alone === null ? 0 : 1)
        expect(found.reaches).toBe(found.flies)
        expect(found.speedDrivers).toEqual([])
        expect(found.binding).toBeNull()
        if (alone === null) return
        flying++
        for (const [i, value] of measure(alone).entries()) {
          expect(found.bands[i]).toEqual({ low: value, high: value, missing: 0 })
        }
      }),
      { numRuns: 20 },
    )
    expect(flying).toBeGreaterThan(10)
  })

  it('are the same bytes for the same seed, and nearly the same for another', () => {
    const first = study(sportJet)
    expect(JSON.stringify(study(sportJet))).toBe(JSON.stringify(first))
    const other = study(sportJet, { seed: 2 })
    expect(JSON.stringify(other)).not.toBe(JSON.stringify(first))
    for (const [i, width] of widths(first).entries()) {
      // Tolerance: 15 % of the band; 256 samples put a bound within 3 % of it (rms), 11 % at most in 96 tries.
      expect(Math.abs((other.bands[i]?.low ?? 0) - (first.bands[i]?.low ?? 0))).toBeLessThan(0.15 * width)
      expect(Math.abs((other.bands[i]?.high ?? 0) - (first.bands[i]?.high ?? 0))).toBeLessThan(0.15 * width)
    }
  })

  it('settle: 256 samples put both bounds within 12 % of the band of 4096', () => {
    const few = study(sportJet)
    const many = study(sportJet, { samples: 4096, seed: 7 })
    for (const [i, width] of widths(many).entries()) {
      expect(Math.abs((few.bands[i]?.low ?? 0) - (many.bands[i]?.low ?? 0))).toBeLessThan(0.12 * width)
      expect(Math.abs((few.bands[i]?.high ?? 0) - (many.bands[i]?.high ?? 0))).toBeLessThan(0.12 * width)
    }
    expect(Math.abs(few.reaches - many.reaches)).toBeLessThan(0.05)
    expect(few.speedDrivers.slice(0, 3).map(({ input }) => input)).toEqual(
      many.speedDrivers.slice(0, 3).map(({ input }) => input),
    )
  })

  it('have the deviation of linear propagation for small tolerances, JCGM 100:2008, 5.1.2', () => {
    const small = standard.scaled(0.1)
    const run = runSamples(sportJet, 1, { samples: 2048, seed: 3, tolerances: small }, measure)
    const at = (input: number, step: number): number[] => {
      const values = small.rows.map((row, i) => (row.effect === 'factor' ? 1 : 0) + (i === input ? step : 0))
      const { circumstances, parts } = perturb(sportJet, values)
      return measure(setupDetail(circumstances, parts, 1) as SetupDetail)
    }
    for (const [quantity, column] of run.quantities.entries()) {
      const squares = small.rows.map(({ deviation, distribution }, input) => {
        const [up, down] = [at(input, deviation), at(input, -deviation)]
        // A normal quantity cut off at three deviations keeps 0.98658 of its deviation.
        const kept = distribution === 'normal' ? 0.98658 : 1
        return (((up[quantity] as number) - (down[quantity] as number)) * 0.5 * kept) ** 2
      })
      const propagated = Math.sqrt(squares.reduce((a, b) => a + b))
      const mean = column.reduce((a, b) => a + b) / column.length
      const sampled = Math.sqrt(column.reduce((sum, value) => sum + (value - mean) ** 2, 0) / column.length)
      // Tolerance: 3 %, the scatter of a deviation over 2048 samples and what is not linear over a tenth of a tolerance.
      expect(Math.abs(sampled / propagated - 1)).toBeLessThan(0.03)
    }
  })

  it('hold the former band of a figure that one input moves one way when that input is known worse', () => {
    const oneWay: VariedInput[] = [
      ...(['drag-area', 'cell-resistance', 'fan-efficiency', 'motor-resistance', 'esc-resistance'] as const),
      ...(['no-load-current', 'duct-loss', 'ram-recovery', 'cell-voltage', 'take-off-mass'] as const),
    ]
    fc.assert(
      fc.property(fc.constantFrom(...oneWay), fc.double({ min: 1, max: 1.6, noNaN: true }), (input, wider) => {
        const { deviation } = standard.of(input)
        const of = (scale: number) =>
          study(sportJet, { tolerances: exact.with({ [input]: { deviation: deviation * scale } }), samples: 64 })
            .bands[0]
        const [before, after] = [of(1), of(wider)]
        expect(after?.low).toBeLessThanOrEqual(before?.low as number)
        expect(after?.high).toBeGreaterThanOrEqual(before?.high as number)
        expect(before?.high).toBeGreaterThan(before?.low as number)
      }),
      { numRuns: 40 },
    )
  })

  it('are no narrower when one input of many is known worse', () => {
    const [before = 0] = widths(study(sportJet))
    for (const input of ['drag-area', 'fan-pressure-rise', 'fan-efficiency'] as const) {
      const { deviation } = standard.of(input)
      const [after = 0] = widths(
        study(sportJet, { tolerances: standard.with({ [input]: { deviation: 2 * deviation } }) }),
      )
      expect(after).toBeGreaterThan(before)
    }
  })
})

describe('the chances of a study', () => {
  it('are one half at the figure worked out, and fall as more is asked for', () => {
    const { speed } = detailOf(sportJet)
    expect(Math.abs(study(sportJet, { targetSpeed: speed }).reaches - 0.5)).toBeLessThan(0.1)
    const chances = [0.9, 0.96, 1, 1.04, 1.1].map((share) => study(sportJet, { targetSpeed: share * speed }).reaches)
    expect(chances).toEqual([...chances].sort((a, b) => b - a))
    expect(chances[0]).toBeGreaterThan(0.95)
    expect(chances[4]).toBeLessThan(0.05)
  })

  it('of holding a limit agree with the band of its use', () => {
    fc.assert(
      fc.property(believableSetups, (setup) => {
        for (const { holds, used } of study(studied(setup)).limits) {
          if (holds === null || used === null) continue
          if (used.high <= 1) expect(holds).toBeGreaterThanOrEqual(0.949)
          if (used.high > 1) expect(holds).toBeLessThanOrEqual(0.954)
          if (used.low > 1) expect(holds).toBeLessThanOrEqual(0.051)
        }
      }),
      { numRuns: 12 },
    )
  })

  it('are those of the rating itself: headroom, wanted margin and design factors do not count', () => {
    const { circumstances, parts } = sportJet
    const current = detailOf(sportJet).standing.motorCurrent
    const thrust = detailOf(sportJet).standing.thrust
    const rated = {
      ...sportJet,
      parts: { ...parts, motor: { ...parts.motor, currentLimit: current } },
      circumstances: { ...circumstances, airframe: { ...circumstances.airframe, designSpeed: 500, mountLoad: thrust } },
    }
    const limits = { ...circumstances.limits, headroom: 0.3, margin: 0.25 }
    const found = study(rated)
    expect(study({ ...rated, circumstances: { ...rated.circumstances, limits } })).toEqual(found)
    const chance = (limit: (typeof LIMITS)[number]) => found.limits[LIMIT_INDEX[limit]]?.holds as number
    expect(Math.abs(chance('motor-current') - 0.5)).toBeLessThan(0.1)
    expect(Math.abs(chance('structural-margin') - 0.5)).toBeLessThan(0.1)
    expect(found.holdsAll).toBeLessThanOrEqual(Math.min(...LIMITS.map(chance)))
    expect(found.succeeds).toBeLessThanOrEqual(Math.min(found.holdsAll, found.reaches))
  })

  it('count what does not fly, and say why', () => {
    // So much drag that level flight exists only when the day is kind.
    const dragArea = edgeOfFlight()
    const { circumstances } = sportJet
    const edge = { ...sportJet, circumstances: { ...circumstances, airframe: { ...circumstances.airframe, dragArea } } }
    const found = study(edge, { targetSpeed: 0 })
    expect(found.flies).toBeGreaterThan(0.1)
    expect(found.flies).toBeLessThan(0.9)
    expect(found.refusals.reduce((sum, { share }) => sum + share, found.flies)).toBeCloseTo(1, 12)
    expect(found.reaches).toBe(found.flies)
    expect(found.holdsAll).toBeLessThanOrEqual(found.flies)
    for (const { limit, share } of found.refusals) {
      expect(found.limits[LIMIT_INDEX[limit]]?.holds).toBeCloseTo(found.flies / (found.flies + share), 12)
    }
    for (const band of found.bands) expect(band?.missing).toBe(Math.round((1 - found.flies) * found.samples))
  })

  it('are none, with no bands, when nothing flies', () => {
    const { circumstances } = sportJet
    const hopeless = { ...circumstances, airframe: { ...circumstances.airframe, dragArea: 10 } }
    const found = study({ ...sportJet, circumstances: hopeless })
    expect(found.flies).toBe(0)
    expect(found.bands).toEqual([])
    expect(found.limits.filter(({ holds }) => holds !== null).map(({ holds }) => holds)).toEqual([0])
    expect(found.speedDrivers).toEqual([])
  })

  /** Drag area above which the setup as stated no longer flies level. */
  function edgeOfFlight(): number {
    let [low, high] = [0.005, 10]
    for (let i = 0; i < 40; i++) {
      const dragArea = Math.sqrt(low * high)
      const airframe = { ...sportJet.circumstances.airframe, dragArea }
      const flies = nominal({ ...sportJet, circumstances: { ...sportJet.circumstances, airframe } }) !== null
      if (flies) low = dragArea
      else high = dragArea
    }
    return low
  }
})

describe('what a study says matters', () => {
  it('is sorted and adds up to 1 at most', () => {
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const found = study(studied(setup))
        for (const drivers of [found.speedDrivers, found.binding?.drivers ?? []]) {
          const shares = drivers.map(({ share }) => share)
          expect(shares).toEqual([...shares].sort((a, b) => b - a))
          expect(shares.every((share) => share >= 0)).toBe(true)
          expect(shares.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(1 + 1e-12)
        }
        if (found.flies === 1) expect(found.speedDrivers.length).toBe(VARIED_INPUTS.length)
      }),
      { numRuns: 12 },
    )
  })

  it('for top speed is what moves it: drag slows, voltage and efficiency speed up, and most of the spread is explained', () => {
    const { speedDrivers } = study(sportJet, { samples: 1024 })
    const of = (input: VariedInput) => speedDrivers.find((driver) => driver.input === input)
    expect(speedDrivers[0]?.input).toBe('drag-area')
    expect(of('drag-area')?.rises).toBe(false)
    expect(of('cell-resistance')?.rises).toBe(false)
    expect(of('fan-pressure-rise')?.rises).toBe(true)
    expect(of('fan-efficiency')?.rises).toBe(true)
    expect(speedDrivers.reduce((sum, { share }) => sum + share, 0)).toBeGreaterThan(0.95)
    expect(of('servo-torque')?.share).toBeLessThan(0.01)
  })

  it('is the one input that is not known, when there is only one', () => {
    const one = exact.with({ 'fan-efficiency': { deviation: 0.05 } })
    const { speedDrivers } = study(sportJet, { tolerances: one })
    expect(speedDrivers.length).toBe(1)
    expect(speedDrivers[0]?.input).toBe('fan-efficiency')
    expect(speedDrivers[0]?.share).toBeCloseTo(1, 6)
  })

  it('for the limit that binds is about that limit', () => {
    const { circumstances, parts } = sportJet
    const boardLimit = detailOf(sportJet).temperatures.esc - 5
    const hot = {
      ...sportJet,
      circumstances,
      parts: { ...parts, esc: { ...parts.esc, boardTemperatureLimit: boardLimit } },
    }
    const { binding } = study(hot)
    expect(binding?.limit).toBe('esc-temperature')
    const first = binding?.drivers.slice(0, 5).map(({ input }) => input)
    expect(first).toContain('esc-resistance')
  })
})

describe('a study refuses', () => {
  it('too few samples, a bad seed or target, and quantities that change in number', () => {
    expect(() => study(sportJet, { samples: 19 })).toThrow(/^samples must be at least 20, got 19$/)
    expect(() => study(sportJet, { samples: 20.5 })).toThrow(/^points must be a whole number/)
    expect(() => study(sportJet, { seed: 0.5 })).toThrow(/^seed must be a whole number/)
    expect(() => study(sportJet, { targetSpeed: Number.NaN })).toThrow(
      /^target speed must not be negative, in m\/s, got NaN$/,
    )
    let count = 1
    const changing = () =>
      studySetup(sportJet, 1, { seed: 1, tolerances: standard, targetSpeed: 0 }, () => new Array(count++).fill(1))
    expect(changing).toThrow(/^measure must always give 1 quantities, got 2$/)
  })
})
