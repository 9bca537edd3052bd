// How patient the queue is: locks, retries, waits. The defaults are for a service with workers on other threads; tests
// pass shorter ones. Times are milliseconds. `log` is a hook because this library writes nowhere itself.

/** Something the operator may want to read. `event` is a fixed word, the rest is its context. */
export interface JobsLogEntry {
  readonly level: 'info' | 'warn' | 'error'
  readonly event:
    | 'connection-error'
    | 'job-cancelled'
    | 'job-failed'
    | 'job-retried'
    | 'job-returned'
    | 'job-stalled'
    | 'failure-not-recorded'
    | 'lock-lost'
    | 'close-timed-out'
  readonly queue?: string
  readonly job?: string
  readonly cause?: string
}

export interface JobSettings {
  /** A job whose worker has not renewed its lock for this long is taken to be dead. */
  readonly lockMs: number
  /** How often workers look for dead jobs; a dead one is rerun within about lock + two checks. */
  readonly stalledCheckMs: number
  /** Deaths a job may survive; one more and it fails for good. */
  readonly maxStalls: number
  /** Starts of a plan, shard or merge whose handler throws. */
  readonly attempts: number
  /** First wait before such a retry; doubles each time. */
  readonly backoffMs: number
  /** Mail servers need more patience: eight tries from 15 s span about half an hour. */
  readonly mailAttempts: number
  readonly mailBackoffMs: number
  /** Plans and merges at once; mails at once. */
  readonly steps: number
  readonly mails: number
  /** An aborted handler that has not settled after this is left behind, and its job moves on without it. */
  readonly abortWaitMs: number
  /** An enqueue, look-up or cancel that Redis has not answered by then is refused. */
  readonly commandTimeoutMs: number
  /** How long the start waits for Redis to be reachable. */
  readonly connectTimeoutMs: number
  /** How often the embedded database reclaims the space of finished jobs. */
  readonly upkeepMs: number
  /** Accept a Redis without append-only file: after its restart, jobs come back only from the records. */
  readonly allowVolatileRedis: boolean
  readonly log: (entry: JobsLogEntry) => void
}

export const defaultJobSettings: JobSettings = {
  lockMs: 15_000,
  stalledCheckMs: 5_000,
  maxStalls: 3,
  attempts: 3,
  backoffMs: 1_000,
  mailAttempts: 8,
  mailBackoffMs: 15_000,
  steps: 4,
  mails: 4,
  abortWaitMs: 1_000,
  commandTimeoutMs: 5_000,
  connectTimeoutMs: 10_000,
  upkeepMs: 600_000,
  allowVolatileRedis: false,
  log: () => undefined,
}

/** Defaults filled in, and every number checked. */
export function jobSettings(given: Partial<JobSettings>): JobSettings {
  const settings = { ...defaultJobSettings, ...given }
  for (const [name, value] of Object.entries(settings)) {
    const least = name === 'maxStalls' ? 0 : 1
    if (typeof value === 'number' && !(Number.isSafeInteger(value) && value >= least)) {
      throw new RangeError(`${name} must be a whole number of at least ${least}, got ${value}`)
    }
  }
  return settings
}
