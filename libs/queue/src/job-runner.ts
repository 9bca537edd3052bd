// Runs one job: finds its handler, gives it an abort signal, and turns what happens into what BullMQ should do next.
//
//   returns                        -> completed
//   throws, tries left             -> delayed, then waiting again
//   throws, last try or permanent  -> handlers.failed, then failed
//   aborted because of a cancel    -> failed, silently: whoever cancelled knows
//   aborted because of closing     -> waiting again, for another worker
//   its workers died too often     -> handlers.failed, then failed, without a start
//
// handlers.failed runs before the job fails, so that a merge waiting for it finds the failure recorded.

import { type Job, UnrecoverableError, WaitingError } from 'bullmq'
import type { JobData } from './job-ids.js'
import type { JobSettings, JobsLogEntry } from './job-settings.js'
import type { Handlers, JobKind } from './jobs.js'
import { isPermanent } from './permanent-failure.js'

type AbortCause = 'cancelled' | 'closing'

interface Running {
  readonly sweepId: string | undefined
  readonly controller: AbortController
}

export interface RunnerOptions {
  readonly handlers: Handlers
  readonly settings: JobSettings
  /** Was this sweep cancelled after a job of it was enqueued at that time? */
  wasCancelled(sweepId: string, enqueuedAt: number): boolean
}

export class JobRunner {
  readonly #options: RunnerOptions
  readonly #running = new Set<Running>()
  #closing = false

  constructor(options: RunnerOptions) {
    this.#options = options
  }

  abortSweep(sweepId: string): void {
    for (const run of this.#running) if (run.sweepId === sweepId) abort(run, 'cancelled')
  }

  /** Returns running jobs to the queue, and at once those a worker may still pick up. */
  abortAll(): void {
    this.#closing = true
    for (const run of this.#running) abort(run, 'closing')
  }

  /** BullMQ's processor. */
  async run(job: Job<JobData>, token: string): Promise<null> {
    if (this.#closing) return this.#giveUp(job, token, 'closing')
    const { sweepId } = job.data
    if (sweepId !== undefined && this.#options.wasCancelled(sweepId, job.timestamp)) return null
    if (job.stalledCounter > this.#options.settings.maxStalls) return this.#bury(job)
    const run: Running = { sweepId, controller: new AbortController() }
    this.#running.add(run)
    try {
      return await this.#runUnlessAborted(job, token, run.controller.signal)
    } finally {
      this.#running.delete(run)
    }
  }

  async #runUnlessAborted(job: Job<JobData>, token: string, signal: AbortSignal): Promise<null> {
    try {
      await settled(this.#handle(job, signal), signal, this.#options.settings.abortWaitMs)
      return null
    } catch (error) {
      if (signal.aborted) return this.#giveUp(job, token, signal.reason as AbortCause)
      const cause = error instanceof Error ? error.message : String(error)
      if (isLastTry(job) || isPermanent(error)) await this.#report(job, cause)
      else this.#log('warn', 'job-retried', job, cause)
      throw error
    }
  }

  async #handle(job: Job<JobData>, signal: AbortSignal): Promise<void> {
    const { handlers } = this.#options
    const { sweepId = '', index = 0, mailId = '' } = job.data
    switch (job.name as JobKind) {
      case 'plan-sweep':
        return handlers.planSweep(sweepId, signal)
      case 'run-shard':
        return handlers.runShard(sweepId, index, { lastTry: isLastTry(job) }, signal)
      case 'merge-sweep':
        return handlers.mergeSweep(sweepId, signal)
      case 'send-mail':
        return handlers.sendMail(mailId, signal)
    }
  }

  async #giveUp(job: Job<JobData>, token: string, cause: AbortCause): Promise<never> {
    if (cause === 'cancelled') {
      this.#log('info', 'job-cancelled', job)
      throw new UnrecoverableError('the sweep was cancelled')
    }
    await job.moveToWait(token)
    this.#log('info', 'job-returned', job)
    throw new WaitingError()
  }

  async #bury(job: Job<JobData>): Promise<never> {
    const cause = `its worker died or stopped answering ${job.stalledCounter} times`
    await this.#report(job, cause)
    throw new UnrecoverableError(cause)
  }

  async #report(job: Job<JobData>, cause: string): Promise<void> {
    this.#log('error', 'job-failed', job, cause)
    const { sweepId = null, index = null, mailId = null } = job.data
    try {
      await this.#options.handlers.failed({ kind: job.name as JobKind, sweepId, index, mailId }, cause)
    } catch (error) {
      // The job ends regardless: whoever compares rows with live jobs finds a row without one.
      this.#log('error', 'failure-not-recorded', job, String(error))
    }
  }

  #log(level: JobsLogEntry['level'], event: JobsLogEntry['event'], job: Job<JobData>, cause?: string): void {
    const { id = '', queueName: queue } = job
    this.#options.settings.log({ level, event, queue, job: id, ...(cause === undefined ? {} : { cause }) })
  }
}

function abort(run: Running, cause: AbortCause): void {
  run.controller.abort(cause)
}

const isLastTry = (job: Job<JobData>): boolean => job.attemptsMade + 1 >= (job.opts.attempts ?? 1)

/** The handler's own outcome, or a rejection when it does not stop within `abortWaitMs` of being aborted. */
function settled(work: Promise<void>, signal: AbortSignal, abortWaitMs: number): Promise<void> {
  return new Promise((resolve, reject) => {
    let timer: NodeJS.Timeout | undefined
    const arm = (): void => {
      timer = setTimeout(() => reject(new Error('the handler did not stop')), abortWaitMs)
    }
    const disarm = (): void => {
      clearTimeout(timer)
      signal.removeEventListener('abort', arm)
    }
    signal.addEventListener('abort', arm, { once: true })
    work.then(resolve, reject).finally(disarm)
  })
}
