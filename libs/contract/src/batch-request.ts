// Many questions in one submission: a list of requests, or one request varied along axes (airframes, target speeds, clean-up
// work, budgets), every combination of them an item. Reads into ordinary requests, each judged by the ordinary rules; a
// fault names its item. The items have no address: the one of the batch gets one summary.
import { z } from 'zod'
import { address } from './address.js'
import { crossRule } from './cross-rule.js'
import { type Fault, InputError } from './fault.js'
import { readBySchema } from './issue-faults.js'
import { ownPartsOf } from './own-parts.js'
import { parseRequest } from './parse-request.js'
import type { SweepRequest } from './request.js'
import { title } from './text.js'

/** Each item is a sweep of its own. */
export const BATCH_ITEMS_MAX = 200

export interface BatchItem {
  /** The item's request as JSON, to be stored and read again. */
  readonly json: Readonly<Record<string, unknown>>
  readonly understood: SweepRequest
  readonly ownParts: string | null
}

export interface BatchRequest {
  readonly title: string
  readonly address: string | null
  readonly items: readonly BatchItem[]
}

type Json = Readonly<Record<string, unknown>>

const object = z.record(z.string(), z.unknown())
const axis = (entry: z.ZodType, about: string) =>
  z.array(entry).min(1).max(BATCH_ITEMS_MAX).optional().meta({ description: about })

const axes = z
  .strictObject({
    airframes: axis(z.union([z.string(), object]), 'Ids, or airframe sections as in a request.'),
    targets_km_h: axis(z.union([z.number(), z.string()]), 'Speeds to reach.'),
    treatments: axis(z.array(z.string()), 'Lists of clean-up work; an empty list is none.'),
    budgets: axis(z.union([z.number(), z.string(), z.null()]), 'Sums; null is no limit.'),
  })
  .meta({ description: 'Every combination of the entries given becomes an item.' })

export const batchSchema = z
  .strictObject({
    title: title.optional(),
    address: address.nullable().prefault(null).meta({ description: 'Where the summary is mailed; null: nowhere.' }),
    items: z
      .array(object)
      .min(1)
      .max(BATCH_ITEMS_MAX)
      .optional()
      .meta({ description: 'Requests as for POST /v1/requests, without an address.' }),
    base: object.optional().meta({ description: 'A request without an address; what the axes do not vary.' }),
    axes: axes.optional(),
  })
  .refine(
    (batch) => (batch.items === undefined) !== (batch.base === undefined),
    crossRule('exclusive', ['items'], 'must be given, or base with axes, and not both'),
  )
  .refine(
    (batch) => (batch.base === undefined) === (batch.axes === undefined),
    crossRule('exclusive', ['axes'], 'must be given together with base'),
  )

/** Reads a batch; throws InputError with the faults of the batch, or of every item. */
export function parseBatch(json: unknown): BatchRequest {
  const read = readBySchema(batchSchema, json, 'batch')
  const wanted = read.items ?? product(read.base ?? {}, read.axes ?? {})
  if (wanted.length > BATCH_ITEMS_MAX) throw tooMany(wanted.length)
  return { title: read.title ?? `${wanted.length} requests`, address: read.address, items: itemsOf(wanted) }
}

/** Airframes outermost, budgets innermost: items of one staircase stand together. */
function product(base: Json, along: z.output<typeof axes>): Json[] {
  const unvaried = [null]
  const items: Json[] = []
  for (const airframe of along.airframes ?? unvaried)
    for (const speed of along.targets_km_h ?? unvaried)
      for (const treatments of along.treatments ?? unvaried)
        for (const budget of along.budgets ?? [undefined]) {
          items.push({
            ...base,
            ...(airframe === null ? {} : { airframe: typeof airframe === 'string' ? { id: airframe } : airframe }),
            ...(speed === null ? {} : { target: { ...section(base, 'target'), speed_km_h: speed } }),
            ...(treatments === null ? {} : { treatments }),
            ...(budget === undefined ? {} : { budget }),
          })
          if (items.length > BATCH_ITEMS_MAX) throw tooMany(sizeOf(along))
        }
  return items
}

function section(json: Json, name: string): Json {
  const value = json[name]
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Json) : {}
}

const sizeOf = (along: z.output<typeof axes>): number =>
  [along.airframes, along.targets_km_h, along.treatments, along.budgets].reduce(
    (size, entries) => size * (entries?.length ?? 1),
    1,
  )

function tooMany(count: number): InputError {
  const message = `the batch has ${count} items; at most ${BATCH_ITEMS_MAX} are taken: split it, or name fewer entries on an axis`
  return new InputError('batch', [{ pointer: '/items', rule: 'length', value: String(count), message }])
}

function itemsOf(wanted: readonly Json[]): BatchItem[] {
  const faults: Fault[] = []
  const items = wanted.flatMap((json, index): BatchItem[] => {
    const understood = readItem(json, index, faults)
    return understood === null ? [] : [{ json, understood, ownParts: ownPartsOf(json) }]
  })
  if (faults.length > 0) throw new InputError('batch', distinct(faults))
  return items
}

function readItem(json: Json, index: number, faults: Fault[]): SweepRequest | null {
  if ('address' in json && json['address'] !== null) {
    const message = 'address must be left out of an item: the summary goes to the address of the batch'
    faults.push({ pointer: `/items/${index}/address`, rule: 'exclusive', value: '(given)', message })
  }
  try {
    return parseRequest(json)
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    faults.push(...error.faults.map((fault) => ({ ...fault, pointer: `/items/${index}${fault.pointer}` })))
    return null
  }
}

/** One entry on an axis spoils many items in the same words: the first of them says it. */
function distinct(faults: readonly Fault[]): Fault[] {
  const seen = new Set<string>()
  return faults.filter(({ pointer, rule, message }) => {
    const key = [pointer.replace(/^\/items\/\d+/, ''), rule, message].join('\n')
    return !seen.has(key) && seen.add(key)
  })
}
