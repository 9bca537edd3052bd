// Whole operating points against the worked points, and what must hold at every one of them.
import { annulusArea, meanRadius } from '@ductwright/models/fan/annulus'
import { ceilingAdvanceRatio, type Ducted } from '@ductwright/models/fan/duct-flow'
import { NO_LOSS_SCALE } from '@ductwright/models/fan/efficiency-scaling'
import { froudeEfficiency } from '@ductwright/models/fan/momentum'
import { inducedDragFactor, levelAdvanceRatio, solveLevel } from '@ductwright/models/operating-point/level'
import { emptyOperatingPoint, type OperatingPoint } from '@ductwright/models/operating-point/operating-point'
import { emptyPowerTrain, type PowerTrain } from '@ductwright/models/operating-point/power-train'
import { solveStanding, standingDuct } from '@ductwright/models/operating-point/standing'
import { describe, expect, it } from 'vitest'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'
import { fanOf, RPM } from './believable-parts.js'

interface WorkedSetup {
  readonly duct: Ducted
  readonly train: PowerTrain
  readonly induced: number
}

const setups = authorityTable('worked-setups').rows
const points = authorityTable('worked-points')

function workedSetup(row: AuthorityRow): WorkedSetup {
  const fan = fanOf(row.number('tip_diameter_mm') / 1000, {
    hubDiameter: row.number('hub_diameter_mm') / 1000,
    psi0: row.number('psi0'),
    psi1: row.number('psi1'),
    etaPeak: row.number('eta_peak'),
    phiPeak: row.number('phi_peak'),
    kappa: row.number('kappa'),
  })
  const cells = row.number('cells')
  const duct = {
    fan,
    area: annulusArea(fan),
    radius: meanRadius(fan),
    nozzleRatio: row.number('nozzle_ratio'),
    ductLoss: row.number('duct_loss'),
    lipLoss: 0,
    ramRecovery: row.number('ram_recovery'),
    lossScale: NO_LOSS_SCALE,
  }
  const train = {
    ...emptyPowerTrain(),
    speedConstant: row.number('speed_constant_rpm_per_v') * RPM,
    idleCurrent: row.number('idle_current_a'),
    idleCurrentSlope: row.number('idle_slope_a_s_per_rad'),
    motorResistance: row.number('motor_resistance_mohm') / 1000,
    escResistance: row.number('esc_resistance_mohm') / 1000,
    quiescentPower: row.number('quiescent_power_w'),
    duty: 1,
    openVoltage: cells * 3.95,
    sourceResistance: (cells * row.number('cell_resistance_mohm') + row.number('lead_resistance_mohm')) / 1000,
  }
  const wing = { span: row.number('span_mm') / 1000, oswald: 0.8 }
  return { duct, train, induced: inducedDragFactor(wing, row.number('mass_kg') * 9.80665, 1.225) }
}

function solved(setup: WorkedSetup, dragArea: number, density = 1.225): OperatingPoint {
  const { duct, train, induced } = setup
  const point = emptyOperatingPoint()
  if (dragArea === 0) expect(solveStanding(standingDuct(duct, density), train, point)).toBe('ok')
  else {
    const j = levelAdvanceRatio(duct, dragArea, ceilingAdvanceRatio(duct))
    const start = j * train.openVoltage * train.speedConstant * duct.radius
    expect(solveLevel(duct, density, 0.5 * density * dragArea, induced, train, start, 5, point)).toBe('ok')
  }
  return point
}

const named = (name: string): WorkedSetup => {
  const row = setups.find((each) => each.text('setup') === name)
  if (row === undefined) throw new RangeError(`no worked setup ${name}`)
  return workedSetup(row)
}

describe('operating points (computed for this design by an independent program)', () => {
  for (const row of points.rows) {
    const dragArea = row.number('drag_area_m2')
    it(`setup ${row.text('setup')}, ${dragArea === 0 ? 'standing' : `level with ${dragArea} m²`}`, () => {
      const setup = named(row.text('setup'))
      const point = solved(setup, dragArea)
      const found = {
        shaft_rpm: point.bladeSpeed / setup.duct.radius / RPM,
        current_a: point.current,
        bus_voltage_v: point.busVoltage,
        bus_power_w: point.busVoltage * point.busCurrent,
        thrust_n: point.thrust,
        efflux_m_s: point.axialSpeed / setup.duct.nozzleRatio,
        speed_m_s: point.speed,
      }
      for (const [column, value] of Object.entries(found)) {
        const expected = row.number(column)
        if (expected === 0) expect(value).toBe(0)
        else expect(relativeError(value, expected), column).toBeLessThan(points.tolerance)
      }
    })
  }
})

describe('what must hold at an operating point', () => {
  const setup = named('2')

  it('thrust equals drag, voltages balance, and the pack feeds shaft and losses, to 1e-9', () => {
    for (const dragArea of [0.0095, 0.0065, 0.0035]) {
      const { duct, train, induced } = setup
      const point = solved(setup, dragArea)
      const drag = 0.5 * 1.225 * dragArea * point.speed ** 2 + induced / point.speed ** 2
      expect(relativeError(point.thrust, drag)).toBeLessThan(1e-9)
      expect(Math.abs(point.residual)).toBeLessThan(1e-9)
      const omega = point.bladeSpeed / duct.radius
      const idle = train.idleCurrent + train.idleCurrentSlope * omega
      const losses =
        point.current ** 2 * (train.motorResistance + train.escResistance) +
        (idle * omega) / train.speedConstant +
        train.quiescentPower
      expect(relativeError(point.torque * omega + losses, point.busVoltage * point.busCurrent)).toBeLessThan(1e-9)
      const open = train.openVoltage - point.busCurrent * train.sourceResistance
      expect(relativeError(open, point.busVoltage)).toBeLessThan(1e-9)
      expect((point.thrust * point.speed) / (point.torque * omega)).toBeLessThan(
        froudeEfficiency(point.speed, point.axialSpeed / duct.nozzleRatio),
      )
    }
  })

  it('speed falls as drag area rises', () => {
    const speeds = [0.002, 0.003, 0.004, 0.006, 0.009, 0.013].map((area) => solved(setup, area).speed)
    expect(speeds).toEqual([...speeds].sort((a, b) => b - a))
  })

  it('speed and thrust fall as any resistance rises', () => {
    const more = (changes: Partial<PowerTrain>) => ({ ...setup, train: { ...setup.train, ...changes } })
    const { motorResistance, escResistance, sourceResistance } = setup.train
    for (const changes of [
      { motorResistance: 1.2 * motorResistance },
      { escResistance: 1.5 * escResistance },
      { sourceResistance: 1.2 * sourceResistance },
    ]) {
      expect(solved(more(changes), 0.0052).speed).toBeLessThan(solved(setup, 0.0052).speed)
      expect(solved(more(changes), 0).thrust).toBeLessThan(solved(setup, 0).thrust)
    }
  })

  it('standing thrust and current fall as the air thins', () => {
    const thick = solved(setup, 0, 1.3)
    const thin = solved(setup, 0, 1.0)
    expect(thin.thrust).toBeLessThan(thick.thrust)
    expect(thin.current).toBeLessThan(thick.current)
    expect(thin.bladeSpeed).toBeGreaterThan(thick.bladeSpeed)
  })

  it('without induced drag the advance ratio at top speed does not depend on motor or pack', () => {
    const { duct } = setup
    const j = levelAdvanceRatio(duct, 0.0052, ceilingAdvanceRatio(duct))
    for (const volts of [20, 30, 40, 50]) {
      const train = { ...setup.train, openVoltage: volts }
      const point = solved({ duct, train, induced: 0 }, 0.0052)
      expect(relativeError(point.speed / point.bladeSpeed, j)).toBeLessThan(1e-9)
    }
  })

  it('twice the power buys about 26 % of speed, the cube root of two, without induced drag', () => {
    const at = (volts: number) =>
      solved({ ...setup, train: { ...setup.train, openVoltage: volts }, induced: 0 }, 0.0052)
    const shaft = (point: OperatingPoint) => point.torque * point.bladeSpeed
    const low = at(30)
    const high = at(45)
    expect(relativeError(high.speed / low.speed, Math.cbrt(shaft(high) / shaft(low)))).toBeLessThan(1e-9)
  })

  it('a pack that cannot feed the motor is a named outcome, not a number', () => {
    const train = { ...setup.train, sourceResistance: 0.4 }
    const point = emptyOperatingPoint()
    const outcome = solveStanding(standingDuct(setup.duct, 1.225), { ...train, quiescentPower: 4000 }, point)
    expect(outcome).toBe('source-exhausted')
  })

  it('an aircraft too heavy to fly level is a named outcome, not a number', () => {
    const point = emptyOperatingPoint()
    const outcome = solveLevel(setup.duct, 1.225, 0.5 * 1.225 * 0.0052, 2e6, setup.train, 80, 20, point)
    expect(outcome).toBe('no-level-flight')
  })
})
