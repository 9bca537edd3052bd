// A service to test against: real embedded records in a temporary folder, the real queue in them, the API without a port,
// and, when asked for, a worker. Everything is quick: short leases, short waits.
import { join } from 'node:path'
import { buildApi } from '@ductwright/api/app'
import type { ApiApp } from '@ductwright/api/deps'
import { type ApiSettings, defaultApiSettings } from '@ductwright/api/settings'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { createLog } from '@ductwright/log/log'
import type { Jobs } from '@ductwright/queue/jobs'
import { openJobs } from '@ductwright/queue/open-jobs'
import { type OpenRecords, openRecords } from '@ductwright/records/open-records'
import type { Records } from '@ductwright/records/records'
import { type RunningWorker, startWorker } from '@ductwright/worker/app'
import { defaultWorkerSettings, type WorkerSettings } from '@ductwright/worker/settings'
import type { Logger } from 'pino'
import { freshDataFolder } from '../servers/embedded-folder.js'
import { smallCatalogue } from './small-catalogue.js'

export interface Stand {
  readonly app: ApiApp
  readonly records: OpenRecords
  readonly jobs: Jobs
  readonly catalogue: Catalogue
  readonly mailFolder: string
  readonly logger: Logger
  /** JSON lines the API and the worker logged. */
  readonly log: string[]
  /** Once; a queue has one set of handlers. */
  startWorker(changes?: Partial<WorkerSettings>): Promise<void>
  close(): Promise<void>
}

export interface StandOptions {
  readonly api?: Partial<ApiSettings>
  /** Absent: no worker runs. */
  readonly worker?: Partial<WorkerSettings>
  readonly draining?: () => boolean
}

export const quickJobs = { lockMs: 2000, stalledCheckMs: 500, backoffMs: 50, abortWaitMs: 500 }

export async function openStand(options: StandOptions = {}): Promise<Stand> {
  const folder = await freshDataFolder()
  const mailFolder = join(folder.path, 'mail')
  const lines: string[] = []
  const log = createLog('test', 'info', { write: (line: string) => void lines.push(line) })
  const records = await openRecords({ dataFolder: folder.path })
  const catalogue = await smallCatalogue()
  await records.putCatalogue(catalogue.version, catalogue.name, catalogueContent(catalogue))
  const own = await openJobs({ pool: records.pool, kind: 'embedded' }, quickJobs)
  const app = apiOver({ records, jobs: own, log }, options.api, options.draining)
  await app.ready()
  let worker: RunningWorker | null = null
  const start = async (changes: Partial<WorkerSettings> = {}): Promise<void> => {
    worker = await startWorker({ records, jobs: own, settings: quickWorker(mailFolder, changes), log })
  }
  if (options.worker !== undefined) await start(options.worker)
  const close = async (): Promise<void> => {
    await app.close()
    await worker?.close(1000)
    await own.close(100)
    await records.close()
    await folder.remove()
  }
  return { app, records, jobs: own, logger: log, catalogue, mailFolder, log: lines, startWorker: start, close }
}

/** One more API over the same records, with other settings. */
export function apiOver(
  parts: { readonly records: Records; readonly jobs: Jobs; readonly log: Logger },
  settings: Partial<ApiSettings> = {},
  draining: () => boolean = () => false,
): ApiApp {
  const quick = { ...defaultApiSettings, requestsPerMinute: 1e6, eventPollMs: 20, probeTimeoutMs: 500, ...settings }
  return buildApi({ ...parts, settings: quick, draining })
}

export function quickWorker(mailFolder: string, changes: Partial<WorkerSettings> = {}): WorkerSettings {
  return {
    ...defaultWorkerSettings,
    threads: 1,
    leaseMs: 1000,
    reconcileMs: 100,
    mailBackoffMs: 100,
    mailTimeoutMs: 2000,
    standingQuietMs: 300,
    standingLongestMs: 5000,
    mail: { kind: 'folder', folder: mailFolder },
    mailFrom: 'jets@example.org',
    publicUrl: 'http://jets.example.org',
    ...changes,
  }
}

export interface Status {
  readonly id: string
  readonly state: string
  readonly progress: number
  readonly cause: string | null
  readonly mails: readonly {
    readonly id: string
    readonly kind: string
    readonly state: string
    readonly attempts: number
    readonly last_error: string | null
  }[]
}

export const statusOf = async (stand: Pick<Stand, 'app'>, id: string): Promise<Status> =>
  (await stand.app.inject(`/v1/requests/${id}`)).json<Status>()

/** Waits until a request has ended. */
export const ended = (stand: Pick<Stand, 'app'>, id: string): Promise<Status> =>
  eventually(async () => {
    const status = await statusOf(stand, id)
    return !['accepted', 'running'].includes(status.state) && status
  })

/** Posts a request; the reply as the client sees it. */
export function post(
  stand: Pick<Stand, 'app'>,
  body: unknown,
  headers: Record<string, string> = {},
  url = '/v1/requests',
) {
  const payload = typeof body === 'string' ? body : JSON.stringify(body)
  return stand.app.inject({ method: 'POST', url, headers: { 'content-type': 'application/json', ...headers }, payload })
}

/** Waits for something to come true; the test's own time limit ends a wait that never does. */
export async function eventually<Value>(
  look: () => Promise<Value | null | undefined | false>,
  everyMs = 40,
): Promise<Value> {
  while (true) {
    const found = await look()
    if (found) return found
    await new Promise((resolve) => setTimeout(resolve, everyMs))
  }
}
