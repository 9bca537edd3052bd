// What is refused in any JSON before its meaning is looked at: depth and size that could exhaust a reader, keys that reach
// into JavaScript's objects, texts that no database, mail header or terminal should receive, and values that JSON cannot
// hold. Walks with its own stack, so depth cannot overflow it.
import type { Fault } from './fault.js'

const DEEPEST = 20
const MOST_VALUES = 5_000
const LONGEST_TEXT = 500
const LONGEST_KEY = 100
const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])
// Controls, line and paragraph separators, lone surrogates, and marks that turn the direction of text around.
const UNSAFE = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u202a-\u202e\u2066-\u2069]/u

export interface GuardReport {
  readonly faults: readonly Fault[]
  /** Nothing further may be read from this value. */
  readonly fatal: boolean
}

interface Place {
  readonly value: unknown
  readonly pointer: string
  readonly depth: number
}

/** One more step of a JSON Pointer (RFC 6901). */
export function pointerStep(pointer: string, key: string | number): string {
  return `${pointer}/${String(key).replaceAll('~', '~0').replaceAll('/', '~1')}`
}

/** A text for a message: every unsafe character escaped, cut to a length that fits a line. */
export function harmless(text: string): string {
  const unsafe = new RegExp(UNSAFE.source, 'gu')
  const escaped = text.slice(0, 60).replace(unsafe, (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`)
  return text.length > 60 ? `${escaped}...` : escaped
}

function textFault(text: string, pointer: string): Fault | null {
  const value = JSON.stringify(harmless(text))
  if (text.length > LONGEST_TEXT) {
    const message = `holds a text of ${text.length} characters, allowed are ${LONGEST_TEXT}`
    return { pointer, rule: 'length', value, message }
  }
  if (!UNSAFE.test(text)) return null
  const message = 'holds a control, line-break, direction or broken character: write it on one line of plain text'
  return { pointer, rule: 'control-character', value, message }
}

function keyFault(key: string, pointer: string): Fault | null {
  const value = JSON.stringify(harmless(key))
  if (FORBIDDEN_KEYS.has(key)) {
    return { pointer, rule: 'forbidden-key', value, message: `has the key ${value}, which is never a field: remove it` }
  }
  if (key.length <= LONGEST_KEY && !UNSAFE.test(key)) return null
  const message = `has a key that is too long or holds control characters: keys have at most ${LONGEST_KEY} plain characters`
  return { pointer, rule: 'forbidden-key', value, message }
}

function scalarFault(value: unknown, pointer: string): Fault | null {
  if (typeof value === 'string') return textFault(value, pointer)
  if (typeof value !== 'number' || Number.isFinite(value)) return null
  const message = `must be a finite number; got ${value} (a number written too large to hold reads as this)`
  return { pointer, rule: 'finite', value: String(value), message }
}

/** Plain objects, lists, text, numbers, true, false, null; `undefined` counts as absent. */
function isJson(value: unknown): boolean {
  if (typeof value === 'object' && value !== null) return isPlainContainer(value)
  return typeof value !== 'bigint' && typeof value !== 'function' && typeof value !== 'symbol'
}

function isPlainContainer(value: object): boolean {
  if (Array.isArray(value)) return true
  const prototype = Object.getPrototypeOf(value) as unknown
  return prototype === null || prototype === Object.prototype
}

/** Entries of a container; keys that are faults are reported and not entered. */
function entries(place: Place, value: object, faults: Fault[]): Place[] {
  const inside: Place[] = []
  for (const key of Object.keys(value)) {
    const fault = Array.isArray(value) ? null : keyFault(key, place.pointer)
    if (fault) faults.push(fault)
    else {
      const child = (value as Record<string, unknown>)[key]
      inside.push({ value: child, pointer: pointerStep(place.pointer, key), depth: place.depth + 1 })
    }
  }
  return inside.reverse()
}

function sizeOf(value: unknown): number {
  if (Array.isArray(value)) return value.length
  return typeof value === 'object' && value !== null ? Object.keys(value).length : 0
}

/** Why nothing more may be read: too deep, too much, or not JSON at all. */
function fatalFault(place: Place, seen: number): Fault | null {
  const { value, pointer, depth } = place
  const size = sizeOf(value)
  const fault = (rule: string, message: string): Fault => ({
    pointer: rule === 'json' ? pointer : '',
    rule,
    value: 'not shown',
    message,
  })
  if (depth > DEEPEST) return fault('depth', `is nested deeper than ${DEEPEST} levels: a request needs 5`)
  if (seen + size > MOST_VALUES)
    return fault('size', `holds more than ${MOST_VALUES} values: a request needs far fewer`)
  return isJson(value)
    ? null
    : fault('json', 'holds what JSON cannot hold: send plain objects, lists, text and numbers')
}

/** Looks through a value; cheap, bounded, and never throws. */
export function guardJson(json: unknown): GuardReport {
  const faults: Fault[] = []
  const open: Place[] = [{ value: json, pointer: '', depth: 0 }]
  for (let seen = 1; open.length > 0; seen++) {
    const place = open.pop()!
    const fatal = fatalFault(place, seen + open.length)
    if (fatal) return { faults: [fatal], fatal: true }
    if (typeof place.value === 'object' && place.value !== null) open.push(...entries(place, place.value, faults))
    const fault = scalarFault(place.value, place.pointer)
    if (fault) faults.push(fault)
  }
  return { faults, fatal: false }
}
