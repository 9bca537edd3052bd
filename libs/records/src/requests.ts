// Requests: accepted once however often they are posted, listed newest first, cancelled by their owner.
//
// accepted --planned--> running --answer--> answered; accepted or running --fault--> failed, --owner--> cancelled.
// Lock order everywhere: sweep, then request, then shard.

import { randomUUID } from 'node:crypto'
import { type Selectable, sql } from 'kysely'
import { paged, positionOf } from './cursor.js'
import type { Accepted, NewRequest, Records, RequestRow } from './records.js'
import { endSweep } from './sweeps.js'
import { clockInMilliseconds, type Database, type RequestsTable, type Session } from './tables.js'
import { exact, isId, readable, sha256 } from './texts.js'
import { transact } from './transact.js'

type Requests = Pick<Records, 'acceptRequest' | 'getRequest' | 'listRequests' | 'cancelRequest'>

export function requests(db: Database): Requests {
  return {
    acceptRequest: (request) => transact(db, (transaction) => accept(transaction, request)),

    async getRequest(id) {
      if (!isId(id)) return null
      const row = await db.selectFrom('ductwright.requests').selectAll().where('id', '=', id).executeTakeFirst()
      return row === undefined ? null : asRequest(row)
    },

    listRequests: ({ limit, after }) => paged(limit, async (most) => (await pageOf(db, most, after)).map(asRequest)),

    cancelRequest: (id) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        const request = await transaction
          .selectFrom('ductwright.requests')
          .select('sweep_id')
          .where('id', '=', id)
          .executeTakeFirst()
        return request !== undefined && (await endSweep(transaction, request.sweep_id, 'cancelled', null)) !== null
      }),
  }
}

/** The unique index decides between simultaneous posts: one inserts, the others wait for it and find its row. */
async function accept(session: Session, request: NewRequest): Promise<Accepted> {
  const key = request.idempotencyKey === null ? null : sha256(request.idempotencyKey)
  const row = await session
    .insertInto('ductwright.requests')
    .values({
      id: randomUUID(),
      sweep_id: randomUUID(),
      title: readable(request.title),
      address: request.address === null ? null : exact('address', request.address),
      body: exact('body', request.body),
      body_hash: exact('bodyHash', request.bodyHash),
      idempotency_hash: key,
      state: 'accepted',
      created_at: clockInMilliseconds,
    })
    .onConflict((conflict) => conflict.column('idempotency_hash').doNothing())
    .returningAll()
    .executeTakeFirst()
  if (row === undefined) return earlier(session, key, request.bodyHash)
  await insertSweep(session, row, request)
  return { outcome: 'new', request: asRequest(row) }
}

async function earlier(session: Session, key: string | null, bodyHash: string): Promise<Accepted> {
  const row = await session
    .selectFrom('ductwright.requests')
    .selectAll()
    .where('idempotency_hash', '=', key)
    .executeTakeFirstOrThrow()
  return row.body_hash === bodyHash ? { outcome: 'repeated', request: asRequest(row) } : { outcome: 'mismatch' }
}

export async function refuseUnknownVersion(session: Session, version: string): Promise<void> {
  const known = await session
    .selectFrom('ductwright.catalogue_versions')
    .select('version')
    .where('version', '=', exact('catalogueVersion', version))
    .executeTakeFirst()
  if (known === undefined) throw new RangeError(`catalogueVersion: ${version} is not kept here`)
}

async function insertSweep(session: Session, row: Selectable<RequestsTable>, request: NewRequest): Promise<void> {
  await refuseUnknownVersion(session, request.catalogueVersion)
  await session
    .insertInto('ductwright.sweeps')
    .values({
      id: row.sweep_id,
      request_id: row.id,
      catalogue_version: request.catalogueVersion,
      model_version: exact('modelVersion', request.modelVersion),
      state: 'accepted',
      created_at: row.created_at,
    })
    .execute()
}

function pageOf(db: Database, limit: number, after: string | null): Promise<Selectable<RequestsTable>[]> {
  const newest = db
    .selectFrom('ductwright.requests')
    .selectAll()
    .orderBy('created_at', 'desc')
    .orderBy('id', 'desc')
    .limit(limit)
  if (after === null) return newest.execute()
  const { createdAt, id } = positionOf(after)
  return newest.where(sql<boolean>`(created_at, id) < (${createdAt}::timestamptz, ${id}::uuid)`).execute()
}

function asRequest(row: Selectable<RequestsTable>): RequestRow {
  return {
    id: row.id,
    title: row.title,
    address: row.address,
    body: row.body,
    state: row.state,
    cause: row.cause,
    createdAt: row.created_at.toISOString(),
    finishedAt: row.finished_at?.toISOString() ?? null,
    sweepId: row.sweep_id,
    ...belongingOf(row),
  }
}

function belongingOf(row: Selectable<RequestsTable>): Pick<RequestRow, 'standing' | 'batch'> {
  const { standing_id, standing_revision: revision, run_reason: reason, batch_id, batch_index: index } = row
  return {
    standing:
      standing_id === null || revision === null || reason === null ? null : { id: standing_id, revision, reason },
    batch: batch_id === null || index === null ? null : { id: batch_id, index },
  }
}
