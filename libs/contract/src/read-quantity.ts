// Reads a number or text as a value in a documented unit; what is not one is named by the rule it breaks.
import { type DocumentedUnit, type DocumentedUnitName, documentedUnits } from './documented-unit.js'
import { resolveUnit } from './unit-alias.js'
import { convert } from './unit-conversion.js'
import { readWritten } from './written-number.js'

/** A rule broken, worded to follow the name of the field. */
export interface Broken {
  readonly rule: string
  readonly message: string
}

export type Reading = { readonly ok: true; readonly value: number } | ({ readonly ok: false } & Broken)

export const broken = (rule: string, message: string): Reading => ({ ok: false, rule, message })

/** What the field takes, for messages. */
export function wanted(unit: DocumentedUnitName): string {
  const { dimension, examples } = documentedUnits[unit] as DocumentedUnit
  const texts = examples.map((example) => `"${example}"`).join(', ')
  const number = unit === 'share' || unit === 'ratio' ? 'a number' : `a number in ${unit}`
  return `must be a ${dimension}: ${number}, or text such as ${texts}`
}

function fromText(text: string, unit: DocumentedUnitName): Reading {
  const written = readWritten(text)
  if (written.kind === 'not-a-quantity') return broken('number', wanted(unit))
  if (written.kind === 'ambiguous') {
    return broken(
      'number',
      `can be read as ${written.readings.join(' or as ')}: write one of them, thousands ungrouped`,
    )
  }
  if (!Number.isFinite(written.value)) return broken('finite', `must be a finite number; it ${wanted(unit)}`)
  return unit === 'share' || unit === 'ratio' ? pure(written.value, written.unit, unit) : withUnit(written, unit)
}

function pure(value: number, written: string, unit: 'share' | 'ratio'): Reading {
  if (written === '') return { ok: true, value }
  if (written === '%' && unit === 'share') return { ok: true, value: value / 100 }
  return broken('unit', `has the unit "${written}" but ${wanted(unit)}`)
}

function withUnit(written: { readonly value: number; readonly unit: string }, unit: DocumentedUnitName): Reading {
  const { dimension, mathjs } = documentedUnits[unit]
  if (written.unit === '') return broken('unit', `is text without a unit; it ${wanted(unit)}`)
  const from = resolveUnit(written.unit, dimension)
  if (from.unit === mathjs && from.factor === 1) return { ok: true, value: written.value }
  const conversion = convert(written.value, from, mathjs ?? '')
  if (conversion.kind === 'converted') return { ok: true, value: conversion.value }
  if (conversion.kind === 'unknown-unit')
    return broken('unit', `has an unknown unit "${written.unit}"; it ${wanted(unit)}`)
  return broken('dimension', `has the unit "${written.unit}", which is no ${dimension}; it ${wanted(unit)}`)
}

/** Reads a number or text as a value in the documented unit, without judging its size. */
export function readQuantity(value: unknown, unit: DocumentedUnitName): Reading {
  if (typeof value === 'string') return fromText(value, unit)
  if (typeof value !== 'number') return broken('type', wanted(unit))
  if (!Number.isFinite(value)) return broken('finite', `must be a finite number; it ${wanted(unit)}`)
  return { ok: true, value }
}
