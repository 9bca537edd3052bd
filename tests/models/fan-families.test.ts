// Whole power trains by the laws of the catalogue against what such fans are known to do: assumed ranges, wide bands.
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { axialSpeedForThrust, bladeSpeedForFlow } from '@ductwright/models/fan/duct-flow'
import { inducedDragFactor } from '@ductwright/models/operating-point/level'
import { emptyOperatingPoint } from '@ductwright/models/operating-point/operating-point'
import { emptyPowerTrain } from '@ductwright/models/operating-point/power-train'
import { solveStanding } from '@ductwright/models/operating-point/standing'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'
import {
  airframeOf,
  type BelievableSetup,
  circumstancesOf,
  DEGREE,
  escOf,
  fanOf,
  KMH,
  motorOf,
  packOf,
  RPM,
  setupOf,
} from './believable-parts.js'

interface Train {
  readonly tipDiameter: number
  readonly cells: number
  readonly motorMass: number
  readonly capacity: number
}

function built(train: Train, rpmPerVolt: number, airframe = airframeOf(), mass: number | null = null): BelievableSetup {
  const { tipDiameter, cells, motorMass, capacity } = train
  const circumstances = circumstancesOf(airframe, { mass: { limit: airframe.takeOffMassLimit, fixed: mass } })
  const motor = motorOf(rpmPerVolt, motorMass)
  return setupOf(circumstances, fanOf(tipDiameter), motor, escOf(160), packOf(cells, capacity))
}

function detailOf({ circumstances, parts }: BelievableSetup, duty = 1): SetupDetail {
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) throw new Error(`refused: ${detail.refused}`)
  return detail
}

/** Standing point at 3.95 V a cell and 25 °C, where the families are stated. */
function standing(setup: BelievableSetup) {
  const { motor, esc, source, node } = setup.parts
  const point = emptyOperatingPoint()
  const train = {
    ...emptyPowerTrain(),
    speedConstant: motor.speedConstant,
    idleCurrent: motor.noLoadCurrent,
    idleCurrentSlope: motor.noLoadCurrentSlope,
    motorResistance: motor.resistance,
    escResistance: esc.resistance,
    quiescentPower: esc.quiescentPower,
    duty: 1,
    openVoltage: 3.95 * source.cells,
    sourceResistance: source.cellResistance + source.leadResistance,
  }
  expect(solveStanding(node.standing, train, point)).toBe('ok')
  return point
}

/** Argument at which a rising function gives a value. */
function solveFor(value: number, low: number, high: number, rising: (x: number) => number): number {
  let [a, b] = [low, high]
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (a + b)
    if (rising(middle) < value) a = middle
    else b = middle
  }
  return 0.5 * (a + b)
}

describe('fan families standing (assumed ranges)', () => {
  const table = authorityTable('fan-families')
  for (const row of table.rows) {
    const tipDiameter = row.number('tip_diameter_mm') / 1000
    it(`${row.text('tip_diameter_mm')} mm on ${row.text('cells')}S`, () => {
      const train = {
        tipDiameter,
        cells: row.number('cells'),
        motorMass: row.number('motor_mass_g') / 1000,
        capacity: row.number('capacity_mah') / 1000,
      }
      const rpmOf = (kv: number) => {
        const setup = built(train, kv)
        return standing(setup).bladeSpeed / setup.parts.node.duct.radius / RPM
      }
      const setup = built(train, solveFor(row.number('shaft_rpm'), 300, 6000, rpmOf))
      const point = standing(setup)
      const power = point.busVoltage * point.busCurrent
      const found = {
        current_a: point.current,
        power_kw: power / 1000,
        thrust_kgf_per_kw: point.thrust / 9.80665 / (power / 1000),
        tip_mach: ((point.bladeSpeed / setup.parts.node.duct.radius) * 0.5 * tipDiameter) / 340.294,
      }
      for (const [column, value] of Object.entries(found)) {
        expect(relativeError(value, row.number(column)), column).toBeLessThan(table.tolerance)
      }
    })
  }
})

/** Foam ducts lose more and recover less of the ram. */
const FOAM_DUCT = { ductLoss: 0.25, ramRecovery: 0.9 }

describe('power at speed (assumed ranges)', () => {
  const table = authorityTable('speed-power')
  for (const row of table.rows) {
    const size = row.number('tip_diameter_mm') / 1000
    const speed = row.number('speed_km_h')
    it(`${row.text('case')} at ${speed} km/h with ${row.text('tip_diameter_mm')} mm`, () => {
      const duct = row.text('case').startsWith('foam') ? FOAM_DUCT : {}
      const drag = { dragArea: row.number('drag_area_m2'), span: row.number('span_mm') / 1000 }
      const airframe = airframeOf({ ...drag, ...duct })
      const mass = row.number('mass_kg')
      const train = { tipDiameter: size, cells: 12, motorMass: 0.4, capacity: 5 }
      const speedAt = (kv: number) => detailOf(built(train, kv, airframe, mass)).top.speed
      const setup = built(train, solveFor(speed * KMH, 300, 1600, speedAt), airframe, mass)
      const { top, topFull, standing: still } = detailOf(setup)
      const check = (column: string, value: number) => {
        if (row.number(column) === 0) return
        expect(relativeError(value, row.number(column)), column).toBeLessThan(table.tolerance)
      }
      expect(relativeError(top.speed, speed * KMH)).toBeLessThan(1e-6)
      check('power_kw', top.packPower / 1000)
      check('standing_power_kw', (still.packPower / 1000) * (top.packPower / topFull.packPower))
      check('tip_mach', top.tipMach)
    })
  }

  it('the blade speed for 360 km/h falls with fan size (closed form): go up a size', () => {
    const machs = [0.09, 0.105, 0.12].map((size) => {
      const setup = built({ tipDiameter: size, cells: 12, motorMass: 0.4, capacity: 5 }, 900)
      const { duct } = setup.parts.node
      const drag = 0.5 * 1.225 * 0.0052 * 1e4 + inducedDragFactor(airframeOf(), 4.4 * 9.80665, 1.225) / 1e4
      const blade = bladeSpeedForFlow(duct, axialSpeedForThrust(duct, 1.225, 100, drag), 100)
      return ((blade / duct.radius) * 0.5 * size) / 340.294
    })
    expect(machs).toEqual([...machs].sort((a, b) => b - a))
  })
})

describe('in flight (assumed ranges)', () => {
  const trains = [
    { tipDiameter: 0.09, cells: 8, motorMass: 0.33, capacity: 5 },
    { tipDiameter: 0.09, cells: 10, motorMass: 0.33, capacity: 5 },
    { tipDiameter: 0.09, cells: 12, motorMass: 0.4, capacity: 5 },
  ]
  it.each(trains)(
    'thrust .28–.49 of standing, battery to thrust power .34–.43, current −5…−15 %, V/Ve .6–.8: %o',
    (train) => {
      const { topFull, standing: still } = detailOf(built(train, 1080, airframeOf(), 4.4))
      expect(topFull.thrust / still.thrust).toBeGreaterThan(0.28)
      expect(topFull.thrust / still.thrust).toBeLessThan(0.49)
      const useful = (topFull.thrust * topFull.speed) / topFull.packPower
      expect(useful).toBeGreaterThan(0.34)
      expect(useful).toBeLessThan(0.43)
      const change = topFull.motorCurrent / still.motorCurrent - 1
      expect(change).toBeLessThan(-0.05)
      expect(change).toBeGreaterThan(-0.15)
      expect(topFull.speed / topFull.efflux).toBeGreaterThan(0.6)
      expect(topFull.speed / topFull.efflux).toBeLessThan(0.8)
    },
  )
})

describe('common practice, no source', () => {
  const train = { tipDiameter: 0.09, cells: 10, motorMass: 0.33, capacity: 5 }

  it('timing from 5° to 30° raises standing power by 1.25 to 1.55', () => {
    const at = (timing: number) => {
      const setup = built(train, 1080)
      const parts = { ...setup.parts, timing: timing * DEGREE }
      return detailOf({ ...setup, parts }).standing.packPower
    }
    const ratio = at(30) / at(5)
    expect(ratio).toBeGreaterThan(1.25)
    expect(ratio).toBeLessThan(1.55)
  })

  it('12S capped to the speed of 8S is not better than 8S for free: it draws more power at the same speed', () => {
    const eight = detailOf(built({ ...train, cells: 8 }, 1080, airframeOf(), 4.4))
    const twelve = built({ ...train, cells: 12 }, 1080, airframeOf(), 4.4)
    const duty = solveFor(eight.top.speed, 0.3, 1, (d) => detailOf(twelve, d).top.speed)
    const capped = detailOf(twelve, duty)
    expect(duty).toBeLessThan(0.75)
    expect(capped.top.packPower + 0).toBeGreaterThan(1.01 * eight.top.packPower)
    expect(capped.top.motorEfficiency).toBeLessThan(eight.top.motorEfficiency)
  })

  it('a full pack gives 7 to 13 % more speed than one at 20 % (305 against 277 km/h in one installation)', () => {
    const setup = built(train, 1080, airframeOf(), 4.4)
    const at = (charge: number) => detailOf({ ...setup, circumstances: { ...setup.circumstances, charge } }).top.speed
    expect(at(1) / at(0.2)).toBeGreaterThan(1.07)
    expect(at(1) / at(0.2)).toBeLessThan(1.13)
  })

  it('entering a 300 m run at 60 % of steady speed reaches 80 to 90 %, 1 km more than 96 %', () => {
    const setup = built(train, 1080, airframeOf(), 4.4)
    const at = (length: number) => {
      const run = { ...setup.circumstances.run, length }
      const detail = detailOf({ ...setup, circumstances: { ...setup.circumstances, run } })
      return detail.inRunSpeed / detail.top.speed
    }
    expect(at(300)).toBeGreaterThan(0.8)
    expect(at(300)).toBeLessThan(0.9)
    expect(at(1000)).toBeGreaterThan(0.96)
  })

  it('a drag area cut by 45 % buys about 60 km/h near 300, twice the power about a quarter', () => {
    const clean = detailOf(built(train, 1080, airframeOf({ dragArea: 0.55 * 0.009 }), 3.4)).top.speed
    const dirty = detailOf(built(train, 1080, airframeOf({ dragArea: 0.009 }), 3.4)).top
    expect(clean / dirty.speed).toBeGreaterThan(1.15)
    expect(clean / dirty.speed).toBeLessThan(1.3)
    const { response } = detailOf(built(train, 1080, airframeOf(), 4.4))
    expect(2 ** response.power).toBeGreaterThan(1.2)
    expect(2 ** response.power).toBeLessThan(1.32)
  })
})
