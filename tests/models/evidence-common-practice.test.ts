// What pilots of such jets know from practice, against trains by the laws of the catalogue. Every figure here is common
// practice, no source; the bands are as wide as what is known.
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { describe, expect, it } from 'vitest'
import { KMH } from './believable-parts.js'
import { built, detailOf, solveFor, type Train } from './evidence-trains.js'

const KILOGRAM_FORCE = 9.80665
const between = (value: number, low: number, high: number) => {
  expect(value).toBeGreaterThan(low)
  expect(value).toBeLessThan(high)
}

describe('thrust for power (common practice, no source)', () => {
  it.each([8, 10, 12])('a 90 mm fan on %i cells gives about 1 kgf per kW near 5 kW standing', (cells) => {
    const train = { tipDiameter: 0.09, cells, capacity: 5, motorMass: 0.36 }
    const standing = (kv: number) => detailOf(built(train, kv, { mass: 4.4 })).standing
    const { thrust } = standing(solveFor(5000, 400, 2500, (kv) => standing(kv).packPower))
    between(thrust / KILOGRAM_FORCE / 5, 0.85, 1.3)
  })
})

/** A foam sport jet: lossy duct, poor ram, dirty as it comes out of its box. */
const FOAM = {
  emptyMass: 1.75,
  dragArea: 0.009,
  ductLoss: 0.25,
  ramRecovery: 0.9,
  wingArea: 0.27,
}

describe('cleaning up a foam sport jet at the same power (common practice, no source)', () => {
  const train: Train = { tipDiameter: 0.09, cells: 12, capacity: 5, motorMass: 0.4 }
  const top = (kv: number, share: number) => {
    const airframe = { ...FOAM, dragArea: share * FOAM.dragArea }
    return detailOf(built(train, kv, { airframe, mass: 3.4 })).top
  }
  const dirty = top(
    solveFor(275 * KMH, 500, 2500, (kv) => top(kv, 1).speed),
    1,
  )
  const gain = (share: number) => {
    const kv = solveFor(dirty.packPower, 500, 2500, (x) => top(x, share).packPower)
    return (top(kv, share).speed - dirty.speed) / KMH
  }

  it('a drag area cut by 45 % gains about 60 km/h', () => between(gain(0.55), 48, 72))
  it('a third gains 35 to 45 km/h', () => between(gain(2 / 3), 30, 50))
})

describe('more power on a dirty foam sport jet (common practice, no source)', () => {
  const SMALL: Train = { tipDiameter: 0.09, cells: 6, capacity: 4, motorMass: 0.25 }
  const LARGE: Train = { tipDiameter: 0.09, cells: 8, capacity: 4.5, motorMass: 0.36 }
  const topAt = (power: number, train: Train) => {
    const detail = (kv: number) => detailOf(built(train, kv, { airframe: FOAM }))
    return detail(solveFor(power, 300, 3500, (kv) => detail(kv).top.packPower))
  }

  it.each([2000, 2300, 2600])('half as much again as %i W, with the mass it brings, gains at most 16 %', (power) => {
    const [before, after] = [topAt(power, SMALL), topAt(1.5 * power, LARGE)]
    expect(after.mass).toBeGreaterThan(before.mass + 0.2)
    between(after.top.speed / before.top.speed, 1.06, 1.16)
  })

  it('2.3 kW pulls less than its mount carries again and again, 5 kW more', () => {
    const thrust = (power: number, train: Train) => {
      const standing = (kv: number) => detailOf(built(train, kv, { airframe: FOAM })).standing
      return standing(solveFor(power, 300, 3500, (kv) => standing(kv).packPower)).thrust
    }
    const MOUNT = 42
    expect(thrust(2300, SMALL)).toBeLessThan(MOUNT)
    expect(thrust(5000, LARGE)).toBeGreaterThan(MOUNT)
  })
})

describe('an 8 Ah installation with peaks near 158 A and 4.2 kW (common practice, no source)', () => {
  const train: Train = { tipDiameter: 0.09, cells: 8, capacity: 8, motorMass: 0.4, cellQuality: 0.012 }
  const PASSES = { flightTime: 270, passTime: 10, cruiseSpeed: 32, fullThrottleShare: 0.28 }
  const detail = (kv: number, share = PASSES.fullThrottleShare) =>
    detailOf(built(train, kv, { profile: { ...PASSES, fullThrottleShare: share } }))
  const kv = solveFor(155, 500, 2500, (x) => detail(x).top.packCurrent)

  it('draws about that power in its passes', () => between(detail(kv).top.packPower, 3800, 5200))

  it('with a quarter to a third at full throttle a mean of about 53 A and 4 Ah in four and a half minutes', () => {
    between(detail(kv).meanCurrent, 45, 62)
    between((detail(kv).meanCurrent * 270) / 3600, 3.4, 4.6)
    expect(detail(kv, 0.22).meanCurrent).toBeLessThan(53)
    expect(detail(kv, 0.34).meanCurrent).toBeGreaterThan(53)
  })

  it('flies about seven to eight minutes in all', () => between(detail(kv).flightTime / 60, 6.2, 8.8))

  /** Board temperature in °C after full throttle without a pause for a time, on a summer's day. */
  const held = (rpmPerVolt: number, time: number): number => {
    const profile = { flightTime: time, fullThrottleShare: 1, passTime: time }
    const summer = { profile, circumstances: { airTemperature: ZERO_CELSIUS + 30 } }
    return detailOf(built(train, rpmPerVolt, summer)).temperatures.esc - ZERO_CELSIUS
  }
  const windFor = (current: number) => solveFor(current, 200, 2500, (x) => detail(x).top.motorCurrent)

  it('held at 140 A its controller labelled 160 A reaches 120 °C in about two minutes', () => {
    const wind = windFor(140)
    between(
      solveFor(120, 10, 600, (time) => held(wind, time)),
      80,
      180,
    )
  })

  it('more current is sooner, and at 80 A it never gets there', () => {
    expect(held(windFor(155), 90)).toBeGreaterThan(held(windFor(140), 90))
    expect(held(windFor(80), 600)).toBeLessThan(120)
  })
})
