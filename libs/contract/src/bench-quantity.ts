// Readings of a bench at the border: volts, amperes, revolutions, newtons, grams of pull, millimetres. Numbers in the unit
// the field ends in, or text with a unit, by the same grammar and with the same faults as every other quantity; SI out.
import { STANDARD_GRAVITY } from '@ductwright/models/constants'
import { z } from 'zod'
import { broken, type Reading } from './read-quantity.js'
import { resolveUnit } from './unit-alias.js'
import { convert } from './unit-conversion.js'
import { readWritten } from './written-number.js'

interface BenchUnit {
  readonly dimension: string
  /** The same unit as mathjs spells it. */
  readonly mathjs: string
  /** SI value of one of it. */
  readonly size: number
  readonly examples: readonly [string, string]
}

const benchUnits = {
  V: { dimension: 'voltage', mathjs: 'V', size: 1, examples: ['37.2 V', '37200 mV'] },
  A: { dimension: 'current', mathjs: 'A', size: 1, examples: ['118 A', '0.118 kA'] },
  rpm: {
    dimension: 'rotational speed',
    mathjs: 'cycle/min',
    size: Math.PI / 30,
    examples: ['38500 rpm', '4032 rad/s'],
  },
  N: { dimension: 'force', mathjs: 'N', size: 1, examples: ['52.4 N', '11.8 lbf'] },
  // A balance shows the mass that would weigh as much as the thrust.
  g: { dimension: 'mass', mathjs: 'g', size: STANDARD_GRAVITY / 1000, examples: ['5340 g', '5.34 kg'] },
  mm: { dimension: 'length', mathjs: 'mm', size: 1e-3, examples: ['90 mm', '3.5 in'] },
} as const satisfies Record<string, BenchUnit>

export interface BenchQuantityOptions {
  readonly unit: keyof typeof benchUnits
  /** Limits, both allowed themselves, in that unit. */
  readonly min: number
  readonly max: number
  readonly why: string
  readonly about: string
}

/** Schema of one reading: number or text in, SI out. */
export function benchQuantity(options: BenchQuantityOptions) {
  const { unit, min, max, about } = options
  const described = z.unknown().meta({
    anyOf: [
      { type: 'number', minimum: min, maximum: max },
      { type: 'string', maxLength: 60 },
    ],
    description: `${about} From ${min} ${unit} to ${max} ${unit}.`,
    examples: [...benchUnits[unit].examples],
  })
  return described.transform((value, context): number => {
    const reading = readInRange(value, options)
    if (reading.ok) return reading.value * benchUnits[unit].size
    context.addIssue({ code: 'custom', input: value, message: reading.message, params: { rule: reading.rule } })
    return z.NEVER
  })
}

function readInRange(value: unknown, { unit, min, max, why }: BenchQuantityOptions): Reading {
  const reading = typeof value === 'string' ? fromText(value, unit) : fromNumber(value, unit)
  if (!reading.ok || (reading.value >= min && reading.value <= max)) return reading
  return broken('range', `must be from ${min} ${unit} to ${max} ${unit}: ${why}`)
}

function wanted(unit: keyof typeof benchUnits): string {
  const { dimension, examples } = benchUnits[unit]
  return `must be a ${dimension}: a number in ${unit}, or text such as "${examples[0]}", "${examples[1]}"`
}

function fromNumber(value: unknown, unit: keyof typeof benchUnits): Reading {
  if (typeof value !== 'number') return broken('type', wanted(unit))
  return Number.isFinite(value) ? { ok: true, value } : broken('finite', `must be a finite number; it ${wanted(unit)}`)
}

function fromText(text: string, unit: keyof typeof benchUnits): Reading {
  const written = readWritten(text)
  if (written.kind === 'not-a-quantity') return broken('number', wanted(unit))
  if (written.kind === 'ambiguous') {
    return broken(
      'number',
      `can be read as ${written.readings.join(' or as ')}: write one of them, thousands ungrouped`,
    )
  }
  if (written.unit === '') return broken('unit', `is text without a unit; it ${wanted(unit)}`)
  const { dimension, mathjs } = benchUnits[unit]
  const conversion = convert(written.value, resolveUnit(written.unit, dimension), mathjs)
  if (conversion.kind === 'converted') return fromNumber(conversion.value, unit)
  const rule = conversion.kind === 'unknown-unit' ? 'unit' : 'dimension'
  const what =
    rule === 'unit' ? `an unknown unit "${written.unit}"` : `the unit "${written.unit}", which is no ${dimension}`
  return broken(rule, `has ${what}; it ${wanted(unit)}`)
}
