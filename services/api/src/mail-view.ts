// A mail of the outbox as the API shows it: its fate and its identity, never its address or its words.
import type { MailRow } from '@ductwright/records/mail-records'
import { z } from 'zod'

export const mailView = z.object({
  id: z.string(),
  kind: z.enum(['answer', 'confirmation', 'change', 'trouble', 'batch']),
  state: z
    .enum(['held', 'pending', 'sending', 'accepted', 'written', 'failed', 'unknown', 'suppressed'])
    .describe('What the states mean stands in docs/job-states.md'),
  attempts: z.number().int(),
  last_error: z.string().nullable(),
  message_id: z.string(),
  created: z.string(),
  due: z.string().describe('When the next attempt is due, or when the last one ended'),
})

export const shownMail = (row: MailRow): z.infer<typeof mailView> => ({
  id: row.id,
  kind: row.kind,
  state: row.state,
  attempts: row.attempts,
  last_error: row.lastError,
  message_id: row.messageId,
  created: row.createdAt,
  due: row.dueAt,
})
