// Shards: leased to one worker at a time. Each lease has a higher token than the one before, and every write names its
// token, so a worker that slept through the end of its lease cannot overwrite its successor's work.
//
// free --lease--> leased --front stored--> done; leased --lease runs out or is given back--> free;
// done --checksum differs--> free.

import { type Selectable, sql } from 'kysely'
import type { Records, ShardLease } from './records.js'
import { hasEnded } from './sweeps.js'
import { clock, type Database, fromNow, type Session, type ShardsTable } from './tables.js'
import { exact, isId, readable, sha256 } from './texts.js'
import { transact } from './transact.js'

type Shards = Pick<Records, 'leaseShard' | 'renewShard' | 'finishShard' | 'releaseShard' | 'shardFronts'>

export function shards(db: Database): Shards {
  return {
    leaseShard: (sweepId, index, leaseMs) =>
      transact(db, async (transaction) =>
        (await isSweeping(transaction, sweepId)) ? lease(transaction, sweepId, index, leaseMs) : null,
      ),

    renewShard: (held, progress, leaseMs) =>
      transact(db, async (transaction) => {
        if (!(await isSweeping(transaction, held.sweepId))) return false
        return renew(transaction, held, progress, leaseMs)
      }),

    finishShard: (held, front) =>
      transact(db, async (transaction) => {
        if (!(await isSweeping(transaction, held.sweepId))) return false
        return finish(transaction, held, exact('front', front))
      }),

    async releaseShard(held, reason) {
      await ownShard(db, held)
        .set({ lease_until: null, last_fault: readable(reason) })
        .where('front', 'is', null)
        .execute()
    },

    shardFronts: (sweepId) => transact(db, (transaction) => readFronts(transaction, sweepId)),
  }
}

/** Shared lock: many shards work side by side, but none writes after a cancellation has been committed. */
async function isSweeping(session: Session, sweepId: string): Promise<boolean> {
  if (!isId(sweepId)) return false
  const sweep = await session
    .selectFrom('ductwright.sweeps')
    .select('state')
    .where('id', '=', sweepId)
    .forShare()
    .executeTakeFirst()
  return sweep?.state === 'sweeping'
}

async function lease(session: Session, sweepId: string, index: number, leaseMs: number): Promise<ShardLease | null> {
  const row = await session
    .updateTable('ductwright.shards')
    .set({
      token: sql`token + 1`,
      starts: sql`starts + 1`,
      lease_until: fromNow(usableLease(leaseMs)),
      progress: 0,
    })
    .where('sweep_id', '=', sweepId)
    .where('index', '=', index)
    .where('front', 'is', null)
    .where((of) => of.or([of('lease_until', 'is', null), of('lease_until', '<', clock)]))
    .returning(['token', 'starts', 'range'])
    .executeTakeFirst()
  return row === undefined ? null : { sweepId, index, ...row }
}

async function renew(session: Session, held: ShardLease, progress: number, leaseMs: number): Promise<boolean> {
  const share = Number.isFinite(progress) ? Math.min(1, Math.max(0, progress)) : 0
  const { numUpdatedRows } = await ownShard(session, held)
    .set({ lease_until: fromNow(usableLease(leaseMs)), progress: sql`greatest(progress, ${share}::double precision)` })
    .where('front', 'is', null)
    .executeTakeFirstOrThrow()
  return numUpdatedRows === 1n
}

/** A repeat by the same holder with the same front succeeds: the reply to its first try may have been lost. */
async function finish(session: Session, held: ShardLease, front: string): Promise<boolean> {
  const front_sha256 = sha256(front)
  const { numUpdatedRows } = await ownShard(session, held)
    .set({ front, front_sha256, progress: 1, lease_until: null })
    .where((of) => of.or([of('front', 'is', null), of('front_sha256', '=', front_sha256)]))
    .executeTakeFirstOrThrow()
  return numUpdatedRows === 1n
}

function ownShard(session: Session, { sweepId, index, token }: ShardLease) {
  return session
    .updateTable('ductwright.shards')
    .where('sweep_id', '=', sweepId)
    .where('index', '=', index)
    .where('token', '=', token)
}

type Fronts = Awaited<ReturnType<Records['shardFronts']>>

async function readFronts(session: Session, sweepId: string): Promise<Fronts> {
  const sweep = isId(sweepId) ? await sweepState(session, sweepId) : undefined
  if (sweep === undefined) throw new RangeError(`sweep ${sweepId}: is not kept here`)
  if (sweep.shard_count === null) throw new RangeError(`sweep ${sweepId}: has not been planned`)
  const rows = await session
    .selectFrom('ductwright.shards')
    .selectAll()
    .where('sweep_id', '=', sweepId)
    .orderBy('index')
    .execute()
  const damaged = rows.filter(isDamaged)
  if (!hasEnded(sweep.state)) await reopen(session, damaged)
  const whole = rows.filter((row) => row.front !== null && !damaged.includes(row))
  const missing = rows.filter((row) => !whole.includes(row)).map((row) => row.index)
  return { fronts: whole.map((row) => row.front as string), missing }
}

function sweepState(session: Session, id: string) {
  return session
    .selectFrom('ductwright.sweeps')
    .select(['state', 'shard_count'])
    .where('id', '=', id)
    .forShare()
    .executeTakeFirst()
}

function isDamaged(row: Selectable<ShardsTable>): boolean {
  return row.front !== null && sha256(row.front) !== row.front_sha256
}

/** The token rises with the reopening, so that whoever wrote the damaged front holds a stale one. */
async function reopen(session: Session, damaged: readonly Selectable<ShardsTable>[]): Promise<void> {
  for (const row of damaged) {
    await session
      .updateTable('ductwright.shards')
      .set({
        front: null,
        front_sha256: null,
        progress: 0,
        token: sql`token + 1`,
        last_fault: 'the stored front did not match its checksum',
      })
      .where('sweep_id', '=', row.sweep_id)
      .where('index', '=', row.index)
      .where('token', '=', row.token)
      .execute()
  }
}

function usableLease(leaseMs: number): number {
  if (Number.isFinite(leaseMs) && leaseMs > 0) return leaseMs
  throw new RangeError(`leaseMs: must be a finite number above 0, is ${leaseMs}`)
}
