// Batches: items that are ordinary requests and sweeps, written together, and one summary once all of them have ended.
//
// running --every item has ended; summary and mail in one transaction--> ended.

import { randomUUID } from 'node:crypto'
import { type Selectable, type SqlBool, sql } from 'kysely'
import type { BatchAccepted, BatchItemRow, BatchRecords, BatchRow, NewBatch } from './batch-records.js'
import { addToOutbox } from './outbox.js'
import { refuseUnknownVersion } from './requests.js'
import type { BatchesTable } from './standing-tables.js'
import { clockInMilliseconds, type Database, type Session } from './tables.js'
import { exact, isId, readable, sha256 } from './texts.js'
import { transact } from './transact.js'

/** Rows in one statement: a bound on its parameters. */
const itemsPerInsert = 500

export function batches(db: Database): BatchRecords {
  return {
    acceptBatch: (batch) => transact(db, (transaction) => accept(transaction, batch)),

    getBatch: async (id) => (isId(id) ? readBatch(db, id) : null),

    batchItems: async (id) => (isId(id) ? readItems(db, id) : []),

    finishBatch: (id, summary, mail, { requireConfirmed }) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        const { numUpdatedRows } = await transaction
          .updateTable('ductwright.batches')
          .set({ state: 'ended', summary: exact('summary', summary), finished_at: clockInMilliseconds })
          .where('id', '=', id)
          .where('state', '=', 'running')
          .executeTakeFirstOrThrow()
        if (numUpdatedRows === 0n) return false
        const row = { kind: 'batch' as const, owner: { batchId: id }, answerHash: null }
        if (mail !== null) await addToOutbox(transaction, { ...mail, ...row }, { requireConfirmed })
        return true
      }),
  }
}

/** Those whose summary is due. */
export async function endedBatches(session: Session): Promise<string[]> {
  const rows = await session
    .selectFrom('ductwright.batches as batch')
    .select('batch.id')
    .where('batch.state', '=', 'running')
    .where(
      sql<SqlBool>`not exists (select 1 from ductwright.requests item where item.batch_id = batch.id
        and item.state in ('accepted', 'running'))`,
    )
    .orderBy('batch.created_at')
    .execute()
  return rows.map((row) => row.id)
}

async function accept(session: Session, batch: NewBatch): Promise<BatchAccepted> {
  const key = batch.idempotencyKey === null ? null : sha256(batch.idempotencyKey)
  const row = await session
    .insertInto('ductwright.batches')
    .values({
      id: randomUUID(),
      title: readable(batch.title),
      address: batch.address === null ? null : exact('address', batch.address),
      body_hash: exact('bodyHash', batch.bodyHash),
      idempotency_hash: key,
      state: 'running',
      item_count: batch.items.length,
      created_at: clockInMilliseconds,
    })
    .onConflict((conflict) => conflict.column('idempotency_hash').doNothing())
    .returningAll()
    .executeTakeFirst()
  if (row === undefined) return earlier(session, key, batch.bodyHash)
  const sweepIds = await insertItems(session, row, batch)
  return { outcome: 'new', batch: asBatch(row, 0), sweepIds }
}

async function earlier(session: Session, key: string | null, bodyHash: string): Promise<BatchAccepted> {
  const { id, body_hash } = await session
    .selectFrom('ductwright.batches')
    .select(['id', 'body_hash'])
    .where('idempotency_hash', '=', key)
    .executeTakeFirstOrThrow()
  if (body_hash !== bodyHash) return { outcome: 'mismatch' }
  return { outcome: 'repeated', batch: (await readBatch(session, id)) as BatchRow, sweepIds: [] }
}

async function insertItems(session: Session, batch: Selectable<BatchesTable>, { items }: NewBatch): Promise<string[]> {
  for (const version of new Set(items.map((item) => item.catalogueVersion))) {
    await refuseUnknownVersion(session, version)
  }
  const rows = items.map((item, index) => ({ item, index, id: randomUUID(), sweepId: randomUUID() }))
  for (let from = 0; from < rows.length; from += itemsPerInsert) {
    const some = rows.slice(from, from + itemsPerInsert)
    await session
      .insertInto('ductwright.requests')
      .values(
        some.map(({ item, index, id, sweepId }) => ({
          id,
          sweep_id: sweepId,
          title: readable(item.title),
          address: null,
          body: exact('body', item.body),
          body_hash: exact('bodyHash', item.bodyHash),
          idempotency_hash: null,
          state: 'accepted' as const,
          created_at: batch.created_at,
          batch_id: batch.id,
          batch_index: index,
        })),
      )
      .execute()
    await session
      .insertInto('ductwright.sweeps')
      .values(
        some.map(({ item, id, sweepId }) => ({
          id: sweepId,
          request_id: id,
          catalogue_version: item.catalogueVersion,
          model_version: exact('modelVersion', item.modelVersion),
          state: 'accepted' as const,
          created_at: batch.created_at,
        })),
      )
      .execute()
  }
  return rows.map(({ sweepId }) => sweepId)
}

async function readBatch(session: Session, id: string): Promise<BatchRow | null> {
  const row = await session
    .selectFrom('ductwright.batches as batch')
    .selectAll()
    .select((of) =>
      of
        .selectFrom('ductwright.requests as item')
        .select(sql<number>`count(*)::int`.as('count'))
        .whereRef('item.batch_id', '=', 'batch.id')
        .where('item.finished_at', 'is not', null)
        .as('ended'),
    )
    .where('batch.id', '=', id)
    .executeTakeFirst()
  return row === undefined ? null : asBatch(row, row.ended ?? 0)
}

async function readItems(db: Database, id: string): Promise<BatchItemRow[]> {
  const rows = await db
    .selectFrom('ductwright.requests as item')
    .leftJoin('ductwright.answers as answer', 'answer.sweep_id', 'item.sweep_id')
    .select(['item.id', 'item.batch_index', 'item.title', 'item.state', 'item.cause', 'answer.summary'])
    .where('item.batch_id', '=', id)
    .orderBy('item.batch_index')
    .execute()
  return rows.map((row) => ({
    index: row.batch_index ?? 0,
    requestId: row.id,
    title: row.title,
    state: row.state,
    cause: row.cause,
    summary: row.summary,
  }))
}

function asBatch(row: Selectable<BatchesTable>, endedCount: number): BatchRow {
  return {
    id: row.id,
    title: row.title,
    address: row.address,
    state: row.state,
    itemCount: row.item_count,
    endedCount,
    summary: row.summary,
    createdAt: row.created_at.toISOString(),
    finishedAt: row.finished_at?.toISOString() ?? null,
  }
}
