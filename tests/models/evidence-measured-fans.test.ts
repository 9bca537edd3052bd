// Small fans as their owners measured them, against momentum theory and against fans by the laws of the catalogue at the
// same input power. Hobby-grade measurements: wide bands.
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { froudeEfficiency, staticEfflux, staticThrust } from '@ductwright/models/fan/momentum'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'
import { built, detailOf, type Installation, solveFor, type Train } from './evidence-trains.js'

const SEA_LEVEL = 1.225
const { rows, tolerance } = authorityTable('measured-fans')
const rowOf = (name: string) => {
  const row = rows.find((each) => each.text('case') === name)
  if (row === undefined) throw new RangeError(`no measured fan ${name}`)
  return row
}

/** Standing point of a train whose wind takes the measured power. */
function standingAt(power: number, train: Train, installation: Installation) {
  const standing = (kv: number) => detailOf(built(train, kv, installation)).standing
  return standing(solveFor(power, 200, 6000, (kv) => standing(kv).packPower))
}

/** A duct on the bench, with little else to carry. */
function bench(tipDiameter: number, ductLoss: number, mass: number): Installation {
  const x = tipDiameter / 0.09
  return { airframe: { ductLoss, dragArea: 0.003 * x * x, span: 1.1 * x, wingArea: 0.26 * x * x }, mass }
}

describe('momentum theory on a measured fan', () => {
  const row = rowOf('125 mm in a tube')

  it('20 lb 1.6 oz is 89.41 N and 14.28 square inches are 92.13 cm²', () => {
    expect(relativeError((20 + 1.6 / 16) * 0.45359237 * STANDARD_GRAVITY, row.number('thrust_n'))).toBeLessThan(1e-4)
    expect(relativeError(14.28 * 2.54 ** 2, row.number('exit_area_cm2'))).toBeLessThan(1e-4)
    expect(relativeError(43.1 * 146, row.number('power_w'))).toBeLessThan(1e-3)
  })

  it('its efflux is 89.0 m/s and 0.632 of the power is in the jet (computed)', () => {
    const thrust = row.number('thrust_n')
    const efflux = staticEfflux(SEA_LEVEL, row.number('exit_area_cm2') / 1e4, thrust)
    expect(relativeError(efflux, row.number('efflux_m_s'))).toBeLessThan(1e-3)
    expect(relativeError((0.5 * thrust * efflux) / row.number('power_w'), row.number('jet_share'))).toBeLessThan(1e-3)
  })

  it('a loss of 0.1 of the exit head costs 1 − 1.1^(−2/3) of the thrust: 0.9384 is left (computed)', () => {
    // The jet keeps 1/1.1 of what the fan puts in.
    const left = staticThrust(SEA_LEVEL, 0.005, 2000 / 1.1) / staticThrust(SEA_LEVEL, 0.005, 2000)
    expect(relativeError(left, 0.9384)).toBeLessThan(1e-4)
  })

  it('standing still nothing of the jet moves an aircraft; all of it when the jet is no faster than the aircraft', () => {
    expect(froudeEfficiency(0, 89)).toBe(0)
    expect(froudeEfficiency(89, 89)).toBe(1)
  })
})

describe('fans by the laws of the catalogue at the power of measured ones (no stated uncertainty)', () => {
  it('125 mm in a tube: thrust, efflux and share of the power in the jet', () => {
    const row = rowOf('125 mm in a tube')
    const train = { tipDiameter: 0.125, cells: 12, capacity: 8, motorMass: 0.7, nozzleRatio: 0.96 }
    const found = standingAt(row.number('power_w'), train, bench(0.125, 0.05, 4))
    const band = 0.5 * tolerance
    expect(relativeError(found.thrust, row.number('thrust_n'))).toBeLessThan(band)
    expect(relativeError(found.efflux, row.number('efflux_m_s'))).toBeLessThan(band)
    const share = (0.5 * found.thrust * found.efflux) / found.packPower
    expect(relativeError(share, row.number('jet_share'))).toBeLessThan(band)
  })

  it('64 mm on two cells with ring and tailpipe: thrust and rotation', () => {
    const row = rowOf('64 mm with ring and tailpipe')
    const train = { tipDiameter: 0.064, cells: 2, capacity: 2.2, motorMass: 0.06, escLabel: 30, nozzleRatio: 0.9 }
    const found = standingAt(row.number('power_w'), train, bench(0.064, 0.12, 0.6))
    expect(relativeError(found.thrust, row.number('thrust_n'))).toBeLessThan(tolerance)
    expect(relativeError((found.shaftSpeed * 30) / Math.PI, row.number('shaft_rpm'))).toBeLessThan(tolerance)
  })

  it('120 mm: thrust', () => {
    const row = rowOf('120 mm')
    const train = { tipDiameter: 0.12, cells: 10, capacity: 5, motorMass: 0.65 }
    const found = standingAt(row.number('power_w'), train, bench(0.12, 0.18, 3))
    expect(relativeError(found.thrust, row.number('thrust_n'))).toBeLessThan(tolerance)
  })
})

describe('the lip of the inlet', () => {
  it('without it the 64 mm fan gave 0.74 of the thrust at the same power: more loss than a sharp lip, less than the head', () => {
    const [bare, whole] = [rowOf('64 mm bare'), rowOf('64 mm with ring and tailpipe')]
    // Thrust goes with power to the ⅔.
    const left =
      (bare.number('thrust_n') / whole.number('thrust_n')) *
      (whole.number('power_w') / bare.number('power_w')) ** (2 / 3)
    const loss = left ** -1.5 - 1
    expect(left).toBeCloseTo(0.741, 3)
    expect(loss).toBeGreaterThan(0.35)
    expect(loss).toBeLessThan(1)
  })

  it('a rounded lip costs some, a sharp one more, none of it at top speed', () => {
    const train = { tipDiameter: 0.09, cells: 8, capacity: 5, motorMass: 0.33 }
    const details = [0, 0.15, 0.35].map((lipLoss) => detailOf(built(train, 1080, { airframe: { lipLoss }, mass: 4.4 })))
    const thrusts = details.map(({ standing }) => standing.thrust)
    expect(thrusts).toEqual([...thrusts].sort((a, b) => b - a))
    expect((thrusts[2] ?? 0) / (thrusts[0] ?? 1)).toBeLessThan(0.93)
    expect(relativeError(details[2]?.top.speed ?? 0, details[0]?.top.speed ?? 1)).toBeLessThan(1e-9)
  })
})

describe('building a 55 mm fan in cost 19 to 46 % of its bench thrust (measured, no stated uncertainty)', () => {
  const train = { tipDiameter: 0.055, cells: 4, capacity: 2, motorMass: 0.07, escLabel: 60 }
  const thrustIn = (airframe: Installation['airframe']) =>
    detailOf(built(train, 3900, { airframe: { ...bench(0.055, 0.05, 0.7).airframe, ...airframe }, mass: 0.7 })).standing
      .thrust

  it.each([
    ['foam duct, sharp lip', { ductLoss: 0.35, lipLoss: 0.35 }],
    ['foam duct behind a tight inlet', { ductLoss: 0.3, inletLoss: 0.2, inletArea: 0.0013, lipLoss: 0.35 }],
  ])('%s', (_name, airframe) => {
    const lost = 1 - thrustIn(airframe) / thrustIn({})
    expect(lost).toBeGreaterThan(0.19)
    expect(lost).toBeLessThan(0.46)
  })

  it('a straight duct with a bellmouth costs less than that', () => {
    expect(1 - thrustIn({ ductLoss: 0.12 }) / thrustIn({})).toBeLessThan(0.1)
  })
})
