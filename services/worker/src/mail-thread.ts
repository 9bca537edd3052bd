// Runs inside a compute thread: composes the mail of an answer. Drawing its charts takes seconds of computing, and the
// modules for it are loaded only in a thread that composes.
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeMail, type Envelope, type Message } from '@ductwright/report/mime'

/** `result` is the canonical JSON of an answer. */
export function compose(task: {
  readonly result: string
  readonly receipt: Receipt
  readonly envelope: Envelope
}): Promise<Message> {
  return composeMail(JSON.parse(task.result) as Result, task.envelope, task.receipt)
}
