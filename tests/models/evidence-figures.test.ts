// Figures that stand alone, and what whole setups show beside their points: how speed answers to power and drag, to the
// charge of the pack and to the length of a run.
import { COPPER_TEMPERATURE_COEFFICIENT, STANDARD_GRAVITY, ZERO_CELSIUS } from '@ductwright/models/constants'
import { conductingShare } from '@ductwright/models/esc/esc-losses'
import { reynoldsLossFactor } from '@ductwright/models/fan/efficiency-scaling'
import { verticalDiveSpeed } from '@ductwright/models/flight/dive'
import { fluxFactor } from '@ductwright/models/motor/magnet'
import { lumpRise } from '@ductwright/models/thermal/lump'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'
import { RPM } from './believable-parts.js'
import { built, detailOf, type Installation, type Train } from './evidence-trains.js'

describe('single figures', () => {
  const { rows } = authorityTable('single-figures')
  const rowOf = (quantity: string) => {
    const row = rows.find((each) => each.text('quantity') === quantity)
    if (row === undefined) throw new RangeError(`no figure ${quantity}`)
    return row
  }
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, rowOf(quantity).number('value'))).toBeLessThan(rowOf(quantity).number('tolerance'))

  it('a 90 mm fan at 40 000 rpm: tip speed and tip Mach number of a reported point (computed)', () => {
    check('tip_speed_m_s', 0.5 * 0.09 * 40_000 * RPM)
    const train = { tipDiameter: 0.09, cells: 10, capacity: 5, motorMass: 0.33 }
    const { standing } = detailOf(built(train, 1080, { mass: 4.4 }))
    check('tip_mach', standing.tipMach * ((40_000 * RPM) / standing.shaftSpeed))
  })

  it('efficiency against Reynolds number (Ackeret, from memory; computed)', () => {
    check('efficiency_at_reynolds_1e5', 1 - (1 - 0.8) * reynoldsLossFactor(1e5, 5e5))
    expect(reynoldsLossFactor(5e5, 5e5)).toBe(1)
  })

  it('conduction of one switch at part throttle (LM2735-Q1, LMR12015; printed)', () => {
    const loss = (current: number, resistance: number, duty: number) =>
      1000 * current * current * resistance * conductingShare({ freewheelResistanceShare: 0 }, duty)
    check('conduction_lm2735_mw', loss(1.4, 0.25, 0.623))
    check('conduction_lmr12015_mw', loss(2, 0.15, 0.314))
  })

  it('speed constant with magnets at 50 °C over that at 20 °C (0.12 % per K, from memory; computed)', () => {
    check('speed_constant_ratio_50_c', 1 / fluxFactor(ZERO_CELSIUS + 50))
    expect(fluxFactor(ZERO_CELSIUS + 20)).toBe(1)
  })

  it('a resistance that warms itself: G less I²Rα in place of G (computed)', () => {
    const [conductance, capacity, time] = [60 * 0.012, 0.35 * 460, 240]
    const heat = (124 * 80) / lumpRise(80, conductance, capacity, time) / 80
    check('rise_without_feedback_k', lumpRise(80 * heat, conductance, capacity, time))
    const left = conductance - 80 * heat * COPPER_TEMPERATURE_COEFFICIENT
    check('rise_with_feedback_k', lumpRise(80 * heat, left, capacity, time))
  })

  it('a vertical dive from rest by time and by height is one dive: V = Vt·tanh(gt/Vt) (computed)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 150, noNaN: true }),
        fc.double({ min: 0.5, max: 12, noNaN: true }),
        (vt, t) => {
          const height = ((vt * vt) / STANDARD_GRAVITY) * Math.log(Math.cosh((STANDARD_GRAVITY * t) / vt))
          const byTime = vt * Math.tanh((STANDARD_GRAVITY * t) / vt)
          expect(relativeError(verticalDiveSpeed(vt, 0, height, STANDARD_GRAVITY), byTime)).toBeLessThan(1e-9)
        },
      ),
    )
  })
})

const TRAIN: Train = { tipDiameter: 0.09, cells: 10, capacity: 5, motorMass: 0.33 }
const flown = (installation: Installation) => detailOf(built(TRAIN, 1080, { mass: 4.4, ...installation }))

describe('what top speed answers to (computed ranges of this model)', () => {
  /** Drag areas from a dirty large jet to a clean small one. */
  const details = [0.0125, 0.009, 0.0052, 0.0035, 0.0018].map((dragArea) => flown({ airframe: { dragArea } }))

  it('power by about a third, whatever the drag area', () => {
    for (const { response } of details) {
      expect(response.power).toBeGreaterThan(0.28)
      expect(response.power).toBeLessThan(0.42)
    }
  })

  it('drag area less, the nearer the speed is to the efflux: about −0.36 at 0.56 of it, about −0.16 at 0.91', () => {
    const ratios = details.map(({ top }) => top.speed / top.efflux)
    const answers = details.map(({ response }) => response.dragArea)
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b))
    expect(answers).toEqual([...answers].sort((a, b) => a - b))
    // A straight line through the two figures; without induced drag and losses of the motor it would be exact.
    answers.forEach((answer, i) => {
      expect(Math.abs(answer - (-0.36 + ((ratios[i] ?? 0) - 0.56) * (0.2 / 0.35)))).toBeLessThan(0.06)
    })
  })

  it('the speed at which the efflux is no faster lies 1.2 to 1.6 times the standing efflux', () => {
    for (const { effluxCeiling, standing, top } of details) {
      const ceiling = effluxCeiling * (standing.shaftSpeed / top.shaftSpeed)
      expect(ceiling / standing.efflux).toBeGreaterThan(1.2)
      expect(ceiling / standing.efflux).toBeLessThan(1.6)
    }
  })
})

describe('charge and run (common practice and computed; no source)', () => {
  it('from 4.15 to 3.73 V a cell current falls to about 112/136 and speed to about 277/305', () => {
    const at = (charge: number) => flown({ circumstances: { charge } }).top
    const [full, low] = [at(0.95), at(0.2)]
    expect(relativeError(low.packCurrent / full.packCurrent, 112 / 136)).toBeLessThan(0.06)
    expect(relativeError(low.speed / full.speed, 277 / 305)).toBeLessThan(0.03)
  })

  it('entered at 60 %, a run takes 300 m to 83–86 %, about 430–515 m to 90 % and about 1 km to 98 %', () => {
    const reached = (length: number) => {
      const run = { length, entrySpeedShare: 0.6, entryHeight: 0, diveAngle: Math.PI / 6 }
      const { inRunSpeed, top } = flown({ circumstances: { run } })
      return inRunSpeed / top.speed
    }
    expect(reached(300)).toBeGreaterThan(0.8)
    expect(reached(300)).toBeLessThan(0.88)
    expect(reached(380)).toBeLessThan(0.9)
    expect(reached(580)).toBeGreaterThan(0.9)
    expect(reached(800)).toBeLessThan(0.98)
    expect(reached(1300)).toBeGreaterThan(0.98)
  })
})
