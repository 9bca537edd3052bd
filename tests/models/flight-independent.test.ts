// A flight of passes and cruise against SciPy, which integrates charge and temperatures continuously and solves the operating
// point anew at every instant. The script that made the table is tests/authorities/independent/fly.py.
import { STANDARD_GRAVITY, ZERO_CELSIUS } from '@ductwright/models/constants'
import type { TimelineInput } from '@ductwright/models/flight/flight-rig'
import { flightTimeline } from '@ductwright/models/flight/timeline'
import { inducedDragFactor } from '@ductwright/models/operating-point/level'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { describe, expect, it } from 'vitest'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'
import { airframeOf, circumstancesOf, escOf, fanOf, motorOf, packOf, setupOf } from './believable-parts.js'

describe('passes and cruise against continuous integration (SciPy solve_ivp)', () => {
  const { rows, tolerance } = authorityTable('phases')

  function inputOf(row: AuthorityRow): TimelineInput {
    const of = (column: string) => row.number(column)
    const airframe = airframeOf({
      dragArea: of('drag_area_m2'),
      span: of('span_m'),
      ductLoss: of('duct_loss'),
      ramRecovery: of('ram_recovery'),
    })
    const base = circumstancesOf(airframe)
    const cycle = of('pass_s') + of('cruise_s')
    const circumstances: Circumstances = {
      ...base,
      density: of('density'),
      soundSpeed: of('sound_m_s'),
      viscosity: of('viscosity'),
      airTemperature: of('air_k'),
      profile: {
        ...base.profile,
        climbHeight: 0,
        approachTime: 0,
        flightTime: of('cycles') * cycle,
        fullThrottleShare: of('pass_s') / cycle,
        passTime: of('pass_s'),
        cruiseSpeed: of('cruise_m_s'),
        reserve: 0.05,
      },
    }
    const fan = fanOf(of('tip_m'), {
      hubDiameter: of('hub_m'),
      psi0: of('psi0'),
      psi1: of('psi1'),
      etaPeak: of('eta_peak'),
      phiPeak: of('phi_peak'),
      kappa: of('kappa'),
    })
    const motor = {
      ...motorOf(1000, 0.33),
      speedConstant: of('speed_constant'),
      resistance: of('motor_ohm'),
      noLoadCurrent: of('idle_current_a'),
      noLoadCurrentSlope: of('idle_slope'),
      windingHeatCapacity: of('winding_j_per_k'),
      caseHeatCapacity: of('case_j_per_k'),
      windingToCaseConductance: of('winding_case_w_per_k'),
      caseToAirConductance: of('case_air_w_per_k'),
    }
    const diode = of('freewheel_v') > 0
    const esc = escOf(160, {
      resistance: of('esc_ohm'),
      resistanceTemperatureCoefficient: of('esc_per_k'),
      quiescentPower: of('quiescent_w'),
      proportionalLoss: of('proportional'),
      switchingTime: of('switching_s'),
      switchingFrequency: of('switching_hz'),
      freewheelDrop: of('freewheel_v'),
      deadTimeDrop: 0,
      freewheelResistanceShare: diode ? 0.5 : 1,
      boardHeatCapacity: of('board_j_per_k'),
      sinkHeatCapacity: of('sink_j_per_k'),
      boardToSinkConductance: of('board_sink_w_per_k'),
      sinkToAirConductance: of('sink_air_w_per_k'),
    })
    const { parts } = setupOf(circumstances, fan, motor, esc, packOf(8, 5), of('nozzle_ratio'))
    const source = {
      ...parts.source,
      cells: of('cells'),
      capacity: of('capacity_as'),
      cellResistance: of('cell_ohm'),
      leadResistance: of('lead_ohm'),
      heatCapacity: of('pack_j_per_k'),
    }
    const weight = of('mass_kg') * STANDARD_GRAVITY
    return {
      parts: { ...parts, source },
      circumstances,
      duty: 1,
      mass: of('mass_kg'),
      stall: 15,
      parasite: 0.5 * of('density') * of('drag_area_m2'),
      induced: inducedDragFactor({ span: of('span_m'), oswald: 0.8 }, weight, of('density')),
      roll: null,
      halfTurns: 0,
    }
  }

  it.each(rows)('flight %#', (row) => {
    const found = flightTimeline(inputOf(row))
    expect(found.passes).toBe(row.number('cycles'))
    const close = (value: number | null, column: string, zero = 0) =>
      expect(relativeError((value ?? Number.NaN) - zero, row.number(column) - zero)).toBeLessThan(tolerance)
    close(found.chargeUsed, 'charge_used_as')
    close(found.firstPassSpeed, 'first_pass_m_s')
    close(found.lastPassSpeed, 'last_pass_m_s')
    const air = row.number('air_k')
    close(found.peaks.winding.temperature, 'winding_k', air)
    close(found.peaks.case.temperature, 'case_k', air)
    close(found.peaks.board.temperature, 'board_k', air)
    close(found.peaks.pack.temperature, 'pack_k', Math.max(air, ZERO_CELSIUS + 30))
  })
})
