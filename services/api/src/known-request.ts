// Finds a request by the id in a path. Garbage never reaches the store, and is answered like an id nobody has.
import type { Records, RequestRow } from '@ductwright/records/records'
import { z } from 'zod'
import { Problem } from './problems.js'

export const idParams = z.object({ id: z.string().describe('Id given by the reply to POST /v1/requests') })

export async function knownRequest(records: Records, id: string): Promise<RequestRow> {
  const row = /^[A-Za-z0-9_-]{1,64}$/.test(id) ? await records.getRequest(id) : null
  if (row === null) throw new Problem('not-found', 'No request has this id.')
  return row
}
