// Opens the job queue: BullMQ in the records' Postgres or in Redis behind the Jobs interface. A process that only
// enqueues opens it and never calls work(); one that works gets a worker for each queue and hears cancels.

import { type Backend, type BackendOptions, openBackend } from './backend.js'
import { CancelSignals } from './cancel-signals.js'
import type { JobRow } from './job-ids.js'
import { JobProducer } from './job-producer.js'
import { type JobSettings, jobSettings } from './job-settings.js'
import { Work } from './job-workers.js'
import type { Handlers, Jobs } from './jobs.js'

export type { BackendOptions }

/** Leaves a service that must stop within 30 s time for the rest. */
const defaultGraceMs = 20_000

/** The pool stays the caller's: close the jobs first, then the pool. */
export async function openJobs(options: BackendOptions, given: Partial<JobSettings> = {}): Promise<Jobs> {
  const settings = jobSettings(given)
  return new QueuedJobs(await openBackend(options, settings), settings)
}

class QueuedJobs implements Jobs {
  readonly kind: Jobs['kind']
  readonly #backend: Backend
  readonly #settings: JobSettings
  readonly #producer: JobProducer
  readonly #signals: CancelSignals
  #work: Promise<Work> | null = null
  #closed: Promise<void> | null = null

  constructor(backend: Backend, settings: JobSettings) {
    this.kind = backend.kind
    this.#backend = backend
    this.#settings = settings
    this.#producer = new JobProducer(backend, settings)
    this.#signals = new CancelSignals(backend, settings)
  }

  enqueuePlan(sweepId: string): Promise<void> {
    return this.#producer.enqueue({ kind: 'plan-sweep', sweepId })
  }

  enqueueShards(sweepId: string, indices: readonly number[]): Promise<void> {
    return this.#producer.enqueueShards(sweepId, indices)
  }

  enqueueMerge(sweepId: string): Promise<void> {
    return this.#producer.enqueue({ kind: 'merge-sweep', sweepId })
  }

  enqueueMail(mailId: string, delayMs = 0): Promise<void> {
    return this.#producer.enqueue({ kind: 'send-mail', mailId }, delayMs)
  }

  isLive(job: JobRow): Promise<boolean> {
    return this.#producer.isLive(job)
  }

  async work(handlers: Handlers, { shards }: { readonly shards: number }): Promise<void> {
    if (this.#closed !== null) throw new Error('work() was called after close()')
    if (this.#work !== null) throw new Error('work() was called twice: one set of workers a process')
    if (!Number.isSafeInteger(shards) || shards < 1) throw new RangeError(`shards must be at least 1, got ${shards}`)
    this.#work = Work.start({
      backend: this.#backend,
      signals: this.#signals,
      settings: this.#settings,
      handlers,
      shards,
    })
    await this.#work
  }

  async cancelSweep(sweepId: string): Promise<void> {
    await this.#signals.cancel(sweepId)
    await this.#producer.removeSweep(sweepId)
  }

  load(): ReturnType<Jobs['load']> {
    return this.#producer.load()
  }

  close(graceMs = defaultGraceMs): Promise<void> {
    this.#closed ??= this.#close(graceMs)
    return this.#closed
  }

  async #close(graceMs: number): Promise<void> {
    try {
      const work = await this.#work?.catch(() => null)
      await work?.close(graceMs)
      await Promise.all([this.#producer.close(), this.#signals.close()])
    } finally {
      await this.#backend.close()
    }
  }
}
