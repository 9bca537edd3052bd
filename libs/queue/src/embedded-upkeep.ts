// Space for the next jobs. Every job is a few rows that live for seconds; a Postgres server reuses their space by
// itself, the embedded one has no such helper and would grow by about 2 kB a job. So it is asked to, now and then.

import type { PgPoolLike } from '@ductwright/records/pg-pool-like'
import { DEFAULT_SCHEMA } from 'bullmq'
import type { JobSettings } from './job-settings.js'

const tables = ['job', 'job_dependency', 'event', 'meta'].map((name) => `${DEFAULT_SCHEMA}.${name}`)

/** Returns what stops it and resolves when nothing runs any more. */
export function startUpkeep(pool: PgPoolLike, { upkeepMs, log }: JobSettings): () => Promise<void> {
  let running: Promise<unknown> | null = null
  const reclaim = async (): Promise<void> => {
    try {
      await pool.query(`vacuum ${tables.join(', ')}`)
    } catch (error) {
      log({ level: 'warn', event: 'connection-error', cause: String(error) })
    }
    running = null
  }
  const timer = setInterval(() => {
    running ??= reclaim()
  }, upkeepMs)
  // Space is no reason to keep a process alive.
  timer.unref()
  return async () => {
    clearInterval(timer)
    await running
  }
}
