// Options of a rule over several fields of one object, or several entries of one list, such as "one or the other, not
// both". It is judged even while single fields have faults of their own, so it must bear with values of any kind.
import type { z } from 'zod'

function isKind(value: unknown, kind: 'object' | 'list'): boolean {
  return typeof value === 'object' && value !== null && Array.isArray(value) === (kind === 'list')
}

/** Options for `.refine(...)`; the fault is shown at `path`. */
export function crossRule(
  rule: string,
  path: readonly string[],
  message: string,
  kind: 'object' | 'list' = 'object',
): z.core.$ZodCustomParams {
  return { path: [...path], error: message, params: { rule }, when: ({ value }) => isKind(value, kind) }
}
