// Pages of a list by an opaque cursor: the parameters, and the refusal of a cursor that is none of ours.
import type { Page } from '@ductwright/records/records'
import { z } from 'zod'
import { Problem } from './problems.js'

export const listing = z.object({
  limit: z.coerce.number().int().min(1).max(100).default(20),
  after: z.string().max(256).optional().describe('Cursor: `next` of the page before'),
})

export async function pageOf<Row>(
  { limit, after }: z.infer<typeof listing>,
  read: (page: { limit: number; after: string | null }) => Promise<Page<Row>>,
): Promise<Page<Row>> {
  try {
    return await read({ limit, after: after ?? null })
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    throw new Problem('invalid-query', 'The cursor in `after` is not one this service gave.')
  }
}
