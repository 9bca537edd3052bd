// Ends mail at the wish of its reader, named by the hash of the token in the mail's link. Nothing here needs an account.

import type { MailRecords } from './mail-records.js'
import { dropWaiting, suppress } from './recipients.js'
import { clock, type Database, type Session } from './tables.js'
import { transact } from './transact.js'

type Unsubscribing = Pick<MailRecords, 'subscription' | 'unsubscribe'>

export function unsubscribing(db: Database): Unsubscribing {
  return {
    async subscription(hash) {
      const mail = await mailOf(db, hash)
      if (mail === null) return null
      return { title: mail.title ?? '', standingId: mail.standing_id }
    },

    unsubscribe: (hash, scope) =>
      transact(db, async (transaction) => {
        const mail = await mailOf(transaction, hash)
        if (mail === null) return false
        if (scope === 'all' || mail.standing_id === null) await endAll(transaction, mail.address)
        else await endStanding(transaction, mail.standing_id)
        return true
      }),
  }
}

export async function mailOf(session: Session, unsubscribeHash: string) {
  if (unsubscribeHash.includes('\0')) return null
  const row = await session
    .selectFrom('ductwright.outbox as mail')
    .leftJoin('ductwright.requests as request', 'request.id', 'mail.request_id')
    .leftJoin('ductwright.batches as batch', 'batch.id', 'mail.batch_id')
    .select(['mail.address', 'request.standing_id'])
    .select((of) => of.fn.coalesce('request.title', 'batch.title').as('title'))
    .where('mail.unsubscribe_hash', '=', unsubscribeHash)
    .executeTakeFirst()
  return row ?? null
}

async function endAll(session: Session, address: string): Promise<void> {
  await endWhere(session, 'address', address)
  await dropWaiting(session, address)
  await suppress(session, address, 'unsubscribed')
}

async function endStanding(session: Session, id: string): Promise<void> {
  await endWhere(session, 'id', id)
  await session
    .updateTable('ductwright.outbox')
    .set({ state: 'suppressed', due_at: clock })
    .where('state', 'in', ['held', 'pending'])
    .where('kind', '<>', 'confirmation')
    .where('request_id', 'in', (of) => of.selectFrom('ductwright.requests').select('id').where('standing_id', '=', id))
    .execute()
}

async function endWhere(session: Session, column: 'address' | 'id', value: string): Promise<void> {
  await session
    .updateTable('ductwright.standing_requests')
    .set({ state: 'paused', unsubscribed: true })
    .where(column, '=', value)
    .where('state', '<>', 'deleted')
    .execute()
}
