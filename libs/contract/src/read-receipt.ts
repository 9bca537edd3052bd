// Reads the receipt that is kept beside an answer. Its form changes more readily than that of the answer, and an answer
// must stay readable without it: a receipt of another form is none.
import type { Receipt } from './result.js'
import { receiptSchema } from './result-schema.js'

/** null where the receipt is of an earlier release. */
export function readReceipt(text: string): Receipt | null {
  const read = receiptSchema.safeParse(parsed(text))
  return read.success ? read.data : null
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
