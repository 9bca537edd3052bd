// A quantity at the border: a number in the documented unit, or text with a unit. `quantity(...)` makes the schema of one
// field; it yields the value the models want (SI). A fault names the rule broken, `type`, `number`, `finite`, `unit`,
// `dimension` or `range`, and says what is allowed in the documented unit.
import { z } from 'zod'
import { type DocumentedUnit, type DocumentedUnitName, documentedUnits, inUnit } from './documented-unit.js'
import { broken, type Reading, readQuantity, wanted } from './read-quantity.js'

export interface QuantityOptions {
  /** The unit of a plain number; it fixes the dimension too. */
  readonly unit: DocumentedUnitName
  /** Limits, both allowed themselves, in the documented unit. */
  readonly min: number
  readonly max: number
  /** Why the limits are where they are. */
  readonly why: string
  /** What the field means, for the description of the API. */
  readonly about: string
}

/** Reads a field and judges its size. */
function readInRange(value: unknown, options: QuantityOptions): Reading {
  const reading = readQuantity(value, options.unit)
  if (!reading.ok) return reading
  if (!Number.isFinite(reading.value)) return broken('finite', `must be a finite number; it ${wanted(options.unit)}`)
  const { min, max, unit, why } = options
  if (reading.value >= min && reading.value <= max) return reading
  const size = typeof value === 'string' ? ` (${inUnit(reading.value, unit)})` : ''
  return broken('range', `must be from ${inUnit(min, unit)} to ${inUnit(max, unit)}${size}: ${why}`)
}

/** Schema of one quantity: number or text in, SI out. */
export function quantity(options: QuantityOptions) {
  const { unit, min, max, about } = options
  const { examples, toSi } = documentedUnits[unit] as DocumentedUnit
  const described = z.unknown().meta({
    anyOf: [
      { type: 'number', minimum: min, maximum: max },
      { type: 'string', maxLength: 60 },
    ],
    description: `${about} From ${inUnit(min, unit)} to ${inUnit(max, unit)}.`,
    examples: [...examples],
  })
  return described.transform((value, context): number => {
    const reading = readInRange(value, options)
    if (reading.ok) return toSi(reading.value)
    context.addIssue({ code: 'custom', input: value, message: reading.message, params: { rule: reading.rule } })
    return z.NEVER
  })
}

/** A dimensionless quantity that may be written in per cent. */
export const share = (min: number, max: number, why: string, about: string) =>
  quantity({ unit: 'share', min, max, why, about })

/** A dimensionless quantity that nobody writes in per cent. */
export const ratio = (min: number, max: number, why: string, about: string) =>
  quantity({ unit: 'ratio', min, max, why, about })
