// Runs of standing requests. A run is a request of its own, pinned to one catalogue and one model version, written in the
// transaction that decides on it; whoever enqueues what is unplanned does the rest. One run at a time.

import { randomUUID } from 'node:crypto'
import { advanceStanding, type RunReason, settleRun } from '@ductwright/contract/standing-advance'
import type { RunVersion } from '@ductwright/contract/standing-version'
import { type Selectable, type SqlBool, sql } from 'kysely'
import { lockStanding } from './standing.js'
import { columnsOf, settingOf } from './standing-moves.js'
import type { AdvanceOptions, RunRow, StandingRecords } from './standing-records.js'
import type { StandingRequestsTable } from './standing-tables.js'
import { clockInMilliseconds, type Database, type Session, storeTime } from './tables.js'
import { exact, isId } from './texts.js'
import { transact } from './transact.js'

type Runs = Pick<StandingRecords, 'runsOf' | 'currentVersion' | 'restlessStanding' | 'advanceStanding'>
type Row = Selectable<StandingRequestsTable>

/** Ended runs kept of one standing request; older ones go, the one last mailed stays. */
const runsKept = 12

export function standingRuns(db: Database): Runs {
  return {
    runsOf: async (standingId, limit) => (isId(standingId) ? readRuns(db, standingId, limit) : []),

    async currentVersion() {
      const row = await db
        .selectFrom('ductwright.catalogue_versions')
        .select('version')
        .where(sql<SqlBool>`origin <> 'layer'`)
        .orderBy('put_order', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row?.version ?? null
    },

    async restlessStanding({ catalogue, model }) {
      const rows = await db
        .selectFrom('ductwright.standing_requests')
        .select('id')
        .where('state', '=', 'active')
        .where(
          sql<SqlBool>`(seen_catalogue is distinct from ${catalogue} or seen_model is distinct from ${model}
            or run_id is null and (changed_at is not null or settled_revision is distinct from revision
              or due_at <= clock_timestamp()
              or (settled_catalogue, settled_model) is distinct from (seen_catalogue, seen_model)))`,
        )
        .orderBy('created_at')
        .execute()
      return rows.map((row) => row.id)
    },

    advanceStanding: (id, current, options) => transact(db, (session) => advance(session, id, current, options)),
  }
}

async function advance(session: Session, id: string, current: RunVersion, options: AdvanceOptions) {
  const row = await lockStanding(session, id)
  if (row === null || row.address === null) return null
  const { moves } = settingOf(row)
  const confirmed = !options.requireConfirmed || (await isConfirmed(session, row.address))
  const next = advanceStanding(moves, current, (await storeTime(session)).getTime(), options, confirmed)
  const run = next.run === null ? null : await insertRun(session, row, current, next.run)
  await session
    .updateTable('ductwright.standing_requests')
    .set({ ...columnsOf(next.moves), ...(run === null ? {} : { run_id: run.id, last_cause: null }) })
    .where('id', '=', id)
    .execute()
  if (run !== null) await prune(session, row)
  return run === null ? null : { sweepId: run.sweepId }
}

async function insertRun(session: Session, row: Row, version: RunVersion, reason: RunReason) {
  const run = { id: randomUUID(), sweepId: randomUUID() }
  await session
    .insertInto('ductwright.requests')
    .values({
      id: run.id,
      sweep_id: run.sweepId,
      title: row.title,
      address: row.address,
      body: row.body,
      body_hash: row.body_hash,
      idempotency_hash: null,
      state: 'accepted',
      created_at: clockInMilliseconds,
      standing_id: row.id,
      standing_revision: row.revision,
      run_reason: reason,
    })
    .execute()
  await session
    .insertInto('ductwright.sweeps')
    .values({
      id: run.sweepId,
      request_id: run.id,
      catalogue_version: exact('catalogue', version.catalogue),
      model_version: exact('model', version.model),
      state: 'accepted',
      created_at: clockInMilliseconds,
    })
    .execute()
  return run
}

/** Called in the transaction that ends the run's sweep. */
export async function endRun(
  session: Session,
  run: { readonly id: string; readonly standingId: string; readonly revision: number; readonly version: RunVersion },
  cause: string | null,
): Promise<void> {
  const row = await lockStanding(session, run.standingId)
  if (row === null || row.run_id !== run.id) return
  const moves = settleRun(settingOf(row).moves, { version: run.version, revision: run.revision })
  await session
    .updateTable('ductwright.standing_requests')
    .set({ ...columnsOf(moves), run_id: null, last_cause: cause })
    .where('id', '=', row.id)
    .execute()
}

/** Rows stay bounded; a run whose mail is still on its way is kept. */
async function prune(session: Session, { id, mailed_run_id }: Row): Promise<void> {
  await session
    .deleteFrom('ductwright.requests')
    .where('id', 'in', (of) =>
      of
        .selectFrom('ductwright.requests as old')
        .select('old.id')
        .where('old.standing_id', '=', id)
        .where('old.finished_at', 'is not', null)
        .where(sql<SqlBool>`old.id is distinct from ${mailed_run_id}::uuid`)
        .where(
          sql<SqlBool>`not exists (select 1 from ductwright.outbox mail where mail.request_id = old.id
            and mail.state in ('held', 'pending', 'sending'))`,
        )
        .orderBy('old.created_at', 'desc')
        .offset(runsKept),
    )
    .execute()
}

async function readRuns(db: Database, standingId: string, limit: number): Promise<RunRow[]> {
  const rows = await db
    .selectFrom('ductwright.requests as run')
    .innerJoin('ductwright.sweeps as sweep', 'sweep.id', 'run.sweep_id')
    .leftJoin('ductwright.answers as answer', 'answer.sweep_id', 'run.sweep_id')
    .select(['run.id', 'run.standing_revision', 'run.run_reason', 'run.state', 'run.cause'])
    .select([
      'run.created_at',
      'run.finished_at',
      'sweep.catalogue_version',
      'sweep.model_version',
      'answer.answer_hash',
    ])
    .where('run.standing_id', '=', standingId)
    .orderBy('run.created_at', 'desc')
    .orderBy('run.id', 'desc')
    .limit(limit)
    .execute()
  return rows.map((row) => ({
    id: row.id,
    revision: row.standing_revision ?? 0,
    reason: row.run_reason ?? 'first',
    state: row.state,
    cause: row.cause,
    version: { catalogue: row.catalogue_version, model: row.model_version },
    answerHash: row.answer_hash,
    createdAt: row.created_at.toISOString(),
    finishedAt: row.finished_at?.toISOString() ?? null,
  }))
}

async function isConfirmed(session: Session, address: string): Promise<boolean> {
  const row = await session
    .selectFrom('ductwright.addresses')
    .select('state')
    .where('address', '=', address)
    .executeTakeFirst()
  return row?.state === 'confirmed'
}
