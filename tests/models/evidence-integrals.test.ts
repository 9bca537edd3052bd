// Closed forms of motion and heat against SciPy's integrators: runs and dives, take-off rolls, and the heat of a flight of
// unlike phases. The script that made the tables is tests/authorities/independent/integrals.py.
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { diveSpeed, terminalSpeed, verticalDiveSpeed } from '@ductwright/models/flight/dive'
import { runSpeed } from '@ductwright/models/flight/run-speed'
import { groundRoll, LIFT_OFF_FACTOR, MEAN_FORCE_SPEED, stallSpeed } from '@ductwright/models/flight/take-off'
import { phaseMap } from '@ductwright/models/thermal/two-node'
import { describe, expect, it } from 'vitest'
import { type AuthorityRow, authorityTable, relativeError } from './authority-table.js'

/** Thrust minus drag plus the part of the weight along the path, N; on the row's path unless another angle is given. */
function netForce(row: AuthorityRow, speed: number, angle = row.number('angle_rad')): number {
  const thrust =
    row.number('thrust0_n') + row.number('thrust1_n_s_m') * speed + row.number('thrust2_n_s2_m2') * speed ** 2
  const parasite = 0.5 * row.number('density_kg_m3') * row.number('drag_area_m2')
  const drag = parasite * speed ** 2 + row.number('induced_n_m2_s2') / speed ** 2
  return thrust - drag + row.number('mass_kg') * STANDARD_GRAVITY * Math.sin(angle)
}

describe('runs and dives integrated by SciPy (solve_ivp, DOP853)', () => {
  const { rows, tolerance } = authorityTable('independent-dives')
  /** Where excess force is not linear in V², the closed form interpolates it. */
  const INTERPOLATED = 1e-2

  const reached = (row: AuthorityRow) => {
    const entry = row.number('entry_m_s')
    const excess = netForce(row, entry)
    return runSpeed(row.number('steady_m_s'), entry, excess, row.number('mass_kg'), row.number('path_m'))
  }

  it('covers level runs and dives, exact and interpolated', () => {
    expect(new Set(rows.map((row) => row.text('kind'))).size).toBe(5)
  })

  it.each(rows.map((row, i) => [i + 1, row.text('kind'), row] as const))('row %i, %s', (_i, kind, row) => {
    const speed = row.number('speed_m_s')
    expect(Math.abs(netForce(row, row.number('steady_m_s')))).toBeLessThan(1e-6)
    expect(relativeError(reached(row), speed)).toBeLessThan(kind.endsWith('full') ? INTERPOLATED : tolerance)
    // It speeds up all the way, so the path takes less time than at the entry speed and more than at the last.
    const path = row.number('path_m')
    expect(row.number('time_s')).toBeLessThan(path / row.number('entry_m_s'))
    expect(row.number('time_s')).toBeGreaterThan(path / speed)
  })

  const dives = rows.filter((row) => row.text('kind').startsWith('dive'))
  it.each(dives.map((row, i) => [i + 1, row.text('kind'), row] as const))('dive %i, %s, by height', (_i, kind, row) => {
    const mass = row.number('mass_kg')
    const angle = row.number('angle_rad')
    const steady = row.number('level_steady_m_s')
    const entry = row.number('entry_m_s')
    const excessSpeed = steady === 0 ? entry : 0.6 * steady
    const found = diveSpeed({
      steady,
      entry,
      excess: netForce(row, excessSpeed, 0),
      excessSpeed,
      weight: mass * STANDARD_GRAVITY,
      mass,
      height: row.number('path_m') * Math.sin(angle),
      angle,
    })
    const wanted = kind.endsWith('full') ? INTERPOLATED : tolerance
    expect(relativeError(found, row.number('speed_m_s'))).toBeLessThan(wanted)
  })

  it.each(rows.filter((row) => row.text('kind') === 'dive free'))('straight down without thrust, dive %#', (row) => {
    const weight = row.number('mass_kg') * STANDARD_GRAVITY
    const drag = row.number('drag_area_m2')
    const terminal = terminalSpeed(weight, row.number('angle_rad'), 0, row.number('density_kg_m3'), drag)
    expect(relativeError(terminal, row.number('steady_m_s'))).toBeLessThan(tolerance)
    const found = verticalDiveSpeed(terminal, row.number('entry_m_s'), row.number('path_m'), STANDARD_GRAVITY)
    expect(relativeError(found, row.number('speed_m_s'))).toBeLessThan(tolerance)
  })
})

describe('take-off rolls integrated by SciPy (quad)', () => {
  const { rows, tolerance } = authorityTable('independent-rolls')

  it.each(rows)('roll %#', (row) => {
    const weight = row.number('mass_kg') * STANDARD_GRAVITY
    const density = row.number('density_kg_m3')
    const area = row.number('wing_area_m2')
    const wing = {
      area,
      span: row.number('span_m'),
      oswald: row.number('oswald'),
      dragArea: row.number('drag_area_m2'),
    }
    const stall = stallSpeed(weight, density, area, row.number('lift_coefficient_max'))
    expect(relativeError(stall, row.number('stall_m_s'))).toBeLessThan(1e-9)
    const mean = MEAN_FORCE_SPEED * LIFT_OFF_FACTOR * stall
    const thrust = row.number('thrust0_n') + row.number('thrust1_n_s_m') * mean
    const roll = groundRoll(weight, density, stall, thrust, row.number('friction'), wing)
    expect(relativeError(roll, row.number('roll_m'))).toBeLessThan(tolerance)
  })
})

describe('heat of a flight of unlike phases integrated by SciPy (solve_ivp, Radau)', () => {
  const { rows, tolerance } = authorityTable('independent-flight-heat')
  const flights = [...new Set(rows.map((row) => row.text('case')))]

  it('has six phases a flight', () => {
    expect(flights.length).toBe(8)
    expect(rows.length).toBe(6 * flights.length)
  })

  it.each(flights)('flight %s, phase after phase', (flight) => {
    let [inner, outer] = [0, 0]
    for (const row of rows.filter((each) => each.text('case') === flight)) {
      const map = phaseMap(
        {
          innerCapacity: row.number('inner_j_per_k'),
          outerCapacity: row.number('outer_j_per_k'),
          between: row.number('between_w_per_k'),
          toAir: row.number('to_air_w_per_k'),
        },
        {
          inner: row.number('inner_w'),
          feedback: row.number('feedback_w_per_k'),
          outer: row.number('outer_w'),
          time: row.number('time_s'),
        },
      )
      ;[inner, outer] = [map.m11 * inner + map.m12 * outer + map.v1, map.m21 * inner + map.m22 * outer + map.v2]
      expect(relativeError(inner, row.number('inner_end_k')), row.text('phase')).toBeLessThan(tolerance)
      expect(relativeError(outer, row.number('outer_end_k')), row.text('phase')).toBeLessThan(tolerance)
    }
  })
})
