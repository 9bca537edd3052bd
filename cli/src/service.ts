// The whole service in one process: API and worker over one store and one queue. Everything it opens is closed again in
// the opposite order, also when a later step of the start fails.
import { setTimeout as sleep } from 'node:timers/promises'
import { buildApi } from '@ductwright/api/app'
import { createLog } from '@ductwright/log/log'
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { type RunningWorker, startWorker } from '@ductwright/worker/app'
import { currentOrDemo } from './catalogue-start.js'
import { complaint, UsageError } from './complaint.js'
import type { ServeConfig } from './config.js'

/** What is left to a load balancer to notice that the service is no longer ready. */
const NOTICE_MS = 300
/** A stop that takes longer is given up: everything acknowledged is in the records. */
const STOP_DEADLINE_MS = 25_000

type Close = () => Promise<unknown>

/** Starts the service; it then runs until a signal. */
export async function runService(config: ServeConfig): Promise<void> {
  const closers: Close[] = []
  try {
    await start(config, closers)
  } catch (error) {
    await closeAll(closers)
    if (complaint(error) !== null || !(error instanceof Error)) throw error
    throw new UsageError(`The service could not start: ${error.message}`)
  }
  stopOnSignal(closers)
}

async function start(config: ServeConfig, closers: Close[]): Promise<void> {
  const log = createLog('ductwright', config.logLevel, process.stderr)
  const records = await openRecords(config.store)
  closers.push(() => records.close())
  await currentOrDemo(records, config.catalogueFolder)
  const kind = records.kind === 'embedded' ? 'embedded' : 'postgres'
  const jobs = await openJobs(config.redisUrl === null ? { pool: records.pool, kind } : { redisUrl: config.redisUrl })
  closers.push(() => jobs.close())
  let worker: RunningWorker | null = null
  closers.push(async () => worker?.close())
  let draining = false
  const api = buildApi({ records, jobs, settings: config.api, log, draining: () => draining })
  closers.push(() => api.close())
  const address = await api.listen({ host: config.host, port: config.port })
  worker = await startWorker({ records, jobs, settings: config.worker(address), log })
  closers.push(() => {
    draining = true
    return sleep(NOTICE_MS)
  })
  if (config.mailFolder !== null) process.stdout.write(`Mail is written to ${config.mailFolder}\n`)
  process.stdout.write(`Listening on ${address}\n`)
}

function stopOnSignal(closers: readonly Close[]): void {
  let stopping = false
  const onSignal = (): void => {
    // A second signal means now.
    if (stopping) process.exit(1)
    stopping = true
    setTimeout(() => process.exit(1), STOP_DEADLINE_MS).unref()
    closeAll(closers).then(
      () => process.exit(0),
      (error: unknown) => {
        process.stderr.write(`The service did not stop cleanly: ${String(error)}\n`)
        process.exit(1)
      },
    )
  }
  process.on('SIGTERM', onSignal)
  process.on('SIGINT', onSignal)
}

async function closeAll(closers: readonly Close[]): Promise<void> {
  for (const close of closers.toReversed()) await close()
}
