// Where the tests of one backend play: the backend's servers or folder, jobs opened on it and closed after each test,
// the log they wrote, and the death of a worker process.
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { JobSettings, JobsLogEntry } from '@ductwright/queue/job-settings'
import type { Jobs } from '@ductwright/queue/jobs'
import { type BackendOptions, openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'
import { afterAll, afterEach, beforeAll } from 'vitest'

/** Where the jobs are, in a form another process can be told. */
export type Place = { readonly redisUrl: string } | { readonly databaseUrl: string } | { readonly dataFolder: string }

/** Waits short enough for tests; the lock is not, because a busy machine must not make jobs look dead. */
export const impatient: Partial<JobSettings> = {
  backoffMs: 20,
  mailBackoffMs: 20,
  abortWaitMs: 300,
}

/** For tests in which a worker dies, or computes for longer than its lock. */
export const shortLock: Partial<JobSettings> = { lockMs: 1_000, stalledCheckMs: 200 }

export interface Stage {
  readonly log: readonly JobsLogEntry[]
  /** As another process would open them; closed when the test ends. */
  open(settings?: Partial<JobSettings>): Promise<Jobs>
  /** A worker process takes shard 0 of the sweep and is killed there. */
  dieInShard(sweepId: string): Promise<void>
}

interface OpenPlace {
  readonly options: BackendOptions
  close(): Promise<void>
}

/** Call it in a `describe`: it opens before the first test and closes after the last. */
export function stage(setUp: () => Promise<{ readonly place: Place; remove(): Promise<void> }>): Stage {
  let place: Place
  let remove: () => Promise<void>
  let home: OpenPlace
  const opened: Jobs[] = []
  const log: JobsLogEntry[] = []

  beforeAll(async () => {
    const ready = await setUp()
    place = ready.place
    remove = ready.remove
    home = await openPlace(place)
  })
  afterEach(async () => {
    await Promise.all(opened.splice(0).map((jobs) => jobs.close(0)))
    log.length = 0
  })
  afterAll(async () => {
    await home.close()
    await remove()
  })
  return {
    log,
    async open(settings = {}) {
      const jobs = await openJobs(home.options, { ...impatient, log: (entry) => log.push(entry), ...settings })
      opened.push(jobs)
      return jobs
    },
    async dieInShard(sweepId) {
      // The embedded database admits one process at a time.
      await home.close()
      await dieInShard(place, sweepId)
      home = await openPlace(place)
    },
  }
}

async function openPlace(place: Place): Promise<OpenPlace> {
  if ('redisUrl' in place) return { options: place, close: async () => undefined }
  const { pool, close } = await openRecords(place)
  return { options: { pool, kind: 'databaseUrl' in place ? 'postgres' : 'embedded' }, close }
}

async function dieInShard(place: Place, sweepId: string): Promise<void> {
  const script = fileURLToPath(new URL('doomed-worker.mjs', import.meta.url))
  const told = [place, { ...impatient, ...shortLock }, sweepId].map((part) => JSON.stringify(part))
  const child = spawn(process.execPath, [script, ...told], { stdio: ['ignore', 'pipe', 'inherit'] })
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve))
  const started = new Promise<'started'>((resolve) => child.stdout.once('data', () => resolve('started')))
  const first = await Promise.race([started, ended])
  if (first !== 'started') throw new Error(`the worker process ended with ${first} before it took the shard`)
  child.kill('SIGKILL')
  await ended
}
