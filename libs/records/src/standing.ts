// Standing requests: accepted once, revised, paused and resumed by their owner, listed newest first. Their runs are in
// standing-runs.ts, their end in erasure.ts.

import { randomUUID } from 'node:crypto'
import { type Selectable, type SqlBool, sql, type Updateable } from 'kysely'
import { paged, positionOf } from './cursor.js'
import { settingOf } from './standing-moves.js'
import type { NewStanding, Revised, StandingAccepted, StandingRecords, StandingRow } from './standing-records.js'
import type { StandingRequestsTable } from './standing-tables.js'
import { clockInMilliseconds, type Database, type Session, storeTime } from './tables.js'
import { exact, isId, readable, sha256 } from './texts.js'
import { transact } from './transact.js'

type Standing = Pick<
  StandingRecords,
  'acceptStanding' | 'getStanding' | 'listStanding' | 'reviseStanding' | 'setStandingState' | 'noteStanding'
>
type Row = Selectable<StandingRequestsTable>

export function standing(db: Database): Standing {
  return {
    acceptStanding: (request) => transact(db, (transaction) => accept(transaction, request)),

    async getStanding(id) {
      if (!isId(id)) return null
      const row = await db
        .selectFrom('ductwright.standing_requests')
        .selectAll()
        .where('id', '=', id)
        .executeTakeFirst()
      return row === undefined ? null : asStanding(row)
    },

    listStanding: ({ limit, after }) => paged(limit, async (most) => (await pageOf(db, most, after)).map(asStanding)),

    reviseStanding: (id, revision, next) => transact(db, (transaction) => revise(transaction, id, revision, next)),

    async noteStanding(id, cause) {
      if (!isId(id)) return
      await db
        .updateTable('ductwright.standing_requests')
        .set({ last_cause: readable(cause) })
        .where('id', '=', id)
        .where('state', '<>', 'deleted')
        .execute()
    },

    setStandingState: (id, state) =>
      transact(db, async (transaction) => {
        const row = await lockStanding(transaction, id)
        if (row === null || row.state === 'deleted' || (state === 'active' && row.unsubscribed)) return null
        if (row.state === state) return asStanding(row)
        // What was answered meanwhile was not mailed, so the question is put again.
        const again = state === 'active' && row.settled_revision !== null ? { settled_revision: -1 } : {}
        return asStanding(await update(transaction, id, { state, ...again }))
      }),
  }
}

/** Takes the row for the rest of the transaction; null when there is none. */
export async function lockStanding(session: Session, id: string): Promise<Row | null> {
  if (!isId(id)) return null
  const row = await session
    .selectFrom('ductwright.standing_requests')
    .selectAll()
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
  return row ?? null
}

async function accept(session: Session, request: NewStanding): Promise<StandingAccepted> {
  const key = request.idempotencyKey === null ? null : sha256(request.idempotencyKey)
  const row = await session
    .insertInto('ductwright.standing_requests')
    .values({
      id: randomUUID(),
      ...questionOf(request),
      idempotency_hash: key,
      state: 'active',
      created_at: clockInMilliseconds,
      revised_at: clockInMilliseconds,
    })
    .onConflict((conflict) => conflict.column('idempotency_hash').doNothing())
    .returningAll()
    .executeTakeFirst()
  if (row !== undefined) return { outcome: 'new', standing: asStanding(row) }
  const earlier = await session
    .selectFrom('ductwright.standing_requests')
    .selectAll()
    .where('idempotency_hash', '=', key)
    .executeTakeFirstOrThrow()
  if (earlier.body_hash !== request.bodyHash) return { outcome: 'mismatch' }
  return { outcome: 'repeated', standing: asStanding(earlier) }
}

function questionOf(request: Omit<NewStanding, 'idempotencyKey'>) {
  return {
    title: readable(request.title),
    address: exact('address', request.address),
    body: exact('body', request.body),
    body_hash: exact('bodyHash', request.bodyHash),
    every_days: request.everyDays,
  }
}

/** What its owner was told answered another question, so the next answer is told whatever it is. */
async function revise(
  session: Session,
  id: string,
  revision: number | null,
  next: Omit<NewStanding, 'idempotencyKey'>,
): Promise<Revised> {
  const row = await lockStanding(session, id)
  if (row === null || row.state === 'deleted' || row.unsubscribed) return { outcome: 'gone' }
  if (revision !== null && revision !== row.revision) return { outcome: 'stale', standing: asStanding(row) }
  const revised = await update(session, id, {
    ...questionOf(next),
    revision: row.revision + 1,
    due_at: null,
    mailed_hash: null,
    mailed_run_id: null,
    revised_at: await storeTime(session),
  })
  return { outcome: 'revised', standing: asStanding(revised) }
}

function update(session: Session, id: string, change: Updateable<StandingRequestsTable>): Promise<Row> {
  return session
    .updateTable('ductwright.standing_requests')
    .set(change)
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirstOrThrow()
}

function pageOf(db: Database, limit: number, after: string | null): Promise<Row[]> {
  const newest = db
    .selectFrom('ductwright.standing_requests')
    .selectAll()
    .where('state', '<>', 'deleted')
    .orderBy('created_at', 'desc')
    .orderBy('id', 'desc')
    .limit(limit)
  if (after === null) return newest.execute()
  const { createdAt, id } = positionOf(after)
  return newest.where(sql<SqlBool>`(created_at, id) < (${createdAt}::timestamptz, ${id}::uuid)`).execute()
}

function asStanding(row: Row): StandingRow {
  const { moves, settled } = settingOf(row)
  return {
    id: row.id,
    title: row.title,
    address: row.address,
    body: row.body,
    state: row.state,
    unsubscribed: row.unsubscribed,
    revision: row.revision,
    everyDays: row.every_days,
    seen: moves.seen,
    settling: row.changed_at !== null,
    settled,
    dueAt: row.due_at?.toISOString() ?? null,
    runId: row.run_id,
    lastCause: row.last_cause,
    toldHash: row.mailed_hash,
    toldRunId: row.mailed_run_id,
    createdAt: row.created_at.toISOString(),
    revisedAt: row.revised_at.toISOString(),
  }
}
