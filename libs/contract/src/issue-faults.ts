// Turns what a schema found into faults that name field, rule, value and cure. Messages are worded to follow the name of
// the field ("must be from 50 km/h to 800 km/h: ..."); a schema that words its own messages is left to it.
import type { z } from 'zod'
import { type Fault, InputError, shown } from './fault.js'
import { guardJson, harmless, pointerStep } from './json-guard.js'
import { didYouMean } from './nearest-name.js'

const MOST_FAULTS = 200
/** Parts the messages of one issue over several unknown fields; no message holds it. */
const BETWEEN_KEYS = '\n'

type Issue = z.core.$ZodIssue
type RawIssue = z.core.$ZodRawIssue

const kinds: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
}

const rules: Readonly<Record<string, string>> = {
  invalid_type: 'type',
  invalid_value: 'choice',
  invalid_format: 'format',
  unrecognized_keys: 'unknown-field',
}

function sizeWords(issue: RawIssue): string {
  const limit = issue.code === 'too_big' ? `at most ${issue.maximum}` : `at least ${issue.minimum}`
  if (issue.origin === 'string') return `must have ${limit} characters`
  return issue.origin === 'array' ? `must have ${limit} entries` : `must be ${limit}`
}

function choiceWords(issue: RawIssue): string {
  const choices = (issue['values'] as readonly unknown[]).map(String)
  const near = typeof issue.input === 'string' ? didYouMean(issue.input, choices) : ''
  return `must be ${choices.map((choice) => `"${choice}"`).join(' or ')}${near}`
}

/** Field names of the object schema that raised the issue. */
function knownFields(issue: RawIssue): readonly string[] {
  const definition = (issue.inst as z.core.$ZodType | undefined)?._zod.def as Partial<z.core.$ZodObjectDef> | undefined
  return Object.keys(definition?.shape ?? {})
}

function unknownFieldWords(issue: RawIssue): string {
  const known = knownFields(issue)
  const words = (issue['keys'] as readonly string[]).map((key) => {
    const near = didYouMean(key, known)
    return `is not a field here${near || `; known are ${known.join(', ')}`}`
  })
  return words.join(BETWEEN_KEYS)
}

/** Words for what zod found by itself and no schema has worded. */
function words(issue: RawIssue): string | undefined {
  if (issue.code === 'invalid_type') return `must be ${kinds[String(issue['expected'])] ?? String(issue['expected'])}`
  if (issue.code === 'too_big' || issue.code === 'too_small') return sizeWords(issue)
  if (issue.code === 'invalid_value') return choiceWords(issue)
  return issue.code === 'unrecognized_keys' ? unknownFieldWords(issue) : undefined
}

function ruleOf(issue: Issue): string {
  const own = issue.code === 'custom' ? (issue.params?.['rule'] as unknown) : undefined
  if (typeof own === 'string') return own
  if (issue.code === 'too_big' || issue.code === 'too_small') {
    return issue.origin === 'string' || issue.origin === 'array' ? 'length' : 'range'
  }
  return rules[issue.code] ?? issue.code.replaceAll('_', '-')
}

interface Located {
  readonly path: readonly PropertyKey[]
  readonly value: unknown
}

/** Where an issue sits in what was sent: its path, cut where the sent value is no longer an object, and the value there. */
function located(json: unknown, path: readonly PropertyKey[]): Located {
  let value = json
  for (const [step, key] of path.entries()) {
    if (typeof value !== 'object' || value === null) return { path: path.slice(0, step), value }
    value = Object.hasOwn(value, key) ? (value as Record<PropertyKey, unknown>)[key] : undefined
  }
  return { path, value }
}

function pointerOf(path: readonly PropertyKey[]): string {
  return path.reduce<string>((pointer, key) => pointerStep(pointer, String(key)), '')
}

/** `speed_km_h`, `duties[2]`: the field as a person names it. */
function fieldName(path: readonly PropertyKey[], whole: string): string {
  const last = path.at(-1)
  if (last === undefined) return whole
  const isIndex = /^\d+$/.test(String(last))
  return isIndex ? `${String(path.at(-2) ?? 'entry')}[${String(last)}]` : harmless(String(last))
}

function unknownFields(issue: z.core.$ZodIssueUnrecognizedKeys): Fault[] {
  const messages = issue.message.split(BETWEEN_KEYS)
  return issue.keys.map((key, index) => ({
    pointer: pointerStep(pointerOf(issue.path), harmless(key)),
    rule: 'unknown-field',
    value: JSON.stringify(harmless(key)),
    message: `"${harmless(key)}" ${messages[index] ?? 'is not a field here'}`,
  }))
}

/** Faults of one issue: one for each unknown field, otherwise one. */
function faultsOf(issue: Issue, json: unknown, whole: string): Fault[] {
  if (issue.code === 'unrecognized_keys') return unknownFields(issue)
  const { path, value } = located(json, issue.path)
  const pointer = pointerOf(path)
  const name = fieldName(path, whole)
  if (value === undefined) {
    return [{ pointer, rule: 'required', value: 'missing', message: `${name} is missing; it ${issue.message}` }]
  }
  const got = typeof value === 'object' && value !== null ? '' : `; got ${shown(value)}`
  return [{ pointer, rule: ruleOf(issue), value: shown(value), message: `${name} ${issue.message}${got}` }]
}

/** The guard names a place by its pointer only; its message gets the field's name in front. */
function named(fault: Fault, whole: string): Fault {
  return { ...fault, message: `${fieldName(fault.pointer.split('/').slice(1), whole)} ${fault.message}` }
}

/** Guard first: where it has spoken about a field, a second fault about the same field would only repeat it. */
function together(guard: readonly Fault[], found: readonly Fault[]): Fault[] {
  const spoken = new Set(guard.map((fault) => fault.pointer))
  const forbidden = new Set(guard.filter((fault) => fault.rule === 'forbidden-key').map((fault) => fault.value))
  const repeats = (fault: Fault): boolean =>
    fault.rule === 'unknown-field' ? forbidden.has(fault.value) : spoken.has(fault.pointer) && fault.rule !== 'required'
  return [...guard, ...found.filter((fault) => !repeats(fault))]
}

function capped(faults: readonly Fault[]): readonly Fault[] {
  if (faults.length <= MOST_FAULTS) return faults
  const left = faults.length - MOST_FAULTS
  const message = `${left} more faults are not listed: correct these first`
  return [...faults.slice(0, MOST_FAULTS), { pointer: '', rule: 'more', value: String(left), message }]
}

/** Reads JSON by a schema; throws InputError with every fault found, and nothing else. `whole` names the root. */
export function readBySchema<Schema extends z.ZodType>(schema: Schema, json: unknown, whole: string): z.output<Schema> {
  const guard = guardJson(json)
  const guarded = guard.faults.map((fault) => named(fault, whole))
  if (guard.fatal) throw new InputError(whole, guarded)
  const parsed = schema.safeParse(json, { reportInput: true, error: words })
  if (parsed.success && guarded.length === 0) return parsed.data
  const found = (parsed.error?.issues ?? []).flatMap((issue) => faultsOf(issue, json, whole))
  throw new InputError(whole, capped(together(guarded, found)))
}
