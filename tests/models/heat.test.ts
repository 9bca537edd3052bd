// Heat stores against textbook solutions and an independent fine-step integration written here.
import { COPPER_TEMPERATURE_COEFFICIENT } from '@ductwright/models/constants'
import type { Esc } from '@ductwright/models/esc/esc'
import type { Motor } from '@ductwright/models/motor/motor'
import { lumpRise, runawayCurrent } from '@ductwright/models/thermal/lump'
import { cyclePeaks, type HeatPath, type PhaseHeat, phaseMap } from '@ductwright/models/thermal/two-node'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'
import { escOf, motorOf } from './believable-parts.js'

describe('one heat store (first-order response, computed)', () => {
  const table = authorityTable('heat-lump')
  const conductance = 60 * 0.012
  const capacity = 0.35 * 460
  it.each(table.rows)('row %#', (row) => {
    const rise = lumpRise(80, conductance, capacity, row.number('time_s'))
    expect(relativeError(rise, row.number('rise_k'))).toBeLessThan(table.tolerance)
  })

  it('time constant 223.61 s, and a steady rise of Q/G', () => {
    expect(capacity / conductance).toBeCloseTo(223.61, 2)
    expect(lumpRise(80, conductance, capacity, 1e6)).toBeCloseTo(80 / conductance, 9)
    expect(lumpRise(80, conductance, capacity, 0)).toBe(0)
  })
})

function motorHeatPath(motor: Motor): HeatPath {
  return {
    innerCapacity: motor.windingHeatCapacity,
    outerCapacity: motor.caseHeatCapacity,
    between: motor.windingToCaseConductance,
    toAir: motor.caseToAirConductance,
  }
}

function escHeatPath(esc: Esc): HeatPath {
  return {
    innerCapacity: esc.boardHeatCapacity,
    outerCapacity: esc.sinkHeatCapacity,
    between: esc.boardToSinkConductance,
    toAir: esc.sinkToAirConductance,
  }
}

/** State after a phase by the classical fourth-order method with many small steps. */
function integrated(
  path: HeatPath,
  heat: PhaseHeat,
  start: readonly [number, number],
  steps: number,
): [number, number] {
  const slope = (x: number, y: number): [number, number] => [
    (heat.inner + heat.feedback * x - path.between * (x - y)) / path.innerCapacity,
    (heat.outer + path.between * (x - y) - path.toAir * y) / path.outerCapacity,
  ]
  const h = heat.time / steps
  let [x, y] = start
  for (let i = 0; i < steps; i++) {
    const a = slope(x, y)
    const b = slope(x + 0.5 * h * a[0], y + 0.5 * h * a[1])
    const c = slope(x + 0.5 * h * b[0], y + 0.5 * h * b[1])
    const d = slope(x + h * c[0], y + h * c[1])
    x += (h / 6) * (a[0] + 2 * b[0] + 2 * c[0] + d[0])
    y += (h / 6) * (a[1] + 2 * b[1] + 2 * c[1] + d[1])
  }
  return [x, y]
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const paths = fc.record({
  innerCapacity: between(4, 60),
  outerCapacity: between(20, 300),
  between: between(0.3, 15),
  toAir: between(0.1, 4),
})
const heats = fc.record({
  inner: between(0, 400),
  feedback: between(0, 1.5),
  outer: between(0, 150),
  time: between(1, 120),
})

describe('two heat stores', () => {
  it('one phase equals 2,000 steps of the classical fourth-order method', () => {
    fc.assert(
      fc.property(paths, heats, between(0, 80), between(0, 60), (path, heat, x, y) => {
        const map = phaseMap(path, heat)
        const [fx, fy] = integrated(path, heat, [x, y], 2000)
        const scale = Math.max(1, Math.abs(fx), Math.abs(fy))
        expect(Math.abs(map.m11 * x + map.m12 * y + map.v1 - fx) / scale).toBeLessThan(1e-7)
        expect(Math.abs(map.m21 * x + map.m22 * y + map.v2 - fy) / scale).toBeLessThan(1e-7)
      }),
      { numRuns: 60 },
    )
  })

  it('two halves of a phase are the whole phase', () => {
    fc.assert(
      fc.property(paths, heats, (path, heat) => {
        const whole = { inner: 0, outer: 0 }
        const halves = { inner: 0, outer: 0 }
        const half = phaseMap(path, { ...heat, time: heat.time / 2 })
        cyclePeaks(phaseMap(path, heat), null, 1, whole)
        cyclePeaks(half, half, 1, halves)
        // Relative: a runaway reaches billions of kelvin before the phase is over.
        expect(Math.abs(halves.inner - whole.inner)).toBeLessThanOrEqual(1e-9 * whole.inner + 1e-9)
        expect(Math.abs(halves.outer - whole.outer)).toBeLessThanOrEqual(1e-9 * whole.outer + 1e-9)
      }),
    )
  })

  it('peaks rise with heat, with feedback and with more passes', () => {
    fc.assert(
      fc.property(paths, heats, fc.integer({ min: 1, max: 12 }), (path, heat, cycles) => {
        const peak = (changes: Partial<PhaseHeat>, count = cycles) => {
          const peaks = { inner: 0, outer: 0 }
          const rest = phaseMap(path, { inner: 10, feedback: 0, outer: 5, time: 25 })
          cyclePeaks(phaseMap(path, { ...heat, ...changes }), rest, count, peaks)
          return peaks.inner
        }
        expect(peak({ inner: heat.inner + 5 })).toBeGreaterThan(peak({}))
        expect(peak({ feedback: heat.feedback + 0.1 })).toBeGreaterThanOrEqual(peak({}))
        expect(peak({}, cycles + 1)).toBeGreaterThanOrEqual(peak({}))
      }),
    )
  })

  it('a steady state balances: inner heat leaves through both stores', () => {
    const path = motorHeatPath(motorOf(1100, 0.33))
    const peaks = { inner: 0, outer: 0 }
    cyclePeaks(phaseMap(path, { inner: 100, feedback: 0, outer: 20, time: 1e5 }), null, 1, peaks)
    expect(peaks.outer).toBeCloseTo(120 / path.toAir, 6)
    expect(peaks.inner - peaks.outer).toBeCloseTo(100 / path.between, 6)
  })

  it('runaway: above the current where feedback beats both conductances in series there is no steady temperature', () => {
    const path = motorHeatPath(motorOf(1100, 0.33))
    const series = (path.between * path.toAir) / (path.between + path.toAir)
    const limit = runawayCurrent(series, 0.009, COPPER_TEMPERATURE_COEFFICIENT)
    const rate = (current: number) => {
      const heat = current * current * 0.009
      return phaseMap(path, { inner: heat, feedback: heat * COPPER_TEMPERATURE_COEFFICIENT, outer: 0, time: 10 }).rate
    }
    expect(rate(0.999 * limit)).toBeLessThan(0)
    expect(rate(1.001 * limit)).toBeGreaterThan(0)
  })
})

describe('passes (assumed parts; computed by a separate program)', () => {
  const table = authorityTable('heat-passes')
  const rowOf = (name: string) => {
    const row = table.rows.find((each) => each.text('case') === name)
    if (row === undefined) throw new RangeError(`no case ${name}`)
    return row
  }
  const AIR = 30
  const BUS = 27

  it('a motor over eight passes: winding and case', () => {
    const row = rowOf('motor')
    const motor = { ...motorOf(1080, 0.33), resistance: 0.0072 }
    const phase = (current: number, idle: number, time: number): PhaseHeat => {
      const heat = current * current * motor.resistance
      const alpha = COPPER_TEMPERATURE_COEFFICIENT
      return { inner: heat * (1 + alpha * (AIR - 20)), feedback: heat * alpha, outer: idle, time }
    }
    const peaks = { inner: 0, outer: 0 }
    const path = motorHeatPath(motor)
    const hot = phaseMap(path, phase(row.number('hot_a'), 100, row.number('hot_s')))
    const cool = phaseMap(path, phase(row.number('cool_a'), 60, row.number('cool_s')))
    cyclePeaks(hot, cool, 8, peaks)
    expect(relativeError(AIR + peaks.inner, row.number('inner_c'))).toBeLessThan(table.tolerance)
    expect(relativeError(AIR + peaks.outer, row.number('outer_c'))).toBeLessThan(table.tolerance)
  })

  const esc = escOf(160)
  const board = (current: number, time: number): PhaseHeat => {
    const heat = current * current * 0.0014
    const running = esc.quiescentPower + esc.proportionalLoss * BUS * current
    const alpha = esc.resistanceTemperatureCoefficient
    return { inner: heat * (1 + alpha * (AIR - 25)) + running, feedback: heat * alpha, outer: 0, time }
  }

  it('a speed controller over eight passes', () => {
    const row = rowOf('controller')
    const path = escHeatPath(esc)
    const peaks = { inner: 0, outer: 0 }
    const hot = phaseMap(path, board(row.number('hot_a'), row.number('hot_s')))
    cyclePeaks(hot, phaseMap(path, board(row.number('cool_a'), row.number('cool_s'))), 8, peaks)
    expect(relativeError(AIR + peaks.inner, row.number('inner_c'))).toBeLessThan(table.tolerance)
  })

  const times = authorityTable('controller-times')
  it.each(times.rows)('a speed controller held at a current to 120 °C, row %#', (row) => {
    const rise = (time: number) => phaseMap(escHeatPath(esc), board(row.number('current_a'), time)).v1
    expect(AIR + rise((1 - times.tolerance) * row.number('time_s'))).toBeLessThan(120)
    expect(AIR + rise((1 + times.tolerance) * row.number('time_s'))).toBeGreaterThan(120)
  })

  it('the same controller never gets there at 80 A', () => {
    const map = phaseMap(escHeatPath(esc), board(80, 1e5))
    expect(map.rate).toBeLessThan(0)
    expect(AIR + map.v1).toBeLessThan(120)
  })
})
