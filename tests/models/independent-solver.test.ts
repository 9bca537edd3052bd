// The models against SciPy: the same equations written anew, all unknowns solved at once by MINPACK's hybrid method,
// and heat by an implicit integrator. The script that made the tables is tests/authorities/independent/solve.py.

import { annulusArea, meanRadius } from '@ductwright/models/fan/annulus'
import { ceilingAdvanceRatio, type Ducted } from '@ductwright/models/fan/duct-flow'
import { lossScale } from '@ductwright/models/fan/efficiency-scaling'
import { solveAtDuty } from '@ductwright/models/operating-point/at-duty'
import { inducedDragFactor, levelAdvanceRatio, solveLevel } from '@ductwright/models/operating-point/level'
import { emptyOperatingPoint } from '@ductwright/models/operating-point/operating-point'
import type { PowerTrain } from '@ductwright/models/operating-point/power-train'
import { solveStanding, standingDuct } from '@ductwright/models/operating-point/standing'
import { cyclePeaks, phaseMap } from '@ductwright/models/thermal/two-node'
import { describe, expect, it } from 'vitest'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'
import { fanOf } from './believable-parts.js'

const STANDARD_GRAVITY = 9.80665

function ductOf(row: AuthorityRow): Ducted {
  const fan = fanOf(row.number('tip_m'), {
    hubDiameter: row.number('hub_m'),
    psi0: row.number('psi0'),
    psi1: row.number('psi1'),
    etaPeak: row.number('eta_peak'),
    phiPeak: row.number('phi_peak'),
    kappa: row.number('kappa'),
  })
  return {
    fan,
    area: annulusArea(fan),
    radius: meanRadius(fan),
    nozzleRatio: row.number('nozzle_ratio'),
    ductLoss: row.number('duct_loss'),
    lipLoss: row.number('lip_loss'),
    ramRecovery: row.number('ram_recovery'),
    lossScale: lossScale((0.5 * fan.tipDiameter) / meanRadius(fan), {
      density: row.number('density'),
      soundSpeed: row.number('sound_m_s'),
      viscosity: row.number('viscosity'),
    }),
  }
}

function trainOf(row: AuthorityRow): PowerTrain {
  return {
    speedConstant: row.number('speed_constant'),
    idleCurrent: row.number('idle_current_a'),
    idleCurrentSlope: row.number('idle_slope'),
    motorResistance: row.number('motor_ohm'),
    pathResistance: row.number('esc_ohm'),
    escResistance: row.number('esc_ohm'),
    quiescentPower: row.number('quiescent_w'),
    proportionalLoss: row.number('proportional'),
    duty: row.number('duty'),
    switching: row.number('switching'),
    ripple: row.number('ripple'),
    freewheel: row.number('freewheel_v'),
    openVoltage: row.number('open_v'),
    sourceResistance: row.number('source_ohm'),
  }
}

describe('operating points computed by SciPy (scipy.optimize.root)', () => {
  const { rows, tolerance } = authorityTable('independent-points')

  it('covers standing, slow and level flight, full and part throttle', () => {
    const kinds = new Set(rows.map((row) => `${row.text('state')} ${row.number('duty') < 1 ? 'part' : 'full'}`))
    expect(kinds.size).toBe(6)
  })

  it.each(rows.map((row, i) => [i + 1, row.text('state'), row] as const))('point %i, %s', (_i, state, row) => {
    const duct = ductOf(row)
    const train = trainOf(row)
    const density = row.number('density')
    const point = emptyOperatingPoint()
    expect(solveStanding(standingDuct(duct, density), train, point)).toBe('ok')
    if (state === 'climbing') {
      expect(solveAtDuty(duct, density, row.number('speed_m_s'), train, point)).toBe('ok')
    }
    if (state === 'level') {
      const dragArea = row.number('drag_area_m2')
      const wing = { span: row.number('span_m'), oswald: row.number('oswald') }
      const induced = inducedDragFactor(wing, row.number('mass_kg') * STANDARD_GRAVITY, density)
      const start = levelAdvanceRatio(duct, dragArea, ceilingAdvanceRatio(duct)) * point.bladeSpeed
      expect(solveLevel(duct, density, 0.5 * density * dragArea, induced, train, start, 10, point)).toBe('ok')
      expect(relativeError(point.speed, row.number('speed_m_s'))).toBeLessThan(tolerance)
    }
    expect(relativeError(point.bladeSpeed, row.number('blade_m_s'))).toBeLessThan(tolerance)
    expect(relativeError(point.axialSpeed, row.number('axial_m_s'))).toBeLessThan(tolerance)
    expect(relativeError(point.current, row.number('current_a'))).toBeLessThan(tolerance)
    expect(relativeError(point.busVoltage, row.number('bus_v'))).toBeLessThan(tolerance)
    expect(relativeError(point.thrust, row.number('thrust_n'))).toBeLessThan(tolerance)
  })
})

describe('heat computed by SciPy (scipy.integrate.solve_ivp, Radau)', () => {
  const { rows, tolerance } = authorityTable('independent-heat')

  it.each(rows.map((row, i) => [i + 1, row] as const))('case %i', (_i, row) => {
    const path = {
      innerCapacity: row.number('inner_j_per_k'),
      outerCapacity: row.number('outer_j_per_k'),
      between: row.number('between_w_per_k'),
      toAir: row.number('to_air_w_per_k'),
    }
    const phase = (name: string) =>
      phaseMap(path, {
        inner: row.number(`${name}_w`),
        feedback: row.number(`${name}_feedback_w_per_k`),
        outer: row.number(`${name}_outer_w`),
        time: row.number(`${name}_s`),
      })
    const peaks = { inner: 0, outer: 0 }
    cyclePeaks(phase('hot'), phase('cool'), row.number('cycles'), peaks)
    expect(relativeError(peaks.inner, row.number('inner_peak_k'))).toBeLessThan(tolerance)
    expect(relativeError(peaks.outer, row.number('outer_peak_k'))).toBeLessThan(tolerance)
  })
})
