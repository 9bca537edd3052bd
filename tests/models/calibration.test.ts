// Air speed from legs over the ground, straight lines, and a drag area in one line: printed and computed values,
// round trips through random winds, and what is refused.
import {
  airSpeedFromLegs,
  airSpeedFromOppositeRuns,
  airSpeedFromThreeHeadings,
  airSpeedFromTriplet,
  type Leg,
} from '@ductwright/models/calibration/air-speed'
import { fitLine, fitProportion, lineAt } from '@ductwright/models/calibration/line-fit'
import { dragAreaFromPower } from '@ductwright/models/calibration/speed-calibration'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { DEGREE } from './believable-parts.js'

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Ground speed and track of a heading in a wind (from a direction), added as vectors. */
function legOn(heading: number, speed: number, wind: number, from: number): Leg {
  const north = speed * Math.cos(heading) - wind * Math.cos(from)
  const east = speed * Math.sin(heading) - wind * Math.sin(from)
  return { groundSpeed: Math.hypot(north, east), track: Math.atan2(east, north) }
}

/** Ground speed on a track, the heading holding it against the wind. */
function legAlong(track: number, speed: number, wind: number, from: number): Leg {
  const across = wind * Math.sin(from - track)
  return { groundSpeed: Math.sqrt(speed * speed - across * across) - wind * Math.cos(from - track), track }
}

describe('air speed from legs', () => {
  const table = authorityTable('gps-air-speed')
  const value = (quantity: string, sample: string) => quantityOf(table, quantity, { case: sample })
  const sample = [1, 2, 3, 4].map((leg) => ({
    groundSpeed: value(`ground_speed_${leg}`, 'sample'),
    track: value(`track_${leg}`, 'sample') * DEGREE,
  }))

  it.each([1, 2, 3, 4])('sample of the National Test Pilot School without leg %i (printed)', (left) => {
    const three = sample.filter((_, i) => i !== left - 1) as [Leg, Leg, Leg]
    const found = airSpeedFromTriplet(three)
    expect(relativeError(found.speed, value(`air_speed_without_${left}`, 'sample'))).toBeLessThan(table.tolerance)
    expect(relativeError(found.wind.speed, value(`wind_without_${left}`, 'sample'))).toBeLessThan(2e-5)
    expect(airSpeedFromLegs(three)).toMatchObject({ ...found, crossWindKnown: true, spread: null })
  })

  it('all four legs of that sample: mean and standard deviation of the triplets (printed)', () => {
    const found = airSpeedFromLegs(sample)
    expect(relativeError(found.speed, value('air_speed_mean', 'sample'))).toBeLessThan(table.tolerance)
    expect(relativeError(found.spread ?? 0, value('air_speed_deviation', 'sample'))).toBeLessThan(1e-4)
  })

  it('opposite runs: the mean ground speed is low by the cross wind, the mean of the times lower', () => {
    for (const cross of [20, 40]) {
      const run = legAlong(0, 300, cross, 90 * DEGREE).groundSpeed
      const mean = value(`mean_cross_wind_${cross}`, 'runs')
      expect(relativeError(airSpeedFromOppositeRuns(run, run), mean)).toBeLessThan(table.tolerance)
      expect(airSpeedFromOppositeRuns(run, run, cross)).toBeCloseTo(300, 9)
    }
    expect(airSpeedFromOppositeRuns(320, 280)).toBe(300)
    expect(relativeError(2 / (1 / 320 + 1 / 280), value('mean_of_times_320_280', 'runs'))).toBeLessThan(1e-6)
  })

  it('three headings 120° apart, in closed form', () => {
    const grounds = [1, 2, 3].map((leg) => value(`ground_speed_${leg}`, 'headings')) as [number, number, number]
    const found = airSpeedFromThreeHeadings(grounds)
    expect(relativeError(found.speed, value('air_speed', 'headings'))).toBeLessThan(table.tolerance)
    expect(relativeError(found.windSpeed, value('wind', 'headings'))).toBeLessThan(2e-5)
  })

  it('tracks north, east and south', () => {
    const legs = ['north', 'east', 'south'].map((side, i) => ({
      groundSpeed: value(`ground_speed_${side}`, 'tracks'),
      track: i * 90 * DEGREE,
    }))
    const found = airSpeedFromLegs(legs)
    expect(relativeError(found.speed, value('air_speed', 'tracks'))).toBeLessThan(table.tolerance)
    expect(relativeError(found.wind.speed, value('wind', 'tracks'))).toBeLessThan(2e-5)
    expect(relativeError(found.wind.from / DEGREE, value('wind_from', 'tracks'))).toBeLessThan(2e-5)
  })

  it('finds any air speed and wind again (round trip), by tracks and by headings', () => {
    fc.assert(
      fc.property(within(30, 150), within(0, 0.4), within(0, 6.28), within(0, 6.28), (speed, share, from, turned) => {
        const wind = share * speed
        const tracks = [0, 100, 200, 290].map((degrees) => legAlong(turned + degrees * DEGREE, speed, wind, from))
        const found = airSpeedFromLegs(tracks)
        expect(found.speed).toBeCloseTo(speed, 8)
        expect(found.wind.speed).toBeCloseTo(wind, 8)
        expect(found.spread).toBeLessThan(1e-8)
        const grounds = [0, 120, 240].map((degrees) => legOn(turned + degrees * DEGREE, speed, wind, from).groundSpeed)
        expect(airSpeedFromThreeHeadings(grounds as [number, number, number]).speed).toBeCloseTo(speed, 8)
      }),
    )
  })

  it('several runs to and fro on one line: their mean, the wind along it, and the scatter of a pair', () => {
    const line = [300, 260, 304, 256].map((groundSpeed, i) => ({
      groundSpeed,
      track: (i % 2 === 0 ? 40 : 221) * DEGREE,
    }))
    const found = airSpeedFromLegs(line)
    expect(found).toMatchObject({ speed: 280, crossWindKnown: false })
    expect(found.wind.speed).toBeCloseTo(22, 12)
    expect(found.wind.from / DEGREE).toBeCloseTo(220, 9)
    expect(found.spread).toBeCloseTo(2, 12)
    expect(airSpeedFromLegs(line.slice(0, 2)).spread).toBeNull()
  })

  it.each([
    ['one leg', [[80, 0]], /legs must number from 2.*opposite direction/],
    [
      'two across each other',
      [
        [80, 0],
        [80, 90],
      ],
      /180°.*got 90°.*third leg/,
    ],
    [
      'all in one direction',
      [
        [80, 10],
        [82, 12],
        [81, 8],
      ],
      /one direction only: fly it back/,
    ],
    [
      'tracks too much alike',
      [
        [80, 0],
        [80, 20],
        [80, 40],
      ],
      /spread over 75°.*0°, 20°, 40°/,
    ],
    [
      'a standing leg',
      [
        [0, 0],
        [80, 180],
      ],
      /ground speed must be above 0 m\/s, got 0/,
    ],
    [
      'a leg backwards',
      [
        [80, 0],
        [-80, 180],
      ],
      /ground speed must be above 0 m\/s, got -80/,
    ],
    [
      'no track',
      [
        [80, Number.NaN],
        [80, 180],
      ],
      /track must be an angle/,
    ],
    [
      'a wind above the air speed',
      [
        [10, 0],
        [90, 60],
        [90, 300],
      ],
      /wind must stay below the air speed/,
    ],
  ] as const)('refuses %s', (_what, legs, words) => {
    const read = legs.map(([groundSpeed, track]) => ({ groundSpeed, track: track * DEGREE }))
    expect(() => airSpeedFromLegs(read)).toThrow(RangeError)
    expect(() => airSpeedFromLegs(read)).toThrow(words)
  })

  it('refuses ground speeds on three headings that no wind explains', () => {
    expect(() => airSpeedFromThreeHeadings([10, 10, 200])).toThrow(/one is wrong/)
    expect(() => airSpeedFromThreeHeadings([80, 0, 80])).toThrow(RangeError)
    expect(() => airSpeedFromOppositeRuns(80, 80, -1)).toThrow(/cross wind must be 0 m\/s or more, got -1/)
  })
})

describe('straight lines', () => {
  const table = authorityTable('line-fit')
  const points = table.rows.filter((row) => row.text('quantity') === 'point')
  const [x, y] = [points.map((row) => row.number('x')), points.map((row) => row.number('y'))]
  const printed = (quantity: string) => table.rows.find((row) => row.text('quantity') === quantity)?.number('y') ?? 0

  it('calibration of a thermometer (JCGM 100:2008, H.3): line, uncertainties, correlation, prediction', () => {
    const fit = fitLine(x, y, 20)
    const ahead = lineAt(fit, 30)
    const found = {
      intercept: fit.intercept,
      intercept_uncertainty: fit.interceptUncertainty,
      slope: fit.slope,
      slope_uncertainty: fit.slopeUncertainty,
      correlation: fit.correlation,
      scatter: fit.scatter,
      prediction: ahead.value,
      prediction_uncertainty: ahead.uncertainty,
    }
    for (const [quantity, value] of Object.entries(found)) {
      // Uncertainties are printed to three digits.
      const digits = quantity.endsWith('uncertainty') ? 1.5e-3 : table.tolerance
      expect(relativeError(value, printed(quantity)), quantity).toBeLessThan(digits)
    }
  })

  it('the line and its uncertainty do not depend on where the intercept is taken', () => {
    fc.assert(
      fc.property(within(-50, 50), within(10, 40), (reference, at) => {
        const moved = lineAt(fitLine(x, y, reference), at)
        const straight = fitLine(x, y, at)
        expect(moved.value).toBeCloseTo(straight.intercept, 10)
        expect(moved.uncertainty).toBeCloseTo(straight.interceptUncertainty, 10)
      }),
    )
  })

  it('least squares through the origin: drag over dynamic pressure', () => {
    const speed = authorityTable('speed-calibration')
    const five = (name: string, unit: string) => [1, 2, 3, 4, 5].map((i) => quantityOf(speed, `${name}_${i}_${unit}`))
    const fit = fitProportion(five('pressure', 'pa'), five('drag', 'n'))
    expect(relativeError(fit.slope, quantityOf(speed, 'line_slope_m2'))).toBeLessThan(1e-5)
    expect(relativeError(fit.scatter, quantityOf(speed, 'line_scatter_n'))).toBeLessThan(1e-5)
    expect(relativeError(fit.slopeUncertainty, quantityOf(speed, 'line_slope_uncertainty_m2'))).toBeLessThan(2e-5)
    expect(fit.degreesOfFreedom).toBe(4)
  })

  it('refuses too few points, unlike lengths, one x only, and what is no number', () => {
    expect(() => fitLine([1, 2], [1, 2])).toThrow(/points must number 3 or more, got 2/)
    expect(() => fitLine([1, 2, 3], [1, 2])).toThrow(/as many, got 3 and 2/)
    expect(() => fitLine([2, 2, 2], [1, 2, 3])).toThrow(/two different values or more, got 2/)
    expect(() => fitLine([1, 2, Number.NaN], [1, 2, 3])).toThrow(/finite numbers, got NaN/)
    expect(() => fitProportion([0, 0], [1, 2])).toThrow(/x must differ from 0/)
  })
})

describe('drag area from power and speed', () => {
  const table = authorityTable('speed-calibration')
  const given = (quantity: string) => {
    const row = table.rows.find((each) => each.text('quantity') === quantity)
    return { value: row?.number('value') ?? 0, uncertainty: row?.number('relative_uncertainty') ?? 0 }
  }
  const measured = {
    power: given('power_w'),
    efficiency: given('efficiency'),
    speed: given('speed_m_s'),
    density: given('density_kg_m3'),
  }

  it('and its uncertainty as a product (JCGM 100:2008, 5.1.6; computed)', () => {
    const found = dragAreaFromPower(measured)
    expect(relativeError(found.value, quantityOf(table, 'drag_area_m2'))).toBeLessThan(2e-5)
    const absolute = found.value * found.uncertainty
    expect(relativeError(absolute, quantityOf(table, 'drag_area_uncertainty_m2'))).toBeLessThan(table.tolerance)
  })

  it('speed counts three times over, and no uncertainty leaves none', () => {
    const only = (quantity: keyof typeof measured) =>
      dragAreaFromPower(
        Object.fromEntries(
          Object.entries(measured).map(([name, { value }]) => [
            name,
            { value, uncertainty: name === quantity ? 0.01 : 0 },
          ]),
        ) as unknown as typeof measured,
      ).uncertainty
    expect(only('speed')).toBeCloseTo(0.03, 15)
    expect(only('power')).toBeCloseTo(0.01, 15)
  })

  it('refuses what cannot be, by name', () => {
    const off = (quantity: keyof typeof measured, value: number, uncertainty = 0.01) =>
      expect(() => dragAreaFromPower({ ...measured, [quantity]: { value, uncertainty } }))
    off('speed', 0).toThrow(/speed must be above 0, got 0/)
    off('efficiency', 1.2).toThrow(/efficiency must be 1 at most, got 1.2/)
    off('power', 2000, 0.7).toThrow(/uncertainty of power must lie between 0 and 0.5, got 0.7/)
  })
})
