// Converts a number between units, by mathjs: only its unit type is used, and only on text that passed the grammar in
// quantity.ts.
import type { Unit } from 'mathjs'
import { mathjs } from './mathjs-door.js'
import type { UnitAlias } from './unit-alias.js'

export type Conversion =
  | { readonly kind: 'converted'; readonly value: number }
  | { readonly kind: 'unknown-unit' }
  | { readonly kind: 'other-dimension' }

/** Fourteen figures: drops the binary noise of offsets and quotients (59 °F is 15 °C, not 15.000000000000057). */
function tidy(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(14)) : value
}

/** `value` in `from`, expressed in `to` (a unit mathjs knows). */
export function convert(value: number, from: UnitAlias, to: string): Conversion {
  const { unit } = mathjs()
  let quantity: Unit
  try {
    quantity = unit(value * from.factor, from.unit)
  } catch {
    return { kind: 'unknown-unit' }
  }
  if (!quantity.equalBase(unit(1, to))) return { kind: 'other-dimension' }
  return { kind: 'converted', value: tidy(quantity.toNumber(to)) }
}
