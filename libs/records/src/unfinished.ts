// What should have a live job, read from the rows alone. After a crash the job queue may know less than the records, or
// nothing; whoever enqueues this list again (it is safe to repeat) leaves nothing behind.

import { sql } from 'kysely'
import { endedBatches } from './batches.js'
import { doubtExpired, isDue, releaseConfirmed } from './outbox.js'
import type { Records } from './records.js'
import { clock, type Database, type Session } from './tables.js'
import { transact } from './transact.js'

export function unfinished(db: Database): Pick<Records, 'unfinished'> {
  return {
    unfinished: () =>
      transact(db, async (transaction) => {
        await doubtExpired(transaction, null)
        await releaseConfirmed(transaction, null)
        return {
          unplanned: await unplanned(transaction),
          shards: await openShards(transaction),
          unmerged: await unmerged(transaction),
          mails: await dueMails(transaction),
          batches: await endedBatches(transaction),
        }
      }),
  }
}

async function unplanned(session: Session): Promise<string[]> {
  const rows = await session
    .selectFrom('ductwright.sweeps')
    .select('id')
    .where('state', '=', 'accepted')
    .orderBy('created_at')
    .execute()
  return rows.map((row) => row.id)
}

/** Without a front and without a living holder. */
async function openShards(session: Session): Promise<{ sweepId: string; index: number }[]> {
  const rows = await session
    .selectFrom('ductwright.sweeps as sweep')
    .innerJoin('ductwright.shards as shard', 'shard.sweep_id', 'sweep.id')
    .select(['shard.sweep_id', 'shard.index'])
    .where('sweep.state', '=', 'sweeping')
    .where('shard.front', 'is', null)
    .where((of) => of.or([of('shard.lease_until', 'is', null), of('shard.lease_until', '<', clock)]))
    .orderBy('sweep.created_at')
    .orderBy('shard.sweep_id')
    .orderBy('shard.index')
    .execute()
  return rows.map((row) => ({ sweepId: row.sweep_id, index: row.index }))
}

async function unmerged(session: Session): Promise<string[]> {
  const rows = await session
    .selectFrom('ductwright.sweeps as sweep')
    .select('sweep.id')
    .where('sweep.state', '=', 'sweeping')
    .where((of) =>
      of.not(
        of.exists(
          of
            .selectFrom('ductwright.shards as shard')
            .select(sql`1`.as('one'))
            .whereRef('shard.sweep_id', '=', 'sweep.id')
            .where('shard.front', 'is', null),
        ),
      ),
    )
    .orderBy('sweep.created_at')
    .execute()
  return rows.map((row) => row.id)
}

async function dueMails(session: Session): Promise<string[]> {
  const rows = await session.selectFrom('ductwright.outbox').select('id').where(isDue).orderBy('due_at').execute()
  return rows.map((row) => row.id)
}
