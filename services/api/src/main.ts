// The API as a process of its own: opens the store and the queue, loads the catalogue, listens, and stops cleanly. On the
// first SIGTERM it is no longer ready at once, finishes what it has begun and exits; on the second it exits at once.
import { setTimeout as sleep } from 'node:timers/promises'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { createLog } from '@ductwright/log/log'
import { openJobs } from '@ductwright/queue/open-jobs'
import { type OpenRecords, openRecords } from '@ductwright/records/open-records'
import type { Logger } from 'pino'
import { buildApi } from './app.js'
import { type ApiConfig, readApiConfig } from './config.js'

/** Left to a load balancer to notice before connections are closed. */
const NOTICE_MS = 500
const EXIT_DEADLINE_MS = 25_000

await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`)
  process.exit(1)
})

async function main(): Promise<void> {
  const config = readApiConfig()
  const log = createLog('api', config.logLevel)
  const records = await openRecords({ databaseUrl: config.databaseUrl ?? '' })
  await loadCatalogue(records, config, log)
  const jobs = await openJobs(
    config.redisUrl === null ? { pool: records.pool, kind: 'postgres' } : { redisUrl: config.redisUrl },
    { log: ({ level, event, ...context }) => log[level](context, event) },
  )
  let draining = false
  const app = buildApi({ records, jobs, settings: config.settings, log, draining: () => draining })
  stopOnSignal(log, async () => {
    draining = true
    await sleep(NOTICE_MS)
    await app.close()
    await jobs.close()
    await records.close()
  })
  await app.listen({ host: config.host, port: config.port })
}

/** A folder named in the configuration wins; otherwise what the store has; otherwise the bundled catalogue. */
async function loadCatalogue(records: OpenRecords, config: ApiConfig, log: Logger): Promise<void> {
  if (config.catalogueFolder === null && (await records.currentCatalogue()) !== null) return
  const catalogue = await readCatalogueFolder(config.catalogueFolder ?? demoCatalogueFolder)
  await records.putCatalogue(catalogue.version, catalogue.name, catalogueContent(catalogue))
  log.info({ catalogue: catalogue.name, version: catalogue.version }, 'catalogue loaded')
}

function stopOnSignal(log: Logger, stop: () => Promise<void>): void {
  let stopping = false
  const onSignal = (signal: string): void => {
    if (stopping) process.exit(1)
    stopping = true
    log.info({ signal }, 'stopping')
    setTimeout(() => process.exit(1), EXIT_DEADLINE_MS).unref()
    stop().then(
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
