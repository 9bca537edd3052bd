// Sweeps: planned once into shards, and ended once. The row lock on the sweep decides between an answer, a failure and a
// cancellation that arrive together: the first one ends it, the others are told that it had ended.
//
// accepted --plan--> sweeping --answer--> answered; accepted or sweeping --fault--> failed, --owner--> cancelled.

import type { RunVersion } from '@ductwright/contract/standing-version'
import { type Selectable, sql } from 'kysely'
import type { Records, SweepRow, SweepState } from './records.js'
import { endRun } from './standing-runs.js'
import { clockInMilliseconds, type Database, type Session, type SweepsTable } from './tables.js'
import { exact, isId, readable } from './texts.js'
import { transact } from './transact.js'

type Sweeps = Pick<Records, 'getSweep' | 'planSweep'>
type Ending = Extract<SweepState, 'answered' | 'failed' | 'cancelled'>

/** Rows in one statement: a bound on its parameters, of which Postgres takes 65,535. */
const shardsPerInsert = 1_000

export function sweeps(db: Database): Sweeps {
  return {
    getSweep: async (id) => (isId(id) ? readSweep(db, id) : null),

    planSweep: (id, ranges) =>
      transact(db, async (transaction) => {
        const sweep = await lockSweep(transaction, id)
        if (sweep === null) throw new RangeError(`sweep ${id}: is not kept here`)
        if (sweep.state === 'accepted') await plan(transaction, sweep, ranges)
        return (await readSweep(transaction, id)) as SweepRow
      }),
  }
}

/** Takes the sweep's row for the rest of the transaction; null when there is none. */
export async function lockSweep(session: Session, id: string): Promise<Selectable<SweepsTable> | null> {
  if (!isId(id)) return null
  const row = await session
    .selectFrom('ductwright.sweeps')
    .selectAll()
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
  return row ?? null
}

export function hasEnded(state: SweepState): boolean {
  return state !== 'accepted' && state !== 'sweeping'
}

/** The request a sweep answered, and the standing request that it was a run of. */
export interface EndedSweep {
  readonly requestId: string
  readonly standing: { readonly id: string; readonly revision: number } | null
  readonly version: RunVersion
}

/** Ends sweep, request and run together; null when the sweep had ended before or is unknown. */
export async function endSweep(
  session: Session,
  id: string,
  state: Ending,
  cause: string | null,
): Promise<EndedSweep | null> {
  const sweep = await lockSweep(session, id)
  if (sweep === null || hasEnded(sweep.state)) return null
  const ending = { state, cause: cause === null ? null : readable(cause), finished_at: clockInMilliseconds }
  await session.updateTable('ductwright.sweeps').set(ending).where('id', '=', id).execute()
  const request = await session
    .updateTable('ductwright.requests')
    .set(ending)
    .where('id', '=', sweep.request_id)
    .returning(['id', 'standing_id', 'standing_revision'])
    .executeTakeFirstOrThrow()
  const { standing_id, standing_revision: revision } = request
  const version = { catalogue: sweep.catalogue_version, model: sweep.model_version }
  if (standing_id === null || revision === null) return { requestId: request.id, standing: null, version }
  await endRun(session, { id: request.id, standingId: standing_id, revision, version }, ending.cause)
  return { requestId: request.id, standing: { id: standing_id, revision }, version }
}

type Ranges = readonly { readonly range: string; readonly work: number }[]

async function plan(session: Session, sweep: Selectable<SweepsTable>, ranges: Ranges): Promise<void> {
  const rows = ranges.map(({ range, work }, index) => ({
    sweep_id: sweep.id,
    index,
    range: exact('range', range),
    work: usableWork(work),
  }))
  for (let from = 0; from < rows.length; from += shardsPerInsert) {
    const some = rows.slice(from, from + shardsPerInsert)
    await session.insertInto('ductwright.shards').values(some).execute()
  }
  await session
    .updateTable('ductwright.sweeps')
    .set({ state: 'sweeping', shard_count: rows.length })
    .where('id', '=', sweep.id)
    .execute()
  await session
    .updateTable('ductwright.requests')
    .set({ state: 'running' })
    .where('id', '=', sweep.request_id)
    .execute()
}

function usableWork(work: number): number {
  if (Number.isFinite(work) && work >= 0) return work
  throw new RangeError(`work: must be a finite number from 0, is ${work}`)
}

async function readSweep(session: Session, id: string): Promise<SweepRow | null> {
  const row = await session
    .selectFrom('ductwright.sweeps')
    .selectAll()
    .select((of) =>
      of
        .selectFrom('ductwright.shards')
        .select(sql<number | null>`sum(work * progress) / nullif(sum(work), 0)`.as('share'))
        .whereRef('sweep_id', '=', 'ductwright.sweeps.id')
        .as('share'),
    )
    .where('id', '=', id)
    .executeTakeFirst()
  return row === undefined ? null : asSweep(row)
}

function asSweep(row: Selectable<SweepsTable> & { share: number | null }): SweepRow {
  return {
    id: row.id,
    requestId: row.request_id,
    catalogueVersion: row.catalogue_version,
    modelVersion: row.model_version,
    state: row.state,
    cause: row.cause,
    shardCount: row.shard_count,
    // Rounding in the sum may pass 1 by a bit.
    progress: row.state === 'answered' ? 1 : Math.min(1, row.share ?? 0),
  }
}
