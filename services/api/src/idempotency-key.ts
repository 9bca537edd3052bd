// The header that makes a repeated call one call, and how its faults are told. Bodies are judged by the routes themselves,
// which collect every fault; their schemas only describe them.
import { z } from 'zod'
import { Problem } from './problems.js'

export const idempotencyHeaders = z.object({
  'idempotency-key': z
    .string()
    .regex(/^[\x21-\x7e]{1,128}$/, 'must be 1 to 128 printable characters without spaces')
    .optional()
    .describe('Repeating a call with the same key and body gives the first one back'),
})

/** For the validatorCompiler of a route. */
export const bodyJudgedByRoute = ({ schema, httpPart }: { schema: unknown; httpPart?: string | undefined }) =>
  httpPart === 'body' ? (value: unknown) => ({ value }) : validate(schema as z.ZodType)

export const keyReused = (): Problem =>
  new Problem('key-reused', 'This Idempotency-Key was used before with another body.')

const validate = (schema: z.ZodType) => (value: unknown) => {
  const read = schema.safeParse(value)
  if (read.success) return { value: read.data as unknown }
  const faults = read.error.issues.map((issue) => {
    const pointer = `/${issue.path.join('/')}`
    return { pointer, rule: 'header', value: '', message: `The header ${issue.path.join('.')} ${issue.message}.` }
  })
  return { error: new Problem('invalid-query', faults.map((fault) => fault.message).join(' '), { faults }) }
}
