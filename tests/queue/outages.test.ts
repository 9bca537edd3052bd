// Servers that go away and come back: no process ends, nothing acknowledged is lost, work resumes by itself soon after.
import { setTimeout as wait } from 'node:timers/promises'
import type { JobsLogEntry } from '@ductwright/queue/job-settings'
import type { Jobs } from '@ductwright/queue/jobs'
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import type { PgPoolLike } from '@ductwright/records/pg-pool-like'
import { afterAll, expect, it } from 'vitest'
import { testPostgres } from '../servers/postgres.js'
import { testRedis } from '../servers/redis.js'
import { describeWith, type ServerFaults } from '../servers/test-server.js'
import { newId, recorder, untilAborted } from './conformance/recorder.js'
import { impatient } from './conformance/stage.js'

const [postgres, redis] = await Promise.all([testPostgres(), testRedis()])
afterAll(async () => {
  await Promise.all([postgres?.stop(), redis?.stop()])
})

const downMs = 2_000

/** Shards run before, during and after the outage; afterwards a cancel still arrives. */
async function surviveOutage(jobs: Jobs, log: readonly JobsLogEntry[], faults: ServerFaults): Promise<void> {
  const sweep = newId()
  let runs = 0
  let aborted: unknown = null
  const made = recorder({
    planSweep: (_, signal) =>
      untilAborted(signal).catch((reason) => {
        aborted = reason
      }),
    async runShard() {
      if (++runs === 3) await wait(downMs / 2)
    },
  })
  await jobs.work(made.handlers, { shards: 1 })
  await jobs.enqueueShards(sweep, [0, 1, 2, 3, 4, 5])
  await made.until(() => runs === 3)
  await faults.kill()
  await wait(downMs)
  await faults.start()
  await made.until(() => made.count(`merge ${sweep}`) === 1)
  for (const index of [0, 1, 2, 3, 4, 5]) expect(made.count(`shard ${sweep} ${index}`)).toBeGreaterThanOrEqual(1)
  expect(made.calls.filter((call) => call.startsWith('failed'))).toEqual([])
  const another = newId()
  await jobs.enqueuePlan(another)
  await made.until(() => made.count(`plan ${another}`) === 1)
  await jobs.cancelSweep(another)
  await made.until(() => aborted === 'cancelled')
  expect(log.some((entry) => entry.event === 'connection-error')).toBe(true)
}

describeWith(postgres, 'a Postgres server', (server) => {
  async function open(): Promise<{ jobs: Jobs; log: JobsLogEntry[]; pool: PgPoolLike; close(): Promise<void> }> {
    const log: JobsLogEntry[] = []
    const records = await openRecords({ databaseUrl: await server.freshDatabase() })
    const { pool } = records
    const jobs = await openJobs({ pool, kind: 'postgres' }, { ...impatient, log: (entry) => log.push(entry) })
    return { jobs, log, pool, close: () => jobs.close(0).then(() => records.close()) }
  }

  it('loses every connection again and again', async () => {
    const { jobs, pool, close } = await open()
    const sweep = newId()
    const made = recorder({ runShard: () => wait(50) })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueShards(
      sweep,
      Array.from({ length: 20 }, (_, index) => index),
    )
    for (let times = 0; times < 4; times++) {
      await wait(200)
      // The statement ends its own connection too.
      await pool
        .query('select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database()')
        .catch(() => undefined)
    }
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    await close()
  })

  it('is killed and started again', async ({ skip }) => {
    if (server.faults === null) return skip('the server is not ours to kill')
    const { jobs, log, close } = await open()
    await surviveOutage(jobs, log, server.faults)
    await close()
  })
})

describeWith(redis, 'Redis', (server) => {
  it('is killed and started again', async ({ skip }) => {
    if (server.faults === null) return skip('the server is not ours to kill')
    const log: JobsLogEntry[] = []
    const jobs = await openJobs({ redisUrl: server.url }, { ...impatient, log: (entry) => log.push(entry) })
    await surviveOutage(jobs, log, server.faults)
    await jobs.close(0)
  })

  it('is away while something is enqueued: the caller is told, and closing ends', async ({ skip }) => {
    if (server.faults === null) return skip('the server is not ours to kill')
    const jobs = await openJobs({ redisUrl: server.url }, { ...impatient, commandTimeoutMs: 300, abortWaitMs: 100 })
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    await server.faults.kill()
    await expect(jobs.enqueuePlan(newId())).rejects.toThrow()
    await jobs.close(0)
    await server.faults.start()
  })
})
