// The OpenAPI document: routes describe themselves, and the contract's schemas stand in it once, by name.
import { type SchemaName, schemasByName } from '@ductwright/contract/json-schema'
import { requestSchema } from '@ductwright/contract/parse-request'
import { setupSchema } from '@ductwright/contract/parse-setup'
import { receiptSchema, resultSchema, setupReportSchema } from '@ductwright/contract/result-schema'
import { understoodRequest as understoodSchema } from '@ductwright/contract/understood-schema'
import type { FastifyDynamicSwaggerOptions } from '@fastify/swagger'
import { jsonSchemaTransform } from 'fastify-type-provider-zod'
import type { z } from 'zod'

/** A copy that the document refers to by name instead of repeating it. */
const named = <Schema extends z.ZodType>(id: SchemaName, schema: Schema): Schema => schema.meta({ id }) as Schema

export const sweepRequest = named('SweepRequest', requestSchema)
export const setupRequest = named('SetupRequest', setupSchema)
export const understoodRequest = named('UnderstoodRequest', understoodSchema)
export const result = named('Result', resultSchema)
export const setupReport = named('SetupReport', setupReportSchema)
export const receipt = named('Receipt', receiptSchema)

type Document = Parameters<typeof jsonSchemaTransform>[0]

/** The transform marks schemas of bodies as inputs; the contract names them without. */
function transform(document: Document): ReturnType<typeof jsonSchemaTransform> {
  const { schema, url } = jsonSchemaTransform(document)
  if (schema?.body === undefined) return { schema, url } as ReturnType<typeof jsonSchemaTransform>
  const body = JSON.stringify(schema.body).replace(/(#\/components\/schemas\/\w+?)Input"/g, '$1"')
  return { schema: { ...schema, body: JSON.parse(body) as unknown }, url }
}

export const openApiOptions: FastifyDynamicSwaggerOptions = {
  openapi: {
    openapi: '3.1.0',
    info: {
      title: 'Ductwright',
      version: '1',
      description: 'What do I need for X km/h? Post a request, follow it, read the ranked answer.',
    },
    components: { schemas: schemasByName('#/components/schemas/') as never },
  },
  transform: transform as never,
}
