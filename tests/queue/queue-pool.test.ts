// The Postgres pool as the queue lends it to BullMQ: refused when it cannot work, patient with deadlocks.
import { openJobs } from '@ductwright/queue/open-jobs'
import { QueuePool } from '@ductwright/queue/queue-pool'
import type { PgPoolLike } from '@ductwright/records/pg-pool-like'
import pg from 'pg'
import { afterAll, describe, expect, it } from 'vitest'
import { testPostgres } from '../servers/postgres.js'
import { describeWith } from '../servers/test-server.js'

const postgres = await testPostgres()
afterAll(() => postgres?.stop())

/** A pool whose statements fail with these codes, one after the other, and then succeed. */
function failingPool(codes: readonly string[]): { readonly pool: PgPoolLike; readonly tries: () => number } {
  let tries = 0
  const query = async () => {
    const code = codes[tries++]
    if (code !== undefined) throw Object.assign(new Error(`failed with ${code}`), { code })
    return { rows: [{ done: true }], rowCount: 1, command: 'SELECT' }
  }
  const pool = { query, on: () => pool, setMaxListeners: () => pool } as unknown as PgPoolLike
  return { pool, tries: () => tries }
}

describe('a statement', () => {
  it('that lost to a deadlock is repeated', async () => {
    const { pool, tries } = failingPool(['40P01', '40P01'])
    expect((await new QueuePool(pool).query('select 1')).rows).toEqual([{ done: true }])
    expect(tries()).toBe(3)
  })

  it('that keeps losing fails in the end', async () => {
    const { pool, tries } = failingPool(Array.from({ length: 9 }, () => '40P01'))
    await expect(new QueuePool(pool).query('select 1')).rejects.toThrow('40P01')
    expect(tries()).toBe(5)
  })

  it('that failed otherwise is not repeated', async () => {
    const { pool, tries } = failingPool(['23505'])
    await expect(new QueuePool(pool).query('select 1')).rejects.toThrow('23505')
    expect(tries()).toBe(1)
  })
})

describeWith(postgres, 'opening', (server) => {
  async function opening(config: pg.PoolConfig): Promise<unknown> {
    const pool = new pg.Pool({ connectionString: await server.freshDatabase(), ...config })
    try {
      const jobs = await openJobs({ pool: pool as unknown as PgPoolLike, kind: 'postgres' })
      return await jobs.close()
    } finally {
      await pool.end()
    }
  }

  it('refuses a pool that looks names up elsewhere', async () => {
    await expect(opening({})).rejects.toThrow(
      'must look names up in schema bullmq first (search_path), but it uses public',
    )
  })

  it('refuses a pool with too few connections', async () => {
    await expect(opening({ max: 4, options: '-c search_path=bullmq' })).rejects.toThrow(
      'the pool must allow at least 6 connections (max), got 4',
    )
  })

  it('accepts the smallest pool that works', async () => {
    await expect(opening({ max: 6, options: '-c search_path=bullmq' })).resolves.toBeUndefined()
  })
})
