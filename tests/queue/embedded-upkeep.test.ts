// The embedded database reclaims the space of finished jobs while the queue is open, and no longer.
import { setTimeout as wait } from 'node:timers/promises'
import type { JobsLogEntry } from '@ductwright/queue/job-settings'
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { expect, it } from 'vitest'
import { freshDataFolder } from '../servers/embedded-folder.js'

it('reclaims space until it is closed', async () => {
  const folder = await freshDataFolder()
  const records = await openRecords({ dataFolder: folder.path })
  const { pool } = records
  const outcomes: string[] = []
  const query = pool.query.bind(pool)
  pool.query = async (text, values) => {
    const result = await query(text, values)
    if (text.startsWith('vacuum')) outcomes.push(result.command || 'done')
    return result
  }
  const log: JobsLogEntry[] = []
  const jobs = await openJobs({ pool, kind: 'embedded' }, { upkeepMs: 50, log: (entry) => log.push(entry) })
  while (outcomes.length < 2) await wait(20)
  await jobs.close()
  const atEnd = outcomes.length
  await wait(200)
  expect(outcomes).toHaveLength(atEnd)
  expect(log).toEqual([])
  await records.close()
  await folder.remove()
})
