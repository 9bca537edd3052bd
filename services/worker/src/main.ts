// The worker as a process of its own: opens the store and the queue shared with the API, works, and stops cleanly. On the
// first SIGTERM it takes no more jobs, lets running ones end for a while, returns the rest and exits; on the second it
// exits at once. Whatever it held is then taken over by another worker when lease and lock run out.
import { writeFile } from 'node:fs/promises'
import { createLog } from '@ductwright/log/log'
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { startWorker } from './app.js'
import { readWorkerConfig } from './config.js'

const EXIT_DEADLINE_MS = 28_000
const HEARTBEAT_MS = 5_000

await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`)
  process.exit(1)
})

async function main(): Promise<void> {
  const { databaseUrl, redisUrl, logLevel, settings, heartbeatFile } = readWorkerConfig()
  const log = createLog('worker', logLevel)
  const records = await openRecords({ databaseUrl: databaseUrl ?? '' })
  const jobs = await openJobs(redisUrl === null ? { pool: records.pool, kind: 'postgres' } : { redisUrl }, {
    log: ({ level, event, ...context }) => log[level](context, event),
  })
  const worker = await startWorker({ records, jobs, settings, log })
  if (heartbeatFile !== null) beat(heartbeatFile, () => records.ping())
  let stopping = false
  const onSignal = (signal: string): void => {
    if (stopping) process.exit(1)
    stopping = true
    log.info({ signal }, 'stopping')
    setTimeout(() => process.exit(1), EXIT_DEADLINE_MS).unref()
    worker
      .close()
      .then(() => records.close())
      .then(
        () => process.exit(0),
        (error: unknown) => {
          log.error({ err: error }, 'did not stop cleanly')
          process.exit(1)
        },
      )
  }
  process.on('SIGTERM', onSignal)
  process.on('SIGINT', onSignal)
}

/** Rewrites the file while the store answers; a health check looks at its age. */
function beat(file: string, alive: () => Promise<void>): void {
  const once = (): void => {
    alive()
      .then(() => writeFile(file, new Date().toISOString()))
      .catch(() => {})
  }
  once()
  setInterval(once, HEARTBEAT_MS)
}
