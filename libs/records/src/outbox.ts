// The outbox: mails rendered once and kept until their fate is known. A lease with a rising token makes one sender the
// only one to settle an attempt.
//
// held --address confirmed--> pending --lease--> sending --settled--> accepted | written | failed | unknown | pending
// held, pending, sending --its reader wants none, or the mailbox refuses--> suppressed; sending --day's share--> pending.
// sending --lease runs out--> unknown. From unknown a mail is sent once more, with the same bytes and Message-ID, and a
// second doubt is final: the promise is never to lose a mail silently, and never to send it in a loop.

import { type Selectable, sql } from 'kysely'
import type { AnswerMail, MailKind, MailLease, MailOwner, MailRecords, MailRow, MailState } from './mail-records.js'
import { admit, dropWaiting, suppress, suppressionOf } from './recipients.js'
import { clock, type Database, fromNow, type OutboxTable, type Session } from './tables.js'
import { exact, isId, readable } from './texts.js'
import { transact } from './transact.js'

type Outbox = Pick<MailRecords, 'leaseMail' | 'settleMail' | 'mailsOf' | 'mailsOfStanding' | 'mailOfBatch'>
type Settlement = Parameters<MailRecords['settleMail']>[3]

export type NewMail = AnswerMail & {
  readonly owner: MailOwner
  readonly kind: MailKind
  readonly answerHash: string | null
}

/** More than anybody sends in a day. */
const noLimit = 1_000_000_000

const settledStates: readonly MailState[] = ['accepted', 'written', 'failed', 'unknown', 'pending']

export function outbox(db: Database): Outbox {
  return {
    leaseMail: (id, leaseMs, { perDay } = { perDay: noLimit }) =>
      transact(db, async (transaction) => {
        if (id.includes('\0')) return null
        await doubtExpired(transaction, id)
        await releaseConfirmed(transaction, id)
        const leased = await lease(transaction, id, leaseMs)
        return leased === null ? null : admitted(transaction, leased, perDay)
      }),

    settleMail: (id, token, state, detail) =>
      transact(db, async (transaction) => {
        const row = await transaction
          .updateTable('ductwright.outbox')
          .set(settlement(state, detail))
          .where('id', '=', exact('id', id))
          .where('token', '=', token)
          // A late but certain outcome is better than a doubt, as long as nobody has taken the mail since.
          .where('state', 'in', ['sending', 'unknown'])
          .returning('address')
          .executeTakeFirst()
        if (row !== undefined && detail.bounced === true) {
          await dropWaiting(transaction, row.address)
          await suppress(transaction, row.address, 'bounced')
        }
        return row !== undefined
      }),

    mailsOf: async (requestId) =>
      isId(requestId)
        ? (await mails(db).where('request_id', '=', requestId).orderBy('created_at').orderBy('id').execute()).map(
            asMail,
          )
        : [],

    async mailsOfStanding(standingId, limit) {
      if (!isId(standingId)) return []
      const rows = await mails(db)
        .where('request_id', 'in', (of) =>
          of.selectFrom('ductwright.requests').select('id').where('standing_id', '=', standingId),
        )
        .orderBy('created_at', 'desc')
        .orderBy('id')
        .limit(limit)
        .execute()
      return rows.map(asMail)
    },

    async mailOfBatch(batchId) {
      if (!isId(batchId)) return null
      const row = await mails(db).where('batch_id', '=', batchId).where('kind', '=', 'batch').executeTakeFirst()
      return row === undefined ? null : asMail(row)
    },
  }
}

const mails = (session: Session) => session.selectFrom('ductwright.outbox').select(mailColumns)

/** A first attempt is counted and may have to wait; a mail to someone who wants none is not sent at all. */
async function admitted(session: Session, leased: MailLease, perDay: number): Promise<MailLease | null> {
  const { id, address, attempts } = leased.row
  if (attempts > 1) {
    const suppressed = await suppressionOf(session, address)
    return suppressed === null ? leased : putBack(session, id, { state: 'suppressed', due_at: clock })
  }
  const admission = await admit(session, address, perDay)
  if (admission.admitted) return leased
  if (admission.suppressed !== null) return putBack(session, id, { state: 'suppressed', due_at: clock })
  return putBack(session, id, { state: 'pending', due_at: fromNow(admission.untilMs) })
}

async function putBack(
  session: Session,
  id: string,
  to: { readonly state: MailState; readonly due_at: typeof clock },
): Promise<null> {
  await session
    .updateTable('ductwright.outbox')
    .set({ ...to, attempts: sql`attempts - 1`, lease_until: null })
    .where('id', '=', id)
    .execute()
  return null
}

/** Writes a mail; `held` until its address is confirmed when that is required. A second mail for an answer is dropped. */
export async function addToOutbox(
  session: Session,
  mail: NewMail,
  { requireConfirmed }: { readonly requireConfirmed: boolean },
): Promise<void> {
  const held = requireConfirmed && !(await isConfirmedNow(session, mail.address))
  const suppressed = (await suppressionOf(session, mail.address)) !== null
  await session
    .insertInto('ductwright.outbox')
    .values({
      id: exact('id', mail.id),
      request_id: 'requestId' in mail.owner ? mail.owner.requestId : null,
      batch_id: 'batchId' in mail.owner ? mail.owner.batchId : null,
      kind: mail.kind,
      address: exact('address', mail.address),
      subject: readable(mail.subject),
      message_id: exact('messageId', mail.messageId),
      mime: exact('mime', mail.mime),
      answer_hash: mail.answerHash,
      unsubscribe_hash: mail.unsubscribeHash ?? null,
      state: suppressed ? 'suppressed' : held ? 'held' : 'pending',
    })
    .onConflict((conflict) => conflict.columns(['request_id', 'answer_hash']).doNothing())
    .execute()
}

/** Shared lock: a confirmation that arrives meanwhile waits, and then releases the mail written here. */
async function isConfirmedNow(session: Session, address: string): Promise<boolean> {
  const row = await session
    .selectFrom('ductwright.addresses')
    .select('state')
    .where('address', '=', exact('address', address))
    .forShare()
    .executeTakeFirst()
  return row?.state === 'confirmed'
}

/** Nobody reported how the attempt ended: it may or may not have gone out. */
export async function doubtExpired(session: Session, id: string | null): Promise<void> {
  const expired = session
    .selectFrom('ductwright.outbox')
    .select('id')
    .where('state', '=', 'sending')
    .where('lease_until', '<', clock)
  await session
    .updateTable('ductwright.outbox')
    .set({ state: 'unknown', lease_until: null, last_error: 'the sender ended without reporting the outcome' })
    .where('id', 'in', unlocked(id === null ? expired : expired.where('id', '=', id)))
    .execute()
}

/** Catches a mail that was written as held while its address was being registered and confirmed. */
export async function releaseConfirmed(session: Session, id: string | null): Promise<void> {
  const held = session
    .selectFrom('ductwright.outbox')
    .select('id')
    .where('state', '=', 'held')
    .where('address', 'in', (of) =>
      of.selectFrom('ductwright.addresses').select('address').where('state', '=', 'confirmed'),
    )
  await session
    .updateTable('ductwright.outbox')
    .set({ state: 'pending', due_at: clock })
    .where('id', 'in', unlocked(id === null ? held : held.where('id', '=', id)))
    .execute()
}

/** Rows that another transaction is changing are left to it: two sweepers over many rows cannot lock each other out. */
function unlocked<Query extends { forUpdate(): { skipLocked(): Query } }>(query: Query): Query {
  return query.forUpdate().skipLocked()
}

async function lease(session: Session, id: string, leaseMs: number): Promise<MailLease | null> {
  if (!(Number.isFinite(leaseMs) && leaseMs > 0)) {
    throw new RangeError(`leaseMs: must be a finite number above 0, is ${leaseMs}`)
  }
  const row = await session
    .updateTable('ductwright.outbox')
    .set({
      state: 'sending',
      token: sql`token + 1`,
      attempts: sql`attempts + 1`,
      lease_until: fromNow(leaseMs),
      leased_after_doubt: sql`leased_after_doubt or state = 'unknown'`,
    })
    .where('id', '=', id)
    .where(isDue)
    .returning([...mailColumns, 'mime', 'token'])
    .executeTakeFirst()
  return row === undefined ? null : { row: asMail(row), mime: row.mime, token: row.token }
}

/** Due now: waiting and its time has come, or in doubt for the first time. */
export const isDue = sql<boolean>`(
  (state = 'pending' and due_at <= clock_timestamp()) or (state = 'unknown' and not leased_after_doubt)
)`

function settlement(state: MailState, { error, retryAt, bounced = false }: Settlement) {
  if (!settledStates.includes(state)) throw new RangeError(`state: an attempt cannot end as ${state}`)
  if (retryAt !== null && state !== 'pending') throw new RangeError(`retryAt: only with pending, not with ${state}`)
  if (bounced && state !== 'failed') throw new RangeError(`bounced: only with failed, not with ${state}`)
  return {
    state,
    lease_until: null,
    last_error: error === null ? null : readable(error),
    due_at: retryAt === null ? clock : sql<Date>`${retryAt}::timestamptz`,
  }
}

const mailColumns = [
  'id',
  'request_id',
  'batch_id',
  'kind',
  'address',
  'subject',
  'message_id',
  'state',
  'attempts',
  'last_error',
  'created_at',
  'due_at',
] as const

function asMail(row: Pick<Selectable<OutboxTable>, (typeof mailColumns)[number]>): MailRow {
  return {
    id: row.id,
    requestId: row.request_id,
    batchId: row.batch_id,
    kind: row.kind,
    address: row.address,
    subject: row.subject,
    messageId: row.message_id,
    state: row.state,
    attempts: row.attempts,
    lastError: row.last_error,
    createdAt: row.created_at.toISOString(),
    dueAt: row.due_at.toISOString(),
  }
}
