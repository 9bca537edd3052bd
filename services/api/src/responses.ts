// Response schemas shared by routes, and how a route declares its refusals.
import { z } from 'zod'
import { type ProblemKey, problemKinds } from './problems.js'

const fault = z.object({
  pointer: z.string().describe('JSON Pointer (RFC 6901) of the field'),
  rule: z.string().describe('Key of the rule that is broken'),
  value: z.string().describe('The value as sent, shortened'),
  message: z.string().describe('One sentence: what was found, what is allowed, the cure'),
  file: z.string().optional().describe('Of a catalogue: the table'),
  line: z.number().int().optional().describe('Of a catalogue sent as files: the line, counted from 1'),
  column: z.string().optional().describe('Of a catalogue: the column'),
})

const problem = z
  .object({
    type: z.string().describe('URI reference to a heading of the problems page'),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    instance: z.string(),
    request_id: z.string(),
    faults: z.array(fault).optional(),
  })
  .describe('Problem details (RFC 9457)')

/** Declares the problems a route can answer with, by status. */
export function refusals(...keys: readonly ProblemKey[]): Record<number, unknown> {
  const byStatus = new Map<number, string[]>()
  for (const key of keys) {
    const { status, title } = problemKinds[key]
    byStatus.set(status, [...(byStatus.get(status) ?? []), `${key}: ${title}.`])
  }
  return Object.fromEntries(
    [...byStatus].map(([status, lines]) => [
      status,
      { description: lines.join(' '), content: { 'application/problem+json': { schema: problem } } },
    ]),
  )
}

/** Ways in which a question that is answered at once, by the catalogue in use, can be refused. */
export const refusalsAtOnce = refusals(
  'broken-json',
  'body-too-large',
  'wrong-content-type',
  'invalid-request',
  'too-many-requests',
  'store-unavailable',
  'no-catalogue',
)

/** A reply whose bytes were made elsewhere and are sent as they are. */
export const stored = (contentType: string, description: string): unknown => ({
  description,
  content: { [contentType]: { schema: z.string().describe(description) } },
})

/** JSON made by the route itself and sent as bytes. */
export const described = (schema: z.ZodType, description: string): unknown => ({
  description,
  content: { 'application/json': { schema } },
})

/** The reply to a client that holds the current representation already. */
export const unchanged = stored('text/plain', 'Not changed since the tag the client sent; no body')
