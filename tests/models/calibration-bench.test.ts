// A fan fitted from standing measurements: against SciPy's fits of the same readings, against fans whose readings were made
// by an independent forward computation here, with noise and without; and every reason not to answer.
import {
  BENCH_UNCERTAINTIES,
  type BenchData,
  type BenchPoint,
  FITTED,
  type Fitted,
  MEASURED,
} from '@ductwright/models/calibration/bench-data'
import { WIDEST_UNCERTAINTY } from '@ductwright/models/calibration/bench-determinacy'
import { type BenchFit, type FittedFan, fitBench, upperChiSquared } from '@ductwright/models/calibration/bench-fit'
import { prepareRig } from '@ductwright/models/calibration/bench-model'
import { lossFactor, lossScale, NO_LOSS_SCALE } from '@ductwright/models/fan/efficiency-scaling'
import { describe, expect, it } from 'vitest'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'

const RPM = Math.PI / 30
const AIR = { density: 1.2, soundSpeed: 342, viscosity: 1.8e-5 }
const GEOMETRY = { tipDiameter: 0.09, hubDiameter: 0.042, phiPeak: 0.68, kappa: 0.45 }
const MOTOR = { speedConstant: 1080 * RPM, resistance: 0.011, noLoadCurrent: 2.5, noLoadCurrentSlope: 6e-4 }
const CONTROLLER = { resistance: 0.0014, quiescentPower: 4, proportionalLoss: 0.003 }
const DUCT_LOSS = 0.3
const FAN: Readonly<Record<Fitted, number>> = { psi0: 0.7, psi1: 0.68, etaPeak: 0.71 }
const ALL_NOZZLES = [1, 1, 0.86, 0.74, 0.6, 0.6]

/** Readings of the fan above, worked out afresh: axial speed by halving, then forces and motor in plain steps. */
function pointOf(nozzleRatio: number, rpm: number, fan = FAN): BenchPoint & { readonly thrust: number } {
  const { tipDiameter, hubDiameter, phiPeak, kappa } = GEOMETRY
  const area = (Math.PI / 4) * (tipDiameter ** 2 - hubDiameter ** 2)
  const shaftSpeed = rpm * RPM
  const blade = shaftSpeed * Math.sqrt((tipDiameter ** 2 + hubDiameter ** 2) / 8)
  let [low, high] = [0, 3 * blade]
  for (let i = 0; i < 200; i++) {
    const axial = 0.5 * (low + high)
    const head = 0.5 * (axial / nozzleRatio) ** 2 + 0.5 * DUCT_LOSS * axial ** 2
    if (fan.psi0 * blade ** 2 - fan.psi1 * axial * blade > head) low = axial
    else high = axial
  }
  const phi = low / blade
  const tipOverMean = tipDiameter / Math.sqrt((tipDiameter ** 2 + hubDiameter ** 2) / 2)
  const efficiency =
    (1 - (1 - fan.etaPeak) * lossFactor(lossScale(tipOverMean, AIR), blade)) * (1 - kappa * (phi / phiPeak - 1) ** 2)
  const flow = AIR.density * area * low
  const torque = (flow * blade ** 2 * (fan.psi0 - fan.psi1 * phi)) / efficiency / shaftSpeed
  const motor = torque * MOTOR.speedConstant + MOTOR.noLoadCurrent + MOTOR.noLoadCurrentSlope * shaftSpeed
  const voltage = shaftSpeed / MOTOR.speedConstant + motor * (MOTOR.resistance + CONTROLLER.resistance)
  const current = (motor + CONTROLLER.quiescentPower / voltage) / (1 - CONTROLLER.proportionalLoss)
  return { nozzleRatio, shaftSpeed, thrust: (flow * low) / nozzleRatio, current, voltage, motorVoltage: null }
}

const pointsAt = (nozzles: readonly number[], fan = FAN) =>
  nozzles.map((nozzle, i) => pointOf(nozzle, 33_000 + 900 * (i % 6), fan))

function dataOf(points: readonly BenchPoint[], changes: Partial<BenchData> & { motorless?: true } = {}): BenchData {
  const { motorless, ...given } = changes
  const motor = motorless ? null : MOTOR
  const rig = prepareRig({ fan: GEOMETRY, air: AIR, motor, controller: CONTROLLER })
  return { rig, ductLoss: DUCT_LOSS, points, uncertainties: BENCH_UNCERTAINTIES, held: {}, ...given }
}

const without = (points: readonly BenchPoint[], ...readings: (keyof BenchPoint)[]): BenchPoint[] =>
  points.map((point) => ({ ...point, ...Object.fromEntries(readings.map((reading) => [reading, null])) }))

function fittedOf(fit: BenchFit): FittedFan {
  if (fit.kind !== 'fitted') throw new Error(JSON.stringify(fit))
  return fit
}

describe('readings of eight fans fitted by SciPy (scipy.optimize.least_squares)', () => {
  const table = authorityTable('bench-points')
  const numbers = [...new Set(table.rows.map((row) => row.number('case')))]
  const reading = (row: AuthorityRow, column: string) => (row.text(column) === '' ? null : row.number(column))

  it('covers points without speed, without voltage, and with a held slope', () => {
    const shape = (row: AuthorityRow) =>
      ['shaft_rad_s', 'voltage_v', 'held_psi1'].map((column) => row.text(column) !== '').join()
    expect(new Set(table.rows.map(shape)).size).toBeGreaterThanOrEqual(5)
  })

  it.each(numbers)('fan %i: the same estimates, uncertainties and χ²', (number) => {
    const rows = table.rows.filter((row) => row.number('case') === number)
    const first = rows[0]!
    const held = reading(first, 'held_psi1')
    const prepared = prepareRig({
      fan: {
        tipDiameter: first.number('tip_m'),
        hubDiameter: first.number('hub_m'),
        phiPeak: first.number('phi_peak'),
        kappa: first.number('kappa'),
      },
      air: { ...AIR, density: first.number('density') },
      motor: {
        speedConstant: first.number('speed_constant'),
        resistance: first.number('motor_ohm'),
        noLoadCurrent: first.number('idle_current_a'),
        noLoadCurrentSlope: first.number('idle_slope'),
      },
      controller: {
        resistance: first.number('esc_ohm'),
        quiescentPower: first.number('quiescent_w'),
        proportionalLoss: first.number('proportional'),
      },
    })
    const fit = fittedOf(
      fitBench({
        rig: { ...prepared, lossScale: NO_LOSS_SCALE },
        ductLoss: first.number('duct_loss'),
        points: rows.map((row) => ({
          nozzleRatio: row.number('nozzle_ratio'),
          shaftSpeed: reading(row, 'shaft_rad_s'),
          thrust: reading(row, 'thrust_n'),
          current: reading(row, 'current_a'),
          voltage: reading(row, 'voltage_v'),
          motorVoltage: null,
        })),
        uncertainties: BENCH_UNCERTAINTIES,
        held: held === null ? {} : { psi1: { value: held, uncertainty: first.number('held_u') } },
      }),
    )
    const columns = { psi0: 'psi0', psi1: 'psi1', etaPeak: 'eta_peak' }
    for (const unknown of FITTED) {
      const { value, uncertainty } = fit.estimates[unknown]
      expect(relativeError(value, first.number(columns[unknown])), unknown).toBeLessThan(table.tolerance)
      expect(relativeError(uncertainty, first.number(`u_${columns[unknown]}`)), unknown).toBeLessThan(table.tolerance)
    }
    expect(relativeError(fit.chiSquared, first.number('chi_squared'))).toBeLessThan(table.tolerance)
  })
})

describe('a fan found back from its own readings', () => {
  it.each([
    ['all readings', []],
    ['no shaft speed: the motor tells it', ['shaftSpeed']],
    ['no voltage', ['voltage']],
    ['no shaft speed at some points', []],
  ] as const)('%s', (what, missing) => {
    const points = without(pointsAt(ALL_NOZZLES), ...missing).map((point, i) =>
      what.includes('some') && i % 2 === 0 ? { ...point, shaftSpeed: null } : point,
    )
    const fit = fittedOf(fitBench(dataOf(points)))
    for (const unknown of FITTED) expect(fit.estimates[unknown].value).toBeCloseTo(FAN[unknown], 7)
    expect(fit.chiSquared).toBeLessThan(1e-12)
    expect(fit.widening).toBe(1)
    expect(fit.points[0]?.thrust).toBeCloseTo(points[0]?.thrust ?? 0, 6)
  })

  it('voltage taken at the motor leaves out the controller', () => {
    const points = pointsAt(ALL_NOZZLES).map((point) => {
      const motor =
        (point.current ?? 0) * (1 - CONTROLLER.proportionalLoss) - CONTROLLER.quiescentPower / (point.voltage ?? 1)
      return { ...point, voltage: null, motorVoltage: (point.voltage ?? 0) - motor * CONTROLLER.resistance }
    })
    const fit = fittedOf(fitBench(dataOf(points)))
    for (const unknown of FITTED) expect(fit.estimates[unknown].value).toBeCloseTo(FAN[unknown], 7)
  })

  it('with noise the truth lies within the stated uncertainties: 200 seeded trials', () => {
    const normal = normalNumbers(91)
    const inside: Record<Fitted, number> = { psi0: 0, psi1: 0, etaPeak: 0 }
    let [far, refused, squares] = [0, 0, 0]
    for (let trial = 0; trial < 200; trial++) {
      const fit = fitBench(noisyTrial(normal))
      if (fit.kind !== 'fitted') refused++
      else {
        squares += fit.chiSquared / fit.degreesOfFreedom
        for (const unknown of FITTED) {
          const { value, uncertainty } = fit.estimates[unknown]
          const off = Math.abs(value - FAN[unknown]) / uncertainty
          if (off <= 2) inside[unknown]++
          if (off > 3) far++
        }
      }
    }
    expect(refused).toBeLessThanOrEqual(2)
    expect(far).toBeLessThanOrEqual(6)
    for (const unknown of FITTED) {
      expect(inside[unknown] / (200 - refused), unknown).toBeGreaterThan(0.88)
      expect(inside[unknown] / (200 - refused), unknown).toBeLessThanOrEqual(1)
    }
    expect(squares / (200 - refused)).toBeCloseTo(1, 1)
  })

  it('more points narrow it, but never below what the scales of the instruments leave open', () => {
    const exact = { ...BENCH_UNCERTAINTIES, thrustScale: 0, currentScale: 0, voltageScale: 0 }
    const sigma = (repeat: number, uncertainties = BENCH_UNCERTAINTIES) => {
      const points = pointsAt(Array.from({ length: repeat }, () => [1, 0.6]).flat())
      return fittedOf(fitBench(dataOf(points, { uncertainties }))).estimates.etaPeak.uncertainty
    }
    expect(sigma(8)).toBeLessThan(sigma(2))
    expect(sigma(18)).toBeGreaterThan(1.8 * sigma(18, exact))
  })

  it('a held slope settles one nozzle, and is said to', () => {
    const held = { psi1: { value: 0.7, uncertainty: 0.05 } }
    const fit = fittedOf(fitBench(dataOf(pointsAt([0.88, 0.88]), { held })))
    expect(fit.estimates.psi1.value).toBeCloseTo(0.7, 6)
    expect(fit.estimates.psi1.priorShare).toBeGreaterThan(0.999)
    expect(fit.estimates.psi0.priorShare).toBe(0)
    expect(fit.correlation[0]?.[1]).toBeGreaterThan(0.5)
    const many = fittedOf(fitBench(dataOf(pointsAt(ALL_NOZZLES), { held: { psi1: { value: 0.7, uncertainty: 0.5 } } })))
    expect(many.estimates.psi1.priorShare).toBeLessThan(0.1)
  })
})

/** Seeded standard normal numbers: a linear congruential generator and Box–Muller. */
function normalNumbers(seed: number): () => number {
  let state = seed
  const uniform = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return (state + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

/** Readings with the errors of instruments, their scales a little off, and a rig whose duct, air and motor are not quite the ones assumed. */
function noisyTrial(normal: () => number): BenchData {
  const u = BENCH_UNCERTAINTIES
  const size = { shaftSpeed: u.shaftSpeed, thrust: u.thrust, current: u.current, voltage: u.voltage, motorVoltage: 0 }
  const scales = {
    shaftSpeed: 1,
    thrust: 1 + u.thrustScale * normal(),
    current: 1 + u.currentScale * normal(),
    voltage: 1 + u.voltageScale * normal(),
    motorVoltage: 1,
  }
  const points = pointsAt(ALL_NOZZLES).map((point) => ({
    ...point,
    ...Object.fromEntries(
      MEASURED.filter((measured) => point[measured] !== null).map((measured) => [
        measured,
        point[measured]! * scales[measured] * (1 + size[measured] * normal()),
      ]),
    ),
  }))
  const fan = {
    ...GEOMETRY,
    phiPeak: GEOMETRY.phiPeak + u.phiPeak * normal(),
    kappa: GEOMETRY.kappa + u.kappa * normal(),
  }
  const rig = prepareRig({
    fan,
    air: { ...AIR, density: AIR.density / (1 + u.density * normal()) },
    motor: { ...MOTOR, speedConstant: MOTOR.speedConstant / (1 + u.speedConstant * normal()) },
    controller: CONTROLLER,
  })
  return dataOf(points, { rig, ductLoss: DUCT_LOSS + u.ductLoss * normal() })
}

describe('what measurements leave undetermined', () => {
  const verdict = (data: BenchData) => {
    const fit = fitBench(data)
    if (fit.kind !== 'undetermined') throw new Error(fit.kind)
    return { unknowns: [...fit.unknowns], remedies: [...fit.remedies] }
  }
  const spread = pointsAt(ALL_NOZZLES)

  it('one nozzle cannot part ψ0 from ψ1', () => {
    expect(verdict(dataOf(pointsAt([0.88, 0.88, 0.88])))).toEqual({
      unknowns: ['psi0', 'psi1'],
      remedies: ['second-nozzle'],
    })
  })

  it('nozzles too much alike do so too badly to be of use', () => {
    expect(verdict(dataOf(pointsAt([0.88, 0.82])))).toMatchObject({ remedies: ['wider-nozzles'] })
    const held = { psi1: { value: 0.68, uncertainty: 0.05 } }
    expect(fitBench(dataOf(pointsAt([0.88, 0.82]), { held })).kind).toBe('fitted')
  })

  it('without a motor, or without current, the efficiency stays open', () => {
    expect(verdict(dataOf(spread, { motorless: true }))).toEqual({ unknowns: ['etaPeak'], remedies: ['motor'] })
    expect(verdict(dataOf(without(spread, 'current', 'voltage')))).toEqual({
      unknowns: ['etaPeak'],
      remedies: ['current'],
    })
  })

  it('without thrust, or without any shaft speed, the flow stays open', () => {
    expect(verdict(dataOf(without(spread, 'thrust')))).toMatchObject({ remedies: ['thrust'] })
    expect(verdict(dataOf(without(spread, 'shaftSpeed'), { motorless: true }))).toMatchObject({
      unknowns: expect.arrayContaining(['psi0', 'etaPeak']),
      remedies: expect.arrayContaining(['shaft-speed', 'motor']),
    })
  })

  it('readings too coarse to tell fans apart', () => {
    const coarse = { ...BENCH_UNCERTAINTIES, thrust: 0.4, current: 0.4, shaftSpeed: 0.2, voltage: 0.2 }
    expect(verdict(dataOf(spread, { uncertainties: coarse })).unknowns.length).toBeGreaterThan(0)
  })

  it('whatever is answered is no wider than the widest worth reporting', () => {
    for (const nozzles of [
      [1, 0.6],
      [1, 0.75, 0.6],
      [0.95, 0.95, 0.7, 0.7],
    ]) {
      const fit = fitBench(dataOf(pointsAt(nozzles)))
      if (fit.kind === 'undetermined') continue
      for (const unknown of FITTED) {
        expect(fittedOf(fit).estimates[unknown].uncertainty).toBeLessThanOrEqual(WIDEST_UNCERTAINTY[unknown])
      }
    }
    expect(fitBench(dataOf(pointsAt([1, 0.6]))).kind).toBe('fitted')
  })
})

describe('measurements that contradict each other', () => {
  it.each(['thrust', 'current', 'voltage', 'shaftSpeed'] as const)('a wrong %s is named with its point', (measured) => {
    const points = pointsAt(ALL_NOZZLES).map((point, i) =>
      i === 3 ? { ...point, [measured]: (point[measured] ?? 0) * 1.4 } : point,
    )
    const fit = fitBench(dataOf(points))
    if (fit.kind !== 'inconsistent') throw new Error(fit.kind)
    expect(fit.deviations.map(({ observation }) => observation)).toContainEqual({ kind: 'reading', point: 3, measured })
    for (const { deviation } of fit.deviations) expect(Math.abs(deviation)).toBeGreaterThan(4)
  })

  it('a held value far from the readings is named', () => {
    const held = { psi1: { value: 1.3, uncertainty: 0.05 } }
    const fit = fitBench(dataOf(pointsAt(ALL_NOZZLES), { held }))
    if (fit.kind !== 'inconsistent') throw new Error(fit.kind)
    expect(fit.deviations[0]?.observation).toEqual({ kind: 'known', unknown: 'psi1' })
  })

  it('a scatter beyond what was stated widens the uncertainties, and is said', () => {
    const shaken = pointsAt([...ALL_NOZZLES, ...ALL_NOZZLES]).map((point, i) => ({
      ...point,
      thrust: point.thrust * (1 + (i % 2 === 0 ? 0.08 : -0.08)),
    }))
    const [fit, calm] = [shaken, pointsAt([...ALL_NOZZLES, ...ALL_NOZZLES])].map((points) =>
      fittedOf(fitBench(dataOf(points))),
    )
    expect(fit?.chiSquared).toBeGreaterThan(fit?.chiSquaredLimit ?? 0)
    expect(fit?.widening).toBeGreaterThan(1)
    expect(fit?.estimates.psi0.uncertainty).toBeGreaterThan(1.2 * (calm?.estimates.psi0.uncertainty ?? 0))
  })

  it('readings of no fan at all are no fan', () => {
    const weak = pointsAt(ALL_NOZZLES, { psi0: 0.7, psi1: 0.68, etaPeak: 0.36 })
    expect(fitBench(dataOf(weak))).toMatchObject({ kind: 'implausible', unknowns: [{ unknown: 'etaPeak' }] })
  })

  it('the 99 % bound of χ² (tables of the distribution, from memory)', () => {
    for (const [degrees, bound] of [
      [1, 6.635],
      [5, 15.086],
      [10, 23.209],
      [30, 50.892],
    ] as const) {
      expect(relativeError(upperChiSquared(degrees), bound)).toBeLessThan(0.02)
    }
    expect(upperChiSquared(0)).toBe(0)
  })
})

describe('data that cannot be', () => {
  const points = pointsAt(ALL_NOZZLES)
  it.each([
    ['no points', dataOf([]), /points must number from 1 to 40, got 0/],
    ['a thrust of nothing', dataOf([{ ...points[0]!, thrust: 0 }]), /thrust must be above 0, got 0/],
    ['a closed nozzle', dataOf([{ ...points[0]!, nozzleRatio: 0 }]), /nozzle ratio must be above 0, got 0/],
    ['a negative duct loss', dataOf(points, { ductLoss: -0.1 }), /duct loss must be 0 or more, got -0.1/],
    [
      'an uncertainty of nothing',
      dataOf(points, { uncertainties: { ...BENCH_UNCERTAINTIES, thrust: 0 } }),
      /uncertainty of thrust must be above 0, got 0/,
    ],
    [
      'a held value without doubt',
      dataOf(points, { held: { psi1: { value: 0.7, uncertainty: 0 } } }),
      /uncertainty of psi1/,
    ],
    [
      'a point nobody can use',
      dataOf([...points, { ...without(points, 'thrust', 'shaftSpeed')[0]! }], { motorless: true }),
      /each point must have a reading that the rig can use/,
    ],
  ] as const)('%s', (_what, data, words) => {
    expect(() => fitBench(data)).toThrow(RangeError)
    expect(() => fitBench(data)).toThrow(words)
  })
})
