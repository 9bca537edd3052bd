// Motor, speed controller and pack against published and computed numbers, and what must hold.
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import {
  conductingShare,
  freewheelVoltage,
  pathResistance,
  rippleShare,
  switchingShare,
} from '@ductwright/models/esc/esc-losses'
import {
  bestCurrent,
  bestEfficiency,
  motorEfficiency,
  noLoadCurrent,
  speedConstantAt,
  windingResistance,
} from '@ductwright/models/motor/motor-equations'
import {
  busCurrent,
  busVoltage,
  busVoltageSlope,
  emptyPowerTrain,
} from '@ductwright/models/operating-point/power-train'
import { arrange, fitsBay, packCount } from '@ductwright/models/pack/arrangement'
import { resistanceFactor } from '@ductwright/models/pack/cell-resistance'
import { chenRinconMoraVoltage, openCircuitVoltage } from '@ductwright/models/pack/open-circuit-voltage'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, quantityOf, relativeError } from './authority-table.js'
import { DEGREE, escOf, motorOf, packOf, RPM } from './believable-parts.js'

describe('motor (maxon, Key information, May 2009, p. 36; IEC 60028 from memory; values computed)', () => {
  const table = authorityTable('motor')
  const check = (motor: string, quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity, { case: motor }))).toBeLessThan(table.tolerance)

  it('small motor: stall, best efficiency, no-load speed', () => {
    check('small', 'stall_current_a', 24 / 0.299)
    check('small', 'best_efficiency', bestEfficiency(24, 0.137, 0.299))
    check('small', 'no_load_rpm', (24 - 0.137 * 0.299) / 0.0302 / RPM)
    check('small', 'stall_torque_nm', (24 / 0.299) * 0.0302)
  })

  const large = { ...motorOf(1500, 0.33), resistance: 0.01, noLoadCurrent: 4, noLoadCurrentSlope: 0 }

  it('large motor at 40 V and 100 A, cold and with a winding of 100 °C', () => {
    for (const [suffix, resistance] of [
      ['', large.resistance],
      ['_winding_100_c', windingResistance(large, ZERO_CELSIUS + 100)],
    ] as const) {
      const omega = (40 - 100 * resistance) * large.speedConstant
      check('large', `rpm_at_100_a${suffix}`, omega / RPM)
      check('large', `efficiency_at_100_a${suffix}`, motorEfficiency(40, 100, 4, resistance))
    }
    const omega = (40 - 1) * large.speedConstant
    const torque = (100 - noLoadCurrent(large, omega)) / large.speedConstant
    check('large', 'torque_at_100_a_nm', torque)
    check('large', 'shaft_power_at_100_a_w', torque * omega)
    check('large', 'best_current_a', bestCurrent(40, 4, 0.01))
    check('large', 'best_efficiency', bestEfficiency(40, 4, 0.01))
  })

  it('copper against temperature', () => {
    for (const t of [60, 100, 150]) {
      check('copper', `resistance_ratio_${t}_c`, windingResistance({ resistance: 1 }, ZERO_CELSIUS + t))
    }
  })

  it('speed constant in rpm/V times torque constant in mN·m/A is 30000/π', () => {
    expect((large.speedConstant / RPM) * (1000 / large.speedConstant)).toBeCloseTo(30_000 / Math.PI, 9)
  })

  it('efficiency at the best current is the best efficiency, and higher than beside it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 10, max: 55, noNaN: true }),
        (i0, v) => {
          const best = bestCurrent(v, i0, 0.01)
          expect(motorEfficiency(v, best, i0, 0.01)).toBeCloseTo(bestEfficiency(v, i0, 0.01), 9)
          expect(motorEfficiency(v, 1.1 * best, i0, 0.01)).toBeLessThan(bestEfficiency(v, i0, 0.01))
          expect(motorEfficiency(v, 0.9 * best, i0, 0.01)).toBeLessThan(bestEfficiency(v, i0, 0.01))
        },
      ),
    )
  })

  it('timing: the listed speed constant at its reference, more with lead', () => {
    expect(speedConstantAt(large, large.timingReference)).toBe(large.speedConstant)
    expect(speedConstantAt(large, 30 * DEGREE)).toBeGreaterThan(speedConstantAt(large, 15 * DEGREE))
  })
})

describe('speed controller', () => {
  const printed = authorityTable('esc-switching')
  it.each(printed.rows)('worked loss of a data sheet (LM2735-Q1, LMR12015; printed), row %#', (row) => {
    const esc = escOf(100, {
      switchingTime: row.number('edges_ns') * 1e-9,
      switchingFrequency: row.number('frequency_khz') * 1000,
      freewheelDrop: row.number('diode_v'),
      deadTimeDrop: 0,
    })
    const duty = row.number('duty')
    const current = row.number('current_a')
    const loss = (switchingShare(esc, duty) * row.number('voltage_v') + freewheelVoltage(esc, duty)) * current
    expect(relativeError(1000 * loss, row.number('printed_mw'))).toBeLessThan(printed.tolerance)
  })

  const computed = authorityTable('esc-case')
  it.each(computed.rows)('whole loss at 44.4 V and 100 A (ROHM 64AN035E formulas, computed), row %#', (row) => {
    const edges = { resistance: 0.002, switchingTime: 100e-9, switchingFrequency: 24e3 }
    const freewheel = {
      freewheelDrop: row.number('diode_drop_v'),
      deadTimeDrop: row.number('dead_time_drop_v'),
      freewheelResistanceShare: row.number('diode_drop_v') > 0 ? 0.5 : 1,
    }
    const esc = escOf(110, { ...edges, ...freewheel })
    const duty = row.number('duty')
    const conduction = 100 * 100 * pathResistance(esc, ZERO_CELSIUS + 25) * conductingShare(esc, duty)
    const loss = conduction + (switchingShare(esc, duty) * 44.4 + freewheelVoltage(esc, duty)) * 100
    expect(relativeError(loss, row.number('loss_w'))).toBeLessThan(computed.tolerance)
  })

  it('nothing switches at full throttle, and part throttle always costs something', () => {
    const esc = escOf(160)
    expect(switchingShare(esc, 1) + freewheelVoltage(esc, 1) + rippleShare(1)).toBe(0)
    for (const duty of [0.3, 0.5, 0.7, 0.9, 0.99]) {
      expect(switchingShare(esc, duty) + rippleShare(duty)).toBeGreaterThan(0)
      expect(freewheelVoltage(esc, duty)).toBeGreaterThan(0)
    }
  })

  it('a cap of 70 % costs about 2 % of the power beside the transistors (assumed)', () => {
    expect(rippleShare(0.7) / 0.7).toBeGreaterThan(0.02)
    expect(rippleShare(0.7) / 0.7).toBeLessThan(0.035)
  })

  it('the path resistance rises from its value at 25 °C', () => {
    const esc = escOf(160)
    expect(pathResistance(esc, ZERO_CELSIUS + 25)).toBe(esc.resistance)
    expect(pathResistance(esc, ZERO_CELSIUS + 125) / esc.resistance).toBeCloseTo(1.6, 9)
  })
})

describe('cell', () => {
  const chart = authorityTable('open-circuit-voltage')
  it('resting voltage (widely used chart without a single source, ±0.03 V)', () => {
    for (const row of chart.rows) {
      const found = openCircuitVoltage(row.number('charge_percent') / 100)
      expect(relativeError(found, row.number('voltage_v'))).toBeLessThan(chart.tolerance)
    }
  })

  const energies = authorityTable('cell-energy')
  it.each(energies.rows)('energy under the chart (computed), row %#', (row) => {
    const [from, to] = [row.number('from_percent') / 100, row.number('to_percent') / 100]
    const steps = 100_000
    let sum = 0
    for (let i = 0; i < steps; i++) sum += openCircuitVoltage(to + ((from - to) * (i + 0.5)) / steps)
    expect(relativeError((sum / steps) * (from - to), row.number('energy_wh'))).toBeLessThan(energies.tolerance)
  })

  const curve = authorityTable('chen-rincon-mora')
  it.each(curve.rows)('curve of Chen & Rincón-Mora (2006, from memory), row %#', (row) => {
    const found = chenRinconMoraVoltage(row.number('charge'))
    expect(relativeError(found, row.number('voltage_v'))).toBeLessThan(curve.tolerance)
  })

  it('the chart stays within 0.12 V of Chen & Rincón-Mora between 10 and 100 % (another cell)', () => {
    for (let s = 0.1; s <= 1; s += 0.05) {
      expect(Math.abs(openCircuitVoltage(s) - chenRinconMoraVoltage(s))).toBeLessThan(0.12)
    }
  })

  const warmth = authorityTable('cell-temperature')
  it.each(warmth.rows)('resistance against temperature (assumed 20 kJ/mol, computed), row %#', (row) => {
    const factor = resistanceFactor(row.number('temperature_c') + ZERO_CELSIUS)
    expect(relativeError(factor, row.number('factor'))).toBeLessThan(warmth.tolerance)
  })

  it('refuses a charge outside 0 to 1 by name', () => {
    for (const charge of [-0.01, 1.01, Number.NaN]) {
      expect(() => openCircuitVoltage(charge)).toThrow(RangeError)
      expect(() => openCircuitVoltage(charge)).toThrow(`state of charge must lie between 0 and 1, got ${charge}`)
    }
  })
})

describe('pack', () => {
  const table = authorityTable('pack-sag')
  const check = (quantity: string, value: number) =>
    expect(relativeError(value, quantityOf(table, quantity))).toBeLessThan(table.tolerance)
  const source = { ...emptyPowerTrain(), openVoltage: 12 * 3.84, sourceResistance: 12 * 0.0025 }

  it('sag at a current and heat (computed)', () => {
    const voltage = busVoltage({ ...source, duty: 1 }, 100)
    check('voltage_at_100_a_v', voltage)
    check('heat_at_100_a_w', (source.openVoltage - voltage) * 100)
    check('adiabatic_rise_150_a_30_mohm_1600_g_k_per_s', (150 ** 2 * 0.03) / (1.6 * 1050))
  })

  it('current and voltage at a power demand, and the most power (computed)', () => {
    const loaded = { ...source, quiescentPower: 4000 }
    const voltage = busVoltage(loaded, 0)
    check('voltage_at_4000_w_v', voltage)
    check('current_at_4000_w_a', busCurrent(loaded, 0, voltage))
    const most = quantityOf(table, 'most_power_w')
    expect(busVoltage({ ...source, quiescentPower: 0.9999 * most }, 0)).toBeGreaterThan(0)
    expect(busVoltage({ ...source, quiescentPower: 1.0001 * most }, 0)).toBeNaN()
  })

  it('the slope of the bus voltage is the difference quotient', () => {
    const train = {
      ...source,
      duty: 0.8,
      switching: 0.001,
      ripple: 0.016,
      freewheel: 0.14,
      quiescentPower: 4,
      proportionalLoss: 0.003,
    }
    const voltage = busVoltage(train, 120)
    const quotient = (busVoltage(train, 120.01) - busVoltage(train, 119.99)) / 0.02
    expect(relativeError(busVoltageSlope(train, 120, voltage), quotient)).toBeLessThan(1e-6)
    expect(source.openVoltage - busCurrent(train, 120, voltage) * source.sourceResistance).toBeCloseTo(voltage, 9)
  })

  it('two in series double cells and resistance, two side by side double charge and halve resistance', () => {
    const pack = packOf(6, 5)
    const [one, row, pair] = [arrange(pack, 'single'), arrange(pack, 'series'), arrange(pack, 'parallel')]
    expect([row.cells, pair.cells]).toEqual([12, 6])
    expect([row.capacity, pair.capacity]).toEqual([one.capacity, 2 * one.capacity])
    expect(row.cellResistance).toBeCloseTo(2 * one.cellResistance, 12)
    expect(pair.cellResistance).toBeCloseTo(0.5 * one.cellResistance, 12)
    expect([row.mass, pair.mass]).toEqual([2 * one.mass, 2 * one.mass])
    expect([packCount('single'), packCount('series'), packCount('parallel')]).toEqual([1, 2, 2])
    // The same energy: heat at the same power is the same in both.
    expect((one.currentLimit * row.cells) / (pair.currentLimit * pair.cells)).toBeCloseTo(1, 12)
  })

  it('packs fit the bay on either side, two of them stacked in one of three ways', () => {
    const pack = { length: 0.14, width: 0.05, height: 0.04 }
    expect(fitsBay(pack, 'single', { length: 0.14, width: 0.04, height: 0.05 })).toBe(true)
    expect(fitsBay(pack, 'single', { length: 0.13, width: 0.2, height: 0.2 })).toBe(false)
    expect(fitsBay(pack, 'series', { length: 0.14, width: 0.05, height: 0.08 })).toBe(true)
    expect(fitsBay(pack, 'series', { length: 0.28, width: 0.05, height: 0.04 })).toBe(true)
    expect(fitsBay(pack, 'parallel', { length: 0.2, width: 0.07, height: 0.07 })).toBe(false)
  })
})
