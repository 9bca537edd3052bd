// Rules for text on its way into the store. Postgres holds every character but NUL. Where the bytes matter a NUL is the
// caller's mistake; in words for people (titles, causes) it is replaced, so that reporting a fault cannot itself fail.

import { createHash } from 'node:crypto'

const longestMessage = 4_000

/** For bodies, results, fronts, mails: stored byte for byte. */
export function exact(field: string, text: string): string {
  if (text.includes('\0')) throw new RangeError(`${field}: must not contain the character NUL`)
  return text
}

/** For words to people. */
export function readable(text: string): string {
  return text.replaceAll('\0', '\uFFFD').slice(0, longestMessage)
}

export function sha256(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex')
}

/** Identifiers arrive from outside, in addresses: anything that is not one of ours is simply unknown. */
export function isId(text: string): boolean {
  return /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/.test(text)
}
