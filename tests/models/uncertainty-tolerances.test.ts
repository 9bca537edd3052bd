// The table of inputs that vary, and what one value of each does to a setup: nothing when neutral, only what it names when
// not, and the spread that the table states.
import { fieldAir } from '@ductwright/models/atmosphere/standard-atmosphere'
import { haltonPoints } from '@ductwright/models/uncertainty/halton'
import { perturb, type StudiedSetup } from '@ductwright/models/uncertainty/perturb'
import {
  INPUT_INDEX,
  inputValue,
  MEASURED_CELL_RESISTANCE,
  measuredDragArea,
  type Tolerance,
  Tolerances,
  VARIED_INPUTS,
  type VariedInput,
} from '@ductwright/models/uncertainty/tolerances'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  airframeOf,
  believableSetups,
  circumstancesOf,
  escOf,
  fanOf,
  motorOf,
  packOf,
  setupOf,
} from './believable-parts.js'

const places = fc.double({ min: 0, max: 1, noNaN: true }).filter((place) => place > 0 && place < 1)

/** Deviation of a normal quantity cut off at ±3: √(1 − 2·3·φ(3)/(2Φ(3) − 1)). */
const TRUNCATED = Math.sqrt(1 - (6 * Math.exp(-4.5)) / Math.sqrt(2 * Math.PI) / (1 - 2 * 0.0013498980316301))

function deviationOf(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)
}

/** A setup with a structure of its own and a fixed mass, so that every input has something to act on. */
function structured(): StudiedSetup {
  const panel = { semispan: 0.48, chord: 0.236, taper: 0.5, thicknessRatio: 0.1, massOffset: 0.2 }
  const control = { span: 0.25, chord: 0.045, inertia: 6e-6, linkageStiffness: 6, servoTorque: 0.4 }
  const airframe = airframeOf({
    structure: {
      wing: { ...panel, torsionalStiffness: 60, elasticOffset: 0.12, liftSlope: 3.6 },
      tail: { ...panel, semispan: 0.2, torsionalStiffness: 10 },
      controls: [
        { name: 'aileron', ...control },
        { name: 'elevator', ...control },
      ],
    },
    inletLoss: 0.02,
    lipLoss: 0.1,
  })
  const setup = setupOf(
    circumstancesOf(airframe, { mass: { limit: 5.5, fixed: 4.6 } }),
    fanOf(0.09),
    motorOf(1500, 0.35),
    escOf(160),
    packOf(8, 5),
  )
  return { ...setup, nozzleRatio: setup.parts.node.duct.nozzleRatio }
}

function neutral(changes: Partial<Record<VariedInput, number>> = {}): number[] {
  return Tolerances.standard.rows.map((row) => changes[row.input] ?? (row.effect === 'factor' ? 1 : 0))
}

/** Paths of the numbers in which two values differ, with both numbers. */
function differences(before: unknown, after: unknown, path = ''): [string, number, number][] {
  if (typeof before === 'number' && typeof after === 'number') return before === after ? [] : [[path, before, after]]
  if (typeof before !== 'object' || before === null) return []
  return Object.entries(before).flatMap(([key, value]) =>
    differences(value, (after as Record<string, unknown>)[key], path === '' ? key : `${path}.${key}`),
  )
}

describe('the table of tolerances', () => {
  it('names every input once, with a reason that says what is assumed', () => {
    expect(new Set(VARIED_INPUTS).size).toBe(VARIED_INPUTS.length)
    for (const [index, row] of Tolerances.standard.rows.entries()) {
      expect(row.input).toBe(VARIED_INPUTS[index])
      expect(INPUT_INDEX[row.input]).toBe(index)
      expect(row.reason).toMatch(/^Assumed: ./)
    }
  })

  it('keeps every factor above 0 at every place', () => {
    fc.assert(
      fc.property(places, fc.constantFrom(...Tolerances.standard.rows), (place, row) => {
        const value = inputValue(row, place)
        if (row.effect === 'factor') expect(value).toBeGreaterThan(0)
        expect(Math.abs(value - (row.effect === 'factor' ? 1 : 0))).toBeLessThanOrEqual(3.000001 * row.deviation)
      }),
    )
  })

  it('spreads each input by its deviation, a normal one cut off at three deviations by 0.987 of it', () => {
    const evenly = Array.from({ length: 20_000 }, (_, i) => (i + 0.5) / 20_000)
    expect(TRUNCATED).toBeCloseTo(0.98658, 5)
    for (const row of Tolerances.standard.rows) {
      const stated = row.deviation * (row.distribution === 'normal' ? TRUNCATED : 1)
      expect(deviationOf(evenly.map((place) => inputValue(row, place))) / stated).toBeCloseTo(1, 4)
      expect(inputValue(row, 0.5)).toBeCloseTo(row.effect === 'factor' ? 1 : 0, 12)
    }
  })

  it('propagates through a product as in JCGM 100:2008, 5.1.6: 0.00288 ± 0.000204 m² of drag area', () => {
    // CdA = 2·η·P/(ρ·V³) with P 2000 W ± 2 %, η 0.50 ± 5 %, V 83.333 m/s ± 1.5 %, ρ 1.20 kg/m³ ± 1 %; computed.
    const normal = (deviation: number): Tolerance => ({ ...Tolerances.standard.of('drag-area'), deviation })
    const rows = [normal(0.02), normal(0.05), normal(0.015), normal(0.01)]
    const cube = haltonPoints(4096, rows.length, 3)
    const areas = Array.from({ length: 4096 }, (_, i) => {
      const [power, eta, speed, density] = rows.map((row, j) => inputValue(row, cube[4 * i + j] as number))
      return (2 * 0.5 * eta! * 2000 * power!) / (1.2 * density! * (83.333 * speed!) ** 3)
    })
    expect(areas.reduce((a, b) => a + b) / areas.length).toBeCloseTo(0.00288, 5)
    expect(Math.abs(deviationOf(areas) / (0.000204 * TRUNCATED) - 1)).toBeLessThan(0.03)
  })

  it('takes overrides for one input and leaves the rest', () => {
    const measured = Tolerances.standard.with({ 'cell-resistance': MEASURED_CELL_RESISTANCE })
    expect(measured.of('cell-resistance').deviation).toBe(0.05)
    expect(measured.of('cell-resistance').effect).toBe('factor')
    expect(Tolerances.standard.of('cell-resistance').deviation).toBe(0.2)
    const others = (set: Tolerances) => set.rows.filter(({ input }) => input !== 'cell-resistance')
    expect(others(measured)).toEqual(others(Tolerances.standard))
    expect(Tolerances.standard.scaled(0).rows.every(({ deviation }) => deviation === 0)).toBe(true)
  })

  it('takes the deviation of a solved drag area from its band', () => {
    const change = measuredDragArea({ dragArea: 0.005, low: 0.005 - 1.645 * 0.0003, high: 0.005 + 1.645 * 0.0003 })
    expect(change.deviation).toBeCloseTo(0.06, 4)
    const vague = measuredDragArea({ dragArea: 0.005, low: 0.0002, high: 0.02 })
    expect(() => Tolerances.standard.with({ 'drag-area': vague })).not.toThrow()
  })

  it('refuses deviations that are negative, endless or could turn a factor negative, and inputs it does not know', () => {
    const wider = (deviation: number) => () => Tolerances.standard.with({ 'drag-area': { deviation } })
    expect(wider(-0.1)).toThrow(/^deviation of drag-area must be finite and not negative, got -0.1$/)
    expect(wider(Number.NaN)).toThrow(/^deviation of drag-area must be finite/)
    expect(wider(0.34)).toThrow(/^deviation of drag-area must keep its factor above 0 \(normal\), got 0.34$/)
    expect(() => Tolerances.standard.with({ 'esc-cooling': { deviation: 0.58 } })).toThrow(/above 0 \(uniform\)/)
    expect(() => Tolerances.standard.scaled(2)).toThrow(/^deviation of [a-z-]+ must keep its factor above 0/)
    const unknown = { 'paint-colour': { deviation: 0.1 } } as Record<string, object>
    expect(() => Tolerances.standard.with(unknown)).toThrow(
      /^input must be one of the tolerance table, got "paint-colour"$/,
    )
  })
})

describe('a setup with other inputs', () => {
  it('is the setup itself, to the last digit, when all are neutral', () => {
    fc.assert(
      fc.property(believableSetups, (setup) => {
        const studied = { ...setup, nozzleRatio: setup.parts.node.duct.nozzleRatio }
        const { circumstances, parts } = perturb(studied, neutral())
        expect(circumstances).toEqual(setup.circumstances)
        expect(parts).toEqual(setup.parts)
      }),
      { numRuns: 30 },
    )
  })

  it.each([
    ['drag-area', ['circumstances.airframe.dragArea', 'parts.node.advanceRatio']],
    ['fan-pressure-rise', ['parts.node.duct.fan.psi0', 'parts.node.advanceRatio', 'parts.node.standing']],
    ['motor-speed-constant', ['parts.motor.speedConstant']],
    ['cell-resistance', ['parts.source.cellResistance']],
    ['fan-efficiency', ['parts.node.duct.fan.etaPeak', 'parts.node.standing']],
    ['motor-cooling', ['parts.motor.windingToCaseConductance', 'parts.motor.caseToAirConductance']],
    ['esc-cooling', ['parts.esc.boardToSinkConductance', 'parts.esc.sinkToAirConductance']],
    ['esc-resistance', ['parts.esc.resistance']],
    ['motor-resistance', ['parts.motor.resistance']],
    ['no-load-current', ['parts.motor.noLoadCurrent', 'parts.motor.noLoadCurrentSlope']],
    ['capacity', ['parts.source.capacity']],
    ['oswald-factor', ['circumstances.airframe.oswald']],
    [
      'lift-coefficient',
      ['circumstances.airframe.liftCoefficientMax', 'circumstances.airframe.liftCoefficientMaxFlaps'],
    ],
    ['wing-stiffness', ['circumstances.airframe.structure.wing.torsionalStiffness']],
    ['tail-stiffness', ['circumstances.airframe.structure.tail.torsionalStiffness']],
    ['linkage-stiffness', [0, 1].map((i) => `circumstances.airframe.structure.controls.${i}.linkageStiffness`)],
    ['servo-torque', [0, 1].map((i) => `circumstances.airframe.structure.controls.${i}.servoTorque`)],
    ['wing-strength', ['circumstances.airframe.rootMomentUltimate']],
    ['mount-strength', ['circumstances.airframe.mountLoad']],
  ] as const)('%s multiplies what it names and nothing else', (input, named) => {
    const setup = structured()
    const changed = differences(perturb(setup, neutral()), perturb(setup, neutral({ [input]: 1.1 })))
    const inputs = changed.filter(([path]) => !/advanceRatio|standing/.test(path))
    expect(changed.every(([path]) => named.some((name) => path.startsWith(name)))).toBe(true)
    expect(inputs.length).toBe(named.filter((name) => !/advanceRatio|standing/.test(name)).length)
    for (const [, before, after] of inputs) expect(after / before).toBeCloseTo(1.1, 12)
  })

  it('has the air of another temperature and pressure', () => {
    const setup = structured()
    const standard = fieldAir(0, setup.circumstances.airTemperature)
    const warm = fieldAir(0, setup.circumstances.airTemperature + 12)
    const { circumstances } = perturb(setup, neutral({ 'air-temperature': 12, 'air-pressure': 0.98 }))
    expect(circumstances.airTemperature).toBe(setup.circumstances.airTemperature + 12)
    expect(circumstances.pressure / setup.circumstances.pressure).toBeCloseTo(0.98, 12)
    expect(circumstances.density / setup.circumstances.density).toBeCloseTo(
      (0.98 * warm.density) / standard.density,
      12,
    )
    expect(circumstances.soundSpeed / setup.circumstances.soundSpeed).toBeCloseTo(
      warm.soundSpeed / standard.soundSpeed,
      12,
    )
    expect(circumstances.viscosity / setup.circumstances.viscosity).toBeCloseTo(warm.viscosity / standard.viscosity, 12)
  })

  it('weighs more in every part, whether its mass is added up or fixed', () => {
    const setup = structured()
    const { circumstances, parts } = perturb(setup, neutral({ 'take-off-mass': 1.05 }))
    const sum = (p: typeof setup.parts, c: typeof setup.circumstances) =>
      c.airframe.emptyMass + p.pairMass + p.escMass + p.source.mass
    expect(sum(parts, circumstances) / sum(setup.parts, setup.circumstances)).toBeCloseTo(1.05, 12)
    expect(circumstances.mass.fixed).toBeCloseTo(1.05 * 4.6, 12)
    expect(circumstances.mass.limit).toBe(setup.circumstances.mass.limit)
  })

  it('has duct, inlet and lip losses that move together, and recovers no more than the whole dynamic pressure', () => {
    const { duct } = perturb(structured(), neutral({ 'duct-loss': 1.3, 'ram-recovery': 0.2 })).parts.node
    const before = perturb(structured(), neutral()).parts.node.duct
    expect(duct.ductLoss / before.ductLoss).toBeCloseTo(1.3, 12)
    expect(duct.lipLoss / before.lipLoss).toBeCloseTo(1.3, 12)
    expect(duct.ramRecovery).toBe(1)
    expect(perturb(structured(), neutral({ 'cell-voltage': -0.03 })).parts.source.cellVoltageShift).toBe(-0.03)
  })

  it('refuses a vector of another length', () => {
    expect(() => perturb(structured(), [1, 1])).toThrow(/^values must hold one number for each of 25 inputs, got 2$/)
  })
})
