// The grammar of a quantity written as text: a number, then optionally a unit; nothing else, no arithmetic. It runs before
// any library sees the text. The decimal sign may be a point or a comma; thousands are never grouped, and a comma that
// could be either is refused instead of guessed.

const NUMBER = String.raw`[+-]?(?:\d{1,15}(?:[.,]\d{1,15})?|[.,]\d{1,15})(?:[eE][+-]?\d{1,4})?`
const SYMBOL = String.raw`[A-Za-zµμΩ°º℃℉%]{1,15}(?:\^?[23]|[²³])?`
const UNIT = `${SYMBOL}(?:[/*·]${SYMBOL}){0,2}`
const WRITTEN = new RegExp(`^(${NUMBER})[ \\u00a0\\u202f]{0,2}(${UNIT})?$`)
const LONGEST = 60

export type Written =
  | { readonly kind: 'read'; readonly value: number; readonly unit: string }
  | { readonly kind: 'not-a-quantity' }
  | { readonly kind: 'ambiguous'; readonly readings: readonly [string, string] }

/** Both readings of `1,200`, or null when only one makes sense (`0,250` and `7,5` group no thousands). */
export function commaReadings(number: string): readonly [string, string] | null {
  const grouped = /^([+-]?)([1-9]\d{0,2}),(\d{3})$/.exec(number)
  return grouped ? [`${grouped[1]}${grouped[2]}${grouped[3]}`, `${grouped[1]}${grouped[2]}.${grouped[3]}`] : null
}

/** Reads the number of a text; the value may be infinite, which the caller refuses. */
export function readNumber(number: string): number {
  return Number(number.replace(',', '.'))
}

export function readWritten(text: string): Written {
  const neat = text.length > LONGEST ? '' : text.replace('\u2212', '-').trim()
  const match = WRITTEN.exec(neat)
  if (!match) return { kind: 'not-a-quantity' }
  const [, number = '', unit = ''] = match
  const readings = commaReadings(number)
  if (readings) return { kind: 'ambiguous', readings }
  return { kind: 'read', value: readNumber(number), unit }
}
