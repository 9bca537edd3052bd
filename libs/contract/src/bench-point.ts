// One steady reading of a fan standing on a bench at full throttle: the nozzle, and at least two of voltage, current, shaft
// speed and thrust.
import type { BenchPoint } from '@ductwright/models/calibration/bench-data'
import { z } from 'zod'
import { nozzleRatio } from './airframe-section.js'
import { benchQuantity } from './bench-quantity.js'
import { crossRule } from './cross-rule.js'

function readingsOf({ nozzle_ratio: _, ...readings }: Readonly<Record<string, unknown>>): number {
  return Object.values(readings).filter((reading) => reading !== undefined).length
}

const volts = (about: string) =>
  benchQuantity({ unit: 'V', min: 3, max: 80, why: 'packs of 1 to 18 cells have no other', about }).optional()

export const benchPoint = z
  .strictObject({
    nozzle_ratio: nozzleRatio,
    pack_voltage_v: volts('Voltage at the pack.'),
    motor_voltage_v: volts('Voltage at the motor, instead of that at the pack.'),
    current_a: benchQuantity({
      unit: 'A',
      min: 0.5,
      max: 500,
      why: 'less turns no fan, more no pack gives',
      about: 'Current from the pack.',
    }).optional(),
    rpm: benchQuantity({
      unit: 'rpm',
      min: 1000,
      max: 120_000,
      why: 'slower tells nothing, faster no fan turns',
      about: 'Shaft speed.',
    }).optional(),
    thrust_n: benchQuantity({
      unit: 'N',
      min: 0.1,
      max: 600,
      why: 'no fan of this kind pulls otherwise',
      about: 'Thrust.',
    }).optional(),
    thrust_g: benchQuantity({
      unit: 'g',
      min: 10,
      max: 60_000,
      why: 'no fan of this kind pulls otherwise',
      about: 'Thrust as a balance shows it, instead of thrust_n.',
    }).optional(),
  })
  .refine(
    (read) => read.pack_voltage_v === undefined || read.motor_voltage_v === undefined,
    crossRule('exclusive', ['motor_voltage_v'], 'cannot stand beside pack_voltage_v: give one of the two'),
  )
  .refine(
    (read) => read.thrust_n === undefined || read.thrust_g === undefined,
    crossRule('exclusive', ['thrust_g'], 'cannot stand beside thrust_n: give one of the two'),
  )
  .refine(
    (read) => readingsOf(read) >= 2,
    crossRule(
      'required',
      [],
      'must have two readings or more of voltage, current, rpm and thrust: one alone says nothing',
    ),
  )
  .transform(
    (read): BenchPoint => ({
      nozzleRatio: read.nozzle_ratio,
      voltage: read.pack_voltage_v ?? null,
      motorVoltage: read.motor_voltage_v ?? null,
      current: read.current_a ?? null,
      shaftSpeed: read.rpm ?? null,
      thrust: read.thrust_n ?? read.thrust_g ?? null,
    }),
  )
