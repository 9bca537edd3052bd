// One spelling of a JSON value, so that equal content has equal bytes and equal hashes: object keys in code-unit order,
// no spaces, UTF-8 when encoded. Numbers are written as ECMAScript writes them (shortest form that reads back equal).
// The idea of RFC 8785 (JSON Canonicalization Scheme); what JSON cannot hold is refused, never dropped silently.
import { createHash } from 'node:crypto'

/** The canonical text of a JSON value. Properties that are `undefined` count as absent. */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value)
  if (typeof value === 'number') return canonicalNumber(value)
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  if (typeof value === 'object') return canonicalObject(value as Readonly<Record<string, unknown>>)
  throw new RangeError(`canonicalJson: a ${typeof value} has no JSON form; use null, text, numbers, lists and objects`)
}

function canonicalNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`canonicalJson: ${value} is not finite and has no JSON form`)
  return JSON.stringify(value)
}

function canonicalObject(value: Readonly<Record<string, unknown>>): string {
  const keys = Object.keys(value).filter((key) => value[key] !== undefined)
  keys.sort(byCodeUnit)
  return `{${keys.map((key) => `${JSON.stringify(key)}:${canonicalJson(value[key])}`).join(',')}}`
}

/** Orders texts by UTF-16 code units, the same on every machine whatever its locale. */
export function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** SHA-256 of bytes, those of a text in UTF-8, in lower-case hexadecimal. FIPS 180-4. */
export function sha256Hex(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}
