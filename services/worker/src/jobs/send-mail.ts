// Sends one mail of the outbox: takes it under a lease, hands it over, records what became of it. Waiting for another try
// is a time in the outbox and not a sleeping job; the reconciler enqueues it when it is due. An unknown mail goes out once
// more with the same id and bytes.
import type { MailRow, MailState } from '@ductwright/records/records'
import type { JobParts } from '../deps.js'
import type { DeliveryOutcome } from '../mail/delivery.js'

interface Settlement {
  readonly state: MailState
  readonly error: string | null
  readonly retryAt: string | null
  readonly bounced?: boolean
}

export async function sendMail(parts: JobParts, mailId: string, signal: AbortSignal): Promise<void> {
  const { records, settings, delivery } = parts
  const leased = await records.leaseMail(mailId, settings.mailTimeoutMs * 3, { perDay: settings.mailsPerAddressDay })
  if (leased === null) return
  const { row, mime, token } = leased
  const log = parts.log.child({ request: row.requestId, batch: row.batchId, mail: row.id })
  const outcome = await delivery.deliver({ id: row.id, from: settings.mailFrom, to: row.address, mime }, signal)
  const { state, ...detail } = settlement(parts, row, outcome)
  const kept = await records.settleMail(row.id, token, state, detail)
  const { error, bounced } = detail
  log.info({ state, bounced, attempts: row.attempts, error, kept }, 'mail settled')
  if (state === 'unknown' && kept) await sendMail(parts, mailId, signal)
}

function settlement(parts: JobParts, row: MailRow, outcome: DeliveryOutcome): Settlement {
  switch (outcome.state) {
    case 'accepted':
    case 'written':
      return { state: outcome.state, error: null, retryAt: null }
    case 'refused':
      return { state: 'failed', error: outcome.reason, retryAt: null, bounced: outcome.mailbox }
    case 'unknown':
      return { state: 'unknown', error: outcome.reason, retryAt: null }
    case 'later':
      return laterOf(parts, row, outcome.reason)
  }
}

function laterOf({ settings }: JobParts, row: MailRow, reason: string): Settlement {
  const { mailAttemptsMax, mailBackoffMs, mailBackoffMaxMs } = settings
  if (row.attempts >= mailAttemptsMax) {
    return { state: 'failed', error: `given up after ${row.attempts} attempts: ${reason}`, retryAt: null }
  }
  const wait = Math.min(mailBackoffMaxMs, mailBackoffMs * 2 ** Math.max(0, row.attempts - 1))
  return { state: 'pending', error: reason, retryAt: new Date(Date.now() + wait).toISOString() }
}
