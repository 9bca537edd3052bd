// The contract as JSON Schema (2020-12), which OpenAPI 3.1 takes as it is: requests as they are written, answers as they
// are given. Named parts are referred to instead of repeated; where the references point is up to the caller.
import { z } from 'zod'
import { requestSchema } from './parse-request.js'
import { setupSchema } from './parse-setup.js'
import {
  member,
  pointFigures,
  receiptSchema,
  resultSchema,
  setupFigures,
  setupReportSchema,
  setupStudy,
} from './result-schema.js'
import { chosenSetup, understoodRequest, understoodSetup } from './understood-schema.js'

export type JsonSchema = Readonly<Record<string, unknown>>

const written = {
  SweepRequest: requestSchema,
  SetupRequest: setupSchema,
} as const

const given = {
  Result: resultSchema,
  SetupReport: setupReportSchema,
  Receipt: receiptSchema,
  Member: member,
  SetupFigures: setupFigures,
  SetupStudy: setupStudy,
  PointFigures: pointFigures,
  SetupChoice: chosenSetup,
  UnderstoodRequest: understoodRequest,
  UnderstoodSetup: understoodSetup,
} as const

export type SchemaName = keyof typeof written | keyof typeof given

type Context = Parameters<NonNullable<z.core.ToJSONSchemaParams['override']>>[0]

/** A table cell takes text before a number; in JSON the number alone is documented. */
function describeCell({ zodSchema, jsonSchema }: Context): void {
  const { def } = zodSchema._zod
  if (def.type !== 'pipe' || def.in._zod.def.type !== 'transform') return
  const { $schema, ...cell } = z.toJSONSchema(def.out, { io: 'input' })
  Object.assign(jsonSchema, cell)
}

function described(schemas: Readonly<Record<string, z.ZodType>>, io: 'input' | 'output', refRoot: string) {
  const registry = z.registry<{ id: string }>()
  for (const [id, schema] of Object.entries(schemas)) registry.add(schema, { id })
  return z.toJSONSchema(registry, {
    io,
    uri: (id) => `${refRoot}${id}`,
    unrepresentable: 'any',
    override: describeCell,
  }).schemas
}

function withoutHead(schema: z.core.JSONSchema.BaseSchema): JsonSchema {
  const { $schema, $id, ...rest } = schema
  return rest
}

/** Every schema by name; references read `refRoot` + name, such as `#/components/schemas/Member`. */
export function schemasByName(refRoot: string): Readonly<Record<string, JsonSchema>> {
  const all = { ...described(written, 'input', refRoot), ...described(given, 'output', refRoot) }
  return Object.fromEntries(Object.entries(all).map(([name, schema]) => [name, withoutHead(schema)]))
}

/** One schema on its own, with the parts it refers to in `$defs`. */
export function standaloneSchema(name: SchemaName): JsonSchema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $ref: `#/$defs/${name}`,
    $defs: schemasByName('#/$defs/'),
  }
}
