// The published schemas: they describe what the reader takes, their defaults are the real ones, no reference dangles.
import { schemasByName, standaloneSchema } from '@ductwright/contract/json-schema'
import { parseRequest } from '@ductwright/contract/parse-request'
import { parseSetup } from '@ductwright/contract/parse-setup'
import { describe, expect, it } from 'vitest'
import { least, setup } from './sample-requests.js'

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly default?: unknown
  readonly additionalProperties?: unknown
  readonly description?: string
}

const schemas = schemasByName('#/components/schemas/')

/** A value with every documented default written out. */
function spelledOut(schema: Schema, value: unknown): unknown {
  if (schema.properties === undefined || typeof value !== 'object' || value === null) return value
  const filled: Record<string, unknown> = { ...value }
  for (const [name, property] of Object.entries(schema.properties)) {
    if (filled[name] === undefined && property.default !== undefined) filled[name] = property.default
    if (filled[name] !== undefined) filled[name] = spelledOut(property, filled[name])
  }
  return filled
}

function* walk(value: unknown): Generator<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null) return
  if (!Array.isArray(value)) yield value as Record<string, unknown>
  for (const child of Object.values(value)) yield* walk(child)
}

describe('the schema of requests', () => {
  it('documents the defaults that the reader fills in', () => {
    const request = spelledOut(schemas['SweepRequest'] as Schema, least) as Record<string, Record<string, unknown>>
    expect(request['profile']?.['flight_time_min']).toBe(4)
    expect(request['sweep']?.['resolution']).toEqual({ speed_km_h: 2, flight_time_s: 5, cost: 5, margin: 0.02 })
    expect(parseRequest(request)).toEqual(parseRequest(least))
  })

  it('documents the defaults of a setup request too', () => {
    const single = { airframe: { id: 'jet-one' }, setup }
    expect(parseSetup(spelledOut(schemas['SetupRequest'] as Schema, single))).toEqual(parseSetup(single))
  })

  it('requires what the reader requires', () => {
    expect((schemas['SweepRequest'] as Schema).required).toEqual(['target', 'airframe'])
    expect((schemas['SetupRequest'] as Schema).required).toEqual(['airframe', 'setup'])
  })

  it('says of every field what it means', () => {
    const request = schemas['SweepRequest'] as Schema
    for (const [name, property] of Object.entries(request.properties ?? {})) {
      expect(property.description, name).toMatch(/\w+/)
    }
    const limits = request.properties?.['limits']?.properties?.['stall_speed_km_h']
    expect(limits?.description).toBe('Highest stall speed. From 20 km/h to 200 km/h.')
  })

  it('allows numbers and texts for a quantity, with the limits of the number', () => {
    const { properties } = schemas['SweepRequest'] as Schema
    expect(properties?.['field']?.properties?.['elevation_m']).toMatchObject({
      anyOf: [{ type: 'number', minimum: -430, maximum: 5000 }, { type: 'string' }],
      default: 0,
    })
    const given = properties?.['airframe']?.properties?.['given']
    expect(given?.properties?.['span_mm']).toMatchObject({ type: 'number', minimum: 300, maximum: 4000 })
  })
})

describe('every schema', () => {
  it('refers only to schemas that are there', () => {
    const references = [...walk(schemas)].flatMap((part) => (typeof part['$ref'] === 'string' ? [part['$ref']] : []))
    expect(references.length).toBeGreaterThan(20)
    for (const reference of references) expect(schemas).toHaveProperty(reference.split('/').at(-1)!)
  })

  it('refuses unknown fields wherever it names fields', () => {
    const objects = [...walk(schemas)].filter((part) => part['type'] === 'object' && part['properties'] !== undefined)
    expect(objects.length).toBeGreaterThan(30)
    for (const object of objects) expect(object['additionalProperties']).toBe(false)
  })

  it('stands alone with its parts in $defs, as 2020-12', () => {
    const alone = standaloneSchema('Result')
    expect(alone).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', $ref: '#/$defs/Result' })
    for (const part of walk(alone)) {
      if (typeof part['$ref'] === 'string') expect(part['$ref']).toMatch(/^#\/\$defs\/\w+$/)
    }
    expect(alone['$defs']).toHaveProperty('Member')
  })

  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(schemas))).toEqual(schemas)
  })
})
