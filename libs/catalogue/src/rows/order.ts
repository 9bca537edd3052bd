// Checks between two columns of one row.
import type * as z from 'zod'

/** Settings of a refinement that two columns must pass together; the fault is shown at the second. */
export function between(first: string, second: string, words: string) {
  return { path: [second], error: `${words} ${first}`, params: { rule: 'order' } } satisfies z.core.$ZodCustomParams
}
