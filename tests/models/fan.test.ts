// Fan characteristic, duct flow and momentum theory against tables, an independent bisection and a textbook fan.
import { annulusArea, exitDiameter, meanRadius } from '@ductwright/models/fan/annulus'
import { pressureRise, stageEfficiency } from '@ductwright/models/fan/characteristic'
import { deHallerNumber, diffusionFactor, eulerWork, standingDeHaller } from '@ductwright/models/fan/diffusion'
import {
  axialSpeedForThrust,
  bladeSpeedForFlow,
  ceilingAdvanceRatio,
  type Ducted,
  flowCoefficient,
  powerCoefficient,
  thrustCoefficient,
} from '@ductwright/models/fan/duct-flow'
import { NO_LOSS_SCALE } from '@ductwright/models/fan/efficiency-scaling'
import type { Fan } from '@ductwright/models/fan/fan'
import { effluxAtJetPower, froudeEfficiency, staticEfflux, staticThrust } from '@ductwright/models/fan/momentum'
import { levelAdvanceRatio } from '@ductwright/models/operating-point/level'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { DEGREE, fanOf, RPM } from './believable-parts.js'

const AIR = 1.225

function ducted(fan: Fan, nozzleRatio: number, ductLoss: number, ramRecovery: number): Ducted {
  return {
    fan,
    area: annulusArea(fan),
    radius: meanRadius(fan),
    nozzleRatio,
    ductLoss,
    lipLoss: 0,
    ramRecovery,
    lossScale: NO_LOSS_SCALE,
  }
}

/** Root of a falling function. */
function bisect(low: number, high: number, falling: (x: number) => number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 200; i++) {
    const middle = 0.5 * (a + b)
    if (falling(middle) > 0) a = middle
    else b = middle
  }
  return 0.5 * (a + b)
}

const exitArea = (diameter: number) => (Math.PI / 4) * diameter * diameter

describe('momentum theory (Leishman; McCormick, from memory; computed)', () => {
  const still = authorityTable('ducted-fan-static')
  it.each(still.rows)('static thrust, row %#', (row) => {
    const area = exitArea(row.number('exit_diameter_mm') / 1000)
    const thrust = staticThrust(AIR, area, row.number('jet_power_w'))
    expect(relativeError(thrust, row.number('thrust_n'))).toBeLessThan(still.tolerance)
    expect(relativeError(staticEfflux(AIR, area, thrust), row.number('efflux_m_s'))).toBeLessThan(still.tolerance)
  })

  const flight = authorityTable('ducted-fan-flight')
  it.each(flight.rows)('80 mm exit at 2 kW in flight, row %#', (row) => {
    const speed = row.number('speed_m_s')
    const area = exitArea(0.08)
    const efflux = effluxAtJetPower(AIR, area, 2000, speed)
    const thrust = AIR * area * efflux * (efflux - speed)
    expect(relativeError(thrust, row.number('thrust_n'))).toBeLessThan(flight.tolerance)
    expect(relativeError(froudeEfficiency(speed, efflux), row.number('froude_efficiency'))).toBeLessThan(2e-4)
    expect(relativeError(thrust * speed, froudeEfficiency(speed, efflux) * 2000)).toBeLessThan(1e-9)
  })

  const level = authorityTable('ducted-fan-level')
  it.each(level.rows)('level top speed at 2 kW of jet power, row %#', (row) => {
    const area = exitArea(0.08)
    const speed = bisect(1, 200, (v) => {
      const efflux = effluxAtJetPower(AIR, area, 2000, v)
      return AIR * area * efflux * (efflux - v) - 0.5 * AIR * row.number('drag_area_m2') * v * v
    })
    expect(relativeError(speed, row.number('speed_m_s'))).toBeLessThan(level.tolerance)
  })

  it('standing still there is no propulsive efficiency', () => {
    expect(froudeEfficiency(0, 90)).toBe(0)
  })
})

describe('a worked axial fan (Arasu, example 4.13; inputs printed, results computed)', () => {
  const table = authorityTable('axial-fan-example')
  const fan = fanOf(0.6, { hubDiameter: 0.3, psi0: 1, psi1: Math.tan(10 * DEGREE), etaPeak: 1, kappa: 0 })
  const phi = 0.245
  const speed = 960 * RPM * 0.225
  const density = 1.02e5 / (287 * 316)
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity))).toBeLessThan(table.tolerance)

  it('blade speed, flow, work, static rise and efficiency', () => {
    const flow = phi * speed * annulusArea(fan)
    const total = density * speed * speed * pressureRise(fan, phi)
    check('blade_speed_m_s', speed)
    check('volume_flow_m3_s', flow)
    check('work_coefficient', eulerWork(fan, phi))
    check('static_rise_pa', total * (1 - 0.5 * eulerWork(fan, phi)))
    check('overall_efficiency', (flow * total) / 1000)
  })

  it('the mean radius here halves the area: 5.4 % above the arithmetic mean of that example', () => {
    expect(meanRadius(fan) / 0.225).toBeCloseTo(1.0541, 4)
    const inner = { tipDiameter: 2 * meanRadius(fan), hubDiameter: fan.hubDiameter }
    expect(annulusArea(inner)).toBeCloseTo(0.5 * annulusArea(fan), 12)
  })
})

describe('a fan by its characteristic (computed by two independent programs)', () => {
  const table = authorityTable('fan-characteristic')
  const slope = 0.75 * Math.tan(50 * DEGREE)
  const fan = fanOf(0.09, { hubDiameter: 0.04, psi0: 0.75, psi1: slope, etaPeak: 0.75, kappa: 0 })
  const duct = ducted(fan, 0.9, 0, 1)
  const blade = 40_000 * RPM * duct.radius
  it.each(table.rows)('row %#', (row) => {
    const j = row.number('speed_m_s') / blade
    const flow = AIR * duct.area
    const found = {
      efflux_m_s: (flowCoefficient(duct, j) * blade) / duct.nozzleRatio,
      thrust_n: flow * blade ** 2 * thrustCoefficient(duct, j),
      shaft_power_w: flow * blade ** 3 * powerCoefficient(duct, j, blade),
    }
    for (const [column, value] of Object.entries(found)) {
      expect(relativeError(value, row.number(column)), column).toBeLessThan(table.tolerance)
    }
  })

  it('blade speed 145.86, zero thrust at 135.99 and level with 0.003 m² at 91.423 m/s', () => {
    expect(relativeError(blade, 145.86)).toBeLessThan(1e-4)
    expect(relativeError(ceilingAdvanceRatio(duct) * blade, 135.99)).toBeLessThan(1e-4)
    const level = levelAdvanceRatio(duct, 0.003, ceilingAdvanceRatio(duct)) * blade
    expect(relativeError(level, 91.423)).toBeLessThan(1e-4)
  })
})

describe('blade loading (limits of de Haller and Lieblein from memory; values computed)', () => {
  const table = authorityTable('blade-loading')
  const setups = authorityTable('worked-setups').rows
  it.each(table.rows)('setup %#', (row) => {
    const given = setups.find((each) => each.text('setup') === row.text('setup'))
    if (given === undefined) throw new RangeError('no such setup')
    const fan = fanOf(0.09, {
      hubDiameter: given.number('hub_diameter_mm') / 1000,
      psi0: given.number('psi0'),
      psi1: given.number('psi1'),
      etaPeak: given.number('eta_peak'),
      phiPeak: given.number('phi_peak'),
      kappa: given.number('kappa'),
    })
    const duct = ducted(fan, given.number('nozzle_ratio'), given.number('duct_loss'), given.number('ram_recovery'))
    const phi = flowCoefficient(duct, 0)
    expect(Math.abs(standingDeHaller(duct) - row.number('de_haller'))).toBeLessThan(table.tolerance)
    expect(Math.abs(diffusionFactor(fan, phi) - row.number('diffusion_factor'))).toBeLessThan(table.tolerance)
    const tip = 0.5 * fan.tipDiameter
    const efflux = (phi / duct.nozzleRatio) * (duct.radius / tip)
    expect(Math.abs(efflux - row.number('efflux_over_tip_speed'))).toBeLessThan(table.tolerance)
    const j = bisect(0.01, 2, (x) => flowCoefficient(duct, x) / duct.nozzleRatio - 1.4 * x)
    const change = powerCoefficient(duct, j, 150) / powerCoefficient(duct, 0, 150) - 1
    expect(Math.abs(change - row.number('power_change'))).toBeLessThan(0.015)
  })

  it('a tighter nozzle loads the blades more', () => {
    const fan = fanOf(0.09)
    const numbers = [0.95, 0.88, 0.8, 0.74].map((ratio) => standingDeHaller(ducted(fan, ratio, 0.18, 0.93)))
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a))
    expect(deHallerNumber(fan, 0.9)).toBeGreaterThan(deHallerNumber(fan, 0.5))
  })
})

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const ducts = fc
  .tuple(within(0.62, 0.76), within(0.4, 0.8), within(0.7, 1), within(0, 0.4), within(0.8, 1))
  .map(([psi0, psi1, sigma, k, r]) => ducted(fanOf(0.09, { psi0, psi1 }), sigma, k, r))

describe('closed forms against a bisection written here', () => {
  it('the flow coefficient balances pressure rise, nozzle head, ram and duct loss', () => {
    fc.assert(
      fc.property(ducts, within(0, 1.2), (duct, j) => {
        const excess = (phi: number) =>
          pressureRise(duct.fan, phi) -
          0.5 * ((phi / duct.nozzleRatio) ** 2 - duct.ramRecovery * j * j) -
          0.5 * duct.ductLoss * phi * phi
        expect(flowCoefficient(duct, j)).toBeCloseTo(bisect(0, 5, excess), 12)
      }),
      { numRuns: 300 },
    )
  })

  it('thrust vanishes at the ceiling and falls up to it', () => {
    fc.assert(
      fc.property(ducts, within(0, 0.99), (duct, share) => {
        const ceiling = ceilingAdvanceRatio(duct)
        expect(ceiling).toBeCloseTo(
          bisect(0, 20, (j) => thrustCoefficient(duct, j)),
          9,
        )
        expect(thrustCoefficient(duct, share * ceiling)).toBeGreaterThan(
          thrustCoefficient(duct, (share + 0.01) * ceiling),
        )
      }),
      { numRuns: 300 },
    )
  })

  it('flow for a thrust and blade speed for a flow undo the forward forms (round trip)', () => {
    fc.assert(
      fc.property(ducts, within(0, 110), within(60, 200), (duct, speed, blade) => {
        const j = speed / blade
        fc.pre(j < 0.98 * ceilingAdvanceRatio(duct))
        const thrust = AIR * duct.area * blade * blade * thrustCoefficient(duct, j)
        const axial = axialSpeedForThrust(duct, AIR, speed, thrust)
        expect(axial).toBeCloseTo(flowCoefficient(duct, j) * blade, 7)
        expect(bladeSpeedForFlow(duct, axial, speed)).toBeCloseTo(blade, 7)
      }),
      { numRuns: 300 },
    )
  })

  it('level flight without induced drag: t(j)/j² is the drag area over twice the annulus', () => {
    fc.assert(
      fc.property(ducts, within(0.002, 0.012), (duct, dragArea) => {
        const j = levelAdvanceRatio(duct, dragArea, ceilingAdvanceRatio(duct))
        expect(thrustCoefficient(duct, j) / (j * j)).toBeCloseTo(dragArea / (2 * duct.area), 9)
      }),
    )
  })

  it('shaft power covers the pressure rise, and the jet never has more than the shaft', () => {
    fc.assert(
      fc.property(ducts, within(0, 0.8), (duct, j) => {
        const phi = flowCoefficient(duct, j)
        const rise = pressureRise(duct.fan, phi) * phi
        expect(powerCoefficient(duct, j, 150) * stageEfficiency(duct.fan, phi)).toBeCloseTo(rise, 12)
        // With a ram recovery below 1 the jet cannot hold more than flight and fan put in.
        const jet = 0.5 * phi * ((phi / duct.nozzleRatio) ** 2 - j * j)
        expect(jet).toBeLessThanOrEqual(rise + 1e-12)
      }),
    )
  })
})

describe('the efficiency island', () => {
  it('has its peak at the peak and never falls under its floor', () => {
    const fan = fanOf(0.09)
    expect(stageEfficiency(fan, fan.phiPeak)).toBe(fan.etaPeak)
    expect(stageEfficiency(fan, fan.phiPeak * 1.1)).toBeCloseTo(stageEfficiency(fan, fan.phiPeak * 0.9), 12)
    expect(stageEfficiency(fan, 20 * fan.phiPeak)).toBe(0.2)
  })

  it('the exit diameter of a nozzle ratio has that share of the annulus', () => {
    const fan = fanOf(0.09)
    expect(exitArea(exitDiameter(fan, 0.88)) / annulusArea(fan)).toBeCloseTo(0.88, 12)
  })
})

describe('refusals', () => {
  it('a jet power that is no number is named', () => {
    expect(() => effluxAtJetPower(AIR, 0.005, Number.NaN, 50)).toThrow(/jet power NaN W at 50 m\/s/)
    expect(() => effluxAtJetPower(AIR, 0.005, Number.NaN, 50)).toThrow(RangeError)
  })
})
