// The working side of a process: one BullMQ worker for each queue, all feeding one runner, and an ear for cancels.

import type { Job } from 'bullmq'
import type { Backend, JobWorker } from './backend.js'
import type { CancelListener, CancelSignals } from './cancel-signals.js'
import { type JobData, type QueueName, queueNames } from './job-ids.js'
import { JobRunner } from './job-runner.js'
import type { JobSettings } from './job-settings.js'
import type { Handlers } from './jobs.js'

/** After an outage a worker asks again this often. */
const retryMs = 1_000
/** The runner counts deaths itself: BullMQ would fail such a job before anybody has heard of it. */
const unlimited = 1_000_000
/** What connections may take to say goodbye once nothing runs any more. */
const farewellMs = 3_000

export interface WorkOptions {
  readonly backend: Backend
  readonly signals: CancelSignals
  readonly settings: JobSettings
  readonly handlers: Handlers
  /** Shards at once. */
  readonly shards: number
}

export class Work {
  readonly #options: WorkOptions
  readonly #runner: JobRunner
  readonly #cancels: CancelListener
  readonly #workers: readonly JobWorker[]

  private constructor(options: WorkOptions, runner: JobRunner, cancels: CancelListener) {
    this.#options = options
    this.#runner = runner
    this.#cancels = cancels
    this.#workers = queueNames.map((queue) => this.#openWorker(queue))
  }

  /** Hears cancels before the first job is taken. */
  static async start(options: WorkOptions): Promise<Work> {
    const { handlers, settings, signals } = options
    const wasCancelled = (sweepId: string, enqueuedAt: number): boolean => cancels.covers(sweepId, enqueuedAt)
    const runner = new JobRunner({ handlers, settings, wasCancelled })
    const cancels = await signals.listen((sweepId) => runner.abortSweep(sweepId))
    return new Work(options, runner, cancels)
  }

  /** Takes no new job, lets running ones finish for `graceMs`, returns the others to the queue. */
  async close(graceMs: number): Promise<void> {
    const { abortWaitMs, log } = this.#options.settings
    const abort = setTimeout(() => this.#runner.abortAll(), graceMs)
    const closed = await within(graceMs + abortWaitMs + farewellMs, this.#closeWorkers())
    clearTimeout(abort)
    if (!closed) log({ level: 'warn', event: 'close-timed-out' })
  }

  async #closeWorkers(): Promise<void> {
    await Promise.all(this.#workers.map((worker) => worker.close()))
    await this.#cancels.close()
  }

  #openWorker(queue: QueueName): JobWorker {
    const { backend, settings } = this.#options
    const process = (job: Job<JobData>, token?: string): Promise<null> => this.#runner.run(job, token ?? '')
    const worker = new backend.classes.Worker(queue, process, {
      ...backend.working,
      concurrency: this.#concurrency(queue),
      lockDuration: settings.lockMs,
      stalledInterval: settings.stalledCheckMs,
      maxStalledCount: unlimited,
      runRetryDelay: retryMs,
    })
    this.#watch(queue, worker)
    return worker
  }

  #concurrency(queue: QueueName): number {
    const { settings, shards } = this.#options
    if (queue === 'sweep-shards') return shards
    return queue === 'mails' ? settings.mails : settings.steps
  }

  #watch(queue: QueueName, worker: JobWorker): void {
    const { log } = this.#options.settings
    worker.on('error', (error) => log({ level: 'error', event: 'connection-error', queue, cause: error.message }))
    worker.on('stalled', (job) => log({ level: 'warn', event: 'job-stalled', queue, job }))
    // The job goes on: if another worker took it over meanwhile, the records refuse the late result.
    worker.on('lockRenewalFailed', (jobs) => {
      for (const job of jobs) log({ level: 'warn', event: 'lock-lost', queue, job })
    })
  }
}

/** True when the work ended in time; its failure counts as an end. */
async function within(limitMs: number, work: Promise<void>): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<false>((resolve) => {
    timer = setTimeout(resolve, limitMs, false)
  })
  const ended = work.then(
    () => true,
    () => true,
  )
  const inTime = await Promise.race([ended, late])
  clearTimeout(timer)
  return inTime
}
