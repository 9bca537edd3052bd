// A figure with its band beside it: what it comes to in 90 cases of 100 when parts, air and build differ from what is
// assumed. Bands are found by the path of the figure; a list goes by the key of its item, as in `limits.esc-current`.
import { clockRange, duration, figure, type Quantity, range } from '@ductwright/contract/figures'
import type { SetupStudy } from '@ductwright/contract/result'
import type { Pair } from './letter.js'

export type Study = Pick<SetupStudy, 'bands'> | null

export const bandNote = 'In brackets: the band that holds 90 cases of 100, from 5 % to 95 %.'

/** Keys of the numbers among the fields of T. */
export type NumberKey<T> = { [Key in keyof T]: T[Key] extends number | null ? Key : never }[keyof T] & string

/** Label, field and how it is written: the quantity and what to multiply by to get its unit. */
export type Row<T> = readonly [label: string, key: NumberKey<T>, quantity: Quantity, scale?: number]

/** The band of a figure, or null where none is known or nothing varies. */
export function bandOf(study: Study, path: string): readonly [number, number] | null {
  if (study === null || !Object.hasOwn(study.bands, path)) return null
  const band = study.bands[path] ?? null
  return band === null || band[0] === band[1] ? null : band
}

/** Number and unit, then the band in brackets. */
export function beside(study: Study, path: string, quantity: Quantity, value: number | null, scale = 1): string {
  return `${figure(quantity, value === null ? null : value * scale)}${bracketed(study, path, quantity, scale)}`
}

/** The band alone, in brackets behind a space; empty without one. */
export function bracketed(study: Study, path: string, quantity: Quantity, scale = 1): string {
  const band = bandOf(study, path)
  return band === null ? '' : ` (${range(quantity, band[0] * scale, band[1] * scale)})`
}

export function durationBeside(study: Study, path: string, seconds: number): string {
  const band = bandOf(study, path)
  return band === null ? duration(seconds) : `${duration(seconds)} (${clockRange(...band)})`
}

/** One pair a row; `path` is where the fields stand among the figures, empty or ending in a dot. */
export function bandedPairs<T>(rows: readonly Row<T>[], of: T, path: string, study: Study): Pair[] {
  return rows.map(([label, key, quantity, scale]) => ({
    label,
    value: beside(study, `${path}${key}`, quantity, of[key] as number | null, scale),
  }))
}
