// Erasure: what was asked, found and mailed is removed with the address, in one transaction. Workers that still compute
// find no sweep and stop. Locks are taken in the order of everywhere else: sweeps, requests, then what they belong to.

import { dropKeptFront } from './kept-fronts.js'
import type { MailRecords } from './mail-records.js'
import { forgetRecipient, suppress } from './recipients.js'
import { lockStanding } from './standing.js'
import type { StandingRecords } from './standing-records.js'
import { endSweep } from './sweeps.js'
import type { Database, Session } from './tables.js'
import { isId } from './texts.js'
import { transact } from './transact.js'
import { mailOf } from './unsubscribing.js'

type Erasure = Pick<MailRecords, 'eraseRequest' | 'eraseBatch' | 'eraseAddress'> &
  Pick<StandingRecords, 'deleteStanding'>

export function erasure(db: Database): Erasure {
  return {
    eraseRequest: (id) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        const [row] = await deleteRequests(transaction, { column: 'id', value: id })
        if (row === undefined) return false
        await forgetUnused(transaction, row.address)
        return true
      }),

    eraseBatch: (id) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        await deleteRequests(transaction, { column: 'batch_id', value: id })
        const row = await transaction
          .deleteFrom('ductwright.batches')
          .where('id', '=', id)
          .returning('address')
          .executeTakeFirst()
        await forgetUnused(transaction, row?.address ?? null)
        return row !== undefined
      }),

    deleteStanding: (id) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        await deleteRequests(transaction, { column: 'standing_id', value: id })
        return bury(transaction, id)
      }),

    eraseAddress: (unsubscribeHash) =>
      transact(db, async (transaction) => {
        const mail = await mailOf(transaction, unsubscribeHash)
        if (mail === null) return false
        await eraseAll(transaction, mail.address)
        return true
      }),
  }
}

async function eraseAll(session: Session, address: string): Promise<void> {
  await deleteRequests(session, { column: 'address', value: address })
  const standing = await idsUnder(session, 'ductwright.standing_requests', address)
  for (const id of standing) {
    await deleteRequests(session, { column: 'standing_id', value: id })
    await bury(session, id)
  }
  for (const id of await idsUnder(session, 'ductwright.batches', address)) {
    await deleteRequests(session, { column: 'batch_id', value: id })
    await session.deleteFrom('ductwright.batches').where('id', '=', id).execute()
  }
  await session.deleteFrom('ductwright.outbox').where('address', '=', address).execute()
  await session.deleteFrom('ductwright.addresses').where('address', '=', address).execute()
  // No mail of a request accepted meanwhile goes out.
  await suppress(session, address, 'unsubscribed')
}

async function idsUnder(
  session: Session,
  table: 'ductwright.standing_requests' | 'ductwright.batches',
  address: string,
): Promise<string[]> {
  const rows = await session.selectFrom(table).select('id').where('address', '=', address).orderBy('id').execute()
  return rows.map((row) => row.id)
}

/** Sweeps, shards, answers and mails go with their request. */
async function deleteRequests(
  session: Session,
  by: { readonly column: 'id' | 'standing_id' | 'batch_id' | 'address'; readonly value: string },
) {
  const open = await session
    .selectFrom('ductwright.requests')
    .select('sweep_id')
    .where(by.column, '=', by.value)
    .where('state', 'in', ['accepted', 'running'])
    .orderBy('sweep_id')
    .execute()
  for (const { sweep_id } of open) await endSweep(session, sweep_id, 'cancelled', null)
  return session.deleteFrom('ductwright.requests').where(by.column, '=', by.value).returning('address').execute()
}

/** The id stays, so that a repeated post does not bring it back and a late reader hears that it is gone. */
async function bury(session: Session, id: string): Promise<boolean> {
  const row = await lockStanding(session, id)
  if (row === null || row.state === 'deleted') return false
  // A run may have begun between the first look and the lock.
  await deleteRequests(session, { column: 'standing_id', value: id })
  await dropKeptFront(session, id)
  await session
    .updateTable('ductwright.standing_requests')
    .set({ state: 'deleted', title: '', address: null, body: '', run_id: null, mailed_run_id: null, last_cause: null })
    .where('id', '=', id)
    .execute()
  await forgetUnused(session, row.address)
  return true
}

/** Consent and counts go when nothing is left that they were for. */
async function forgetUnused(session: Session, address: string | null): Promise<void> {
  if (address === null) return
  for (const table of ['ductwright.requests', 'ductwright.standing_requests', 'ductwright.batches'] as const) {
    const used = await session.selectFrom(table).select('id').where('address', '=', address).limit(1).execute()
    if (used.length > 0) return
  }
  await session.deleteFrom('ductwright.addresses').where('address', '=', address).execute()
  await forgetRecipient(session, address)
}
