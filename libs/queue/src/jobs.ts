// The jobs of the pipeline and the one interface above them. Code that enqueues or handles jobs does not know whether
// BullMQ keeps them in the records' own Postgres (embedded or server) or in Redis (see open-jobs.ts). Payloads are ids.

/** What each stage does with its ids. A handler that throws is retried with backoff; after the last try its job fails. */
export interface Handlers {
  /** Splits a sweep into shards and enqueues them. */
  planSweep(sweepId: string, signal: AbortSignal): Promise<void>
  /** Evaluates one shard. `lastTry` is true when a failure now ends the sweep. */
  runShard(sweepId: string, index: number, attempt: { readonly lastTry: boolean }, signal: AbortSignal): Promise<void>
  /** Merges the shard fronts and writes the answer. */
  mergeSweep(sweepId: string, signal: AbortSignal): Promise<void>
  sendMail(mailId: string, signal: AbortSignal): Promise<void>
  /** Called once when a job has failed for good. */
  failed(
    job: {
      readonly kind: JobKind
      readonly sweepId: string | null
      readonly index: number | null
      readonly mailId: string | null
    },
    cause: string,
  ): Promise<void>
}

export type JobKind = 'plan-sweep' | 'run-shard' | 'merge-sweep' | 'send-mail'

export interface Jobs {
  readonly kind: 'embedded' | 'postgres' | 'redis'
  /** Safe to repeat: a live job of the same sweep is left alone. */
  enqueuePlan(sweepId: string): Promise<void>
  /** One flow: a shard job for each index, and the merge when none is left (also after a failed child). */
  enqueueShards(sweepId: string, indices: readonly number[]): Promise<void>
  enqueueMerge(sweepId: string): Promise<void>
  enqueueMail(mailId: string, delayMs?: number): Promise<void>
  /** True while a job for this row waits, is delayed or runs. */
  isLive(job: {
    readonly kind: JobKind
    readonly sweepId?: string
    readonly index?: number
    readonly mailId?: string
  }): Promise<boolean>
  /** Starts taking jobs; at most `shards` shard jobs at once. */
  work(handlers: Handlers, options: { readonly shards: number }): Promise<void>
  /** Aborts running jobs of a sweep on every worker and removes waiting ones. */
  cancelSweep(sweepId: string): Promise<void>
  /** Age in seconds of the oldest waiting job, and how many wait and run. */
  load(): Promise<{ readonly waiting: number; readonly active: number; readonly oldestSeconds: number | null }>
  /** Stops taking jobs, waits for running ones up to `graceMs`, then returns them. */
  close(graceMs?: number): Promise<void>
}
