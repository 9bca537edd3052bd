// Bench measurements over the wire: what is read, what is filled in, and what is refused, field by field.
import { type BenchQuantityOptions, benchQuantity } from '@ductwright/contract/bench-quantity'
import { parseBench } from '@ductwright/contract/bench-request'
import { readBySchema } from '@ductwright/contract/issue-faults'
import { BENCH_UNCERTAINTIES } from '@ductwright/models/calibration/bench-data'
import { describe, expect, it } from 'vitest'
import { broken, faultsOf } from './faults-of.js'

const point = { nozzle_ratio: 0.88, rpm: 38_500, thrust_n: 52 }
const least = { fan: 'fan-one', rig: { duct_loss: 0.3 }, points: [point] }

const pointOf = (changes: Record<string, unknown>) =>
  parseBench({ ...least, points: [{ ...point, ...changes }] }).points[0]

describe('a bench request', () => {
  it('has every default filled in', () => {
    expect(parseBench(least)).toEqual({
      title: 'Bench of fan-one',
      fan: { kind: 'catalogue', id: 'fan-one' },
      motor: null,
      timing_deg: 0,
      esc: null,
      rig: { ductLoss: 0.3, elevation: 0, temperature: 288.15, motorTemperature: 323.15 },
      held: { psi0: null, psi1: null, etaPeak: null },
      uncertainties: BENCH_UNCERTAINTIES,
      points: [
        {
          nozzleRatio: 0.88,
          voltage: null,
          motorVoltage: null,
          current: null,
          shaftSpeed: (38_500 * Math.PI) / 30,
          thrust: 52,
        },
      ],
    })
  })

  it('takes a fan that is in no catalogue', () => {
    const given = { tip_diameter_mm: '90 mm', hub_diameter_mm: 42 }
    expect(parseBench({ ...least, fan: { given } })).toMatchObject({
      title: 'Bench of a fan',
      fan: { kind: 'given', tipDiameter: 0.09, hubDiameter: 0.042, phiPeak: 0.68, kappa: 0.45 },
    })
    expect(parseBench({ ...least, fan: { id: 'fan-one' } }).fan).toEqual({ kind: 'catalogue', id: 'fan-one' })
  })

  it('takes held values and uncertainties, in shares or per cent', () => {
    const hold = { peak_efficiency: { value: '70 %', uncertainty: '4 %' } }
    const read = parseBench({ ...least, hold, uncertainties: { thrust: '1 %', rpm: 0.005, thrust_scale: 0 } })
    expect(read.held).toEqual({ psi0: null, psi1: null, etaPeak: { value: 0.7, uncertainty: 0.04 } })
    expect(read.uncertainties).toEqual({ ...BENCH_UNCERTAINTIES, thrust: 0.01, shaftSpeed: 0.005, thrustScale: 0 })
  })

  // NIST SP 811 (2008), appendix B: 1 lbf = 4.4482216 N; standard gravity 9.80665 m/s² exact.
  it.each([
    [{ thrust_n: '11.69 lbf' }, 'thrust', 11.69 * 4.4482216152605],
    [{ thrust_n: undefined, thrust_g: 5300 }, 'thrust', 5.3 * 9.80665],
    [{ thrust_n: undefined, thrust_g: '5,3 kg' }, 'thrust', 5.3 * 9.80665],
    [{ rpm: '4000 rad/s' }, 'shaftSpeed', 4000],
    [{ current_a: '0.118 kA' }, 'current', 118],
    [{ pack_voltage_v: '37200 mV' }, 'voltage', 37.2],
    [{ motor_voltage_v: 36.8 }, 'motorVoltage', 36.8],
  ] as const)('reads %j', (changes, field, expected) => {
    expect(pointOf(changes)?.[field]).toBeCloseTo(expected, 8)
  })
})

describe('faults of a bench request', () => {
  it.each([
    [{ points: [] }, ['/points length']],
    [{ points: [{ nozzle_ratio: 0.9, rpm: 38_000 }] }, ['/points/0 required']],
    [{ points: [{ ...point, thrust_g: 5000 }] }, ['/points/0/thrust_g exclusive']],
    [{ points: [{ ...point, pack_voltage_v: 37, motor_voltage_v: 36 }] }, ['/points/0/motor_voltage_v exclusive']],
    [{ points: [{ ...point, rpm: '640 Hz' }] }, ['/points/0/rpm dimension']],
    [{ points: [{ ...point, current_a: '120' }] }, ['/points/0/current_a unit']],
    [{ points: [{ ...point, current_a: '120 bananas' }] }, ['/points/0/current_a unit']],
    [{ points: [{ ...point, thrust_n: '1,200 N' }] }, ['/points/0/thrust_n number']],
    [{ points: [{ ...point, thrust_n: 2000 }] }, ['/points/0/thrust_n range']],
    [{ points: [{ ...point, thrust_n: true }] }, ['/points/0/thrust_n type']],
    [{ points: [{ ...point, duty: 0.8 }] }, ['/points/0/duty unknown-field']],
    [{ motor: 'motor-one' }, ['/timing_deg required']],
    [{ fan: {} }, ['/fan exclusive']],
    [{ fan: 7 }, ['/fan type']],
    [{ fan: { given: { tip_diameter_mm: 90, hub_diameter_mm: 80 } } }, ['/fan/given/hub_diameter_mm order']],
    [{ rig: {} }, ['/rig/duct_loss required']],
    [{ hold: { pressure_rise_slope: { value: 0.7 } } }, ['/hold/pressure_rise_slope/uncertainty required']],
    [{ uncertainties: { thrust: 0 } }, ['/uncertainties/thrust range']],
  ] as const)('%j', (changes, expected) => {
    expect(broken(() => parseBench({ ...least, ...changes }))).toEqual(expected)
  })

  it('say what was found and what is wanted', () => {
    const message = (changes: Record<string, unknown>) =>
      faultsOf(() => parseBench({ ...least, points: [{ ...point, ...changes }] }))[0]?.message
    expect(message({ thrust_n: 2000 })).toBe(
      'thrust_n must be from 0.1 N to 600 N: no fan of this kind pulls otherwise; got 2000',
    )
    expect(message({ current_a: '120 V' })).toContain('has the unit "V", which is no current; it must be a current')
  })

  it('a reading that is no finite number', () => {
    const options: BenchQuantityOptions = { unit: 'A', min: 0, max: 500, why: 'the test says so', about: 'A field.' }
    const rule = (value: unknown) => faultsOf(() => readBySchema(benchQuantity(options), value, 'field'))[0]?.rule
    expect([rule('1e999 A'), rule('1e400 kA'), rule(null)]).toEqual(['finite', 'finite', 'type'])
  })
})
