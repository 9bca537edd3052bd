// Makes the queue follow the records: whatever should be worked on and has no live job gets one, at the start and then
// again and again. It is what makes an exit between "stored" and "enqueued", a lost queue, and a mail that waits for its
// next try harmless. Repeating it changes nothing.
//
// It is also where things begin and end that no job stands for: the runs of standing requests, and the summary of a batch
// whose items have all ended.
//
// A merge is the one job that waits for others. When all shards of a sweep are done and its merge still only waits, round
// after round, the jobs it waits for are gone; the merge is then run from here.
import type { Jobs } from '@ductwright/queue/jobs'
import type { Records } from '@ductwright/records/records'
import type { Logger } from 'pino'

export interface ReconcilerParts {
  readonly records: Records
  readonly jobs: Jobs
  readonly log: Logger
  readonly everyMs: number
  merge(sweepId: string): Promise<void>
  /** Starts what is due of itself, as rows; how many. */
  begin(): Promise<number>
  endBatch(batchId: string): Promise<void>
}

/** Rounds a merge may wait, or run, with all its shards done. */
const PATIENCE = 3

export class Reconciler {
  readonly #parts: ReconcilerParts
  /** Sweeps ready to be merged although a job claims to be at it, and for how many rounds. */
  #overdue: ReadonlyMap<string, number> = new Map()
  #timer: NodeJS.Timeout | null = null
  #running: Promise<void> = Promise.resolve()
  #stopped = false

  constructor(parts: ReconcilerParts) {
    this.#parts = parts
  }

  start(): void {
    this.#running = this.#round()
  }

  async stop(): Promise<void> {
    this.#stopped = true
    if (this.#timer !== null) clearTimeout(this.#timer)
    await this.#running
  }

  async #round(): Promise<void> {
    try {
      const enqueued = await this.reconcile()
      if (enqueued > 0) this.#parts.log.info({ enqueued }, 'unfinished work enqueued')
    } catch (error) {
      if (!this.#stopped) this.#parts.log.warn({ err: error }, 'could not look for unfinished work')
    }
    if (this.#stopped) return
    this.#timer = setTimeout(() => {
      this.#running = this.#round()
    }, this.#parts.everyMs)
  }

  /** One round; the number of rows that got a job. */
  async reconcile(): Promise<number> {
    await this.#apart('standing requests', () => this.#parts.begin())
    const { unplanned, shards, unmerged, mails, batches } = await this.#parts.records.unfinished()
    const plans = await this.#idle(unplanned, (sweepId) => ({ kind: 'plan-sweep' as const, sweepId }))
    for (const sweepId of plans) await this.#parts.jobs.enqueuePlan(sweepId)
    const idleShards = await this.#idle(shards, (shard) => ({ kind: 'run-shard' as const, ...shard }))
    for (const [sweepId, indices] of bySweep(idleShards)) await this.#parts.jobs.enqueueShards(sweepId, indices)
    const merges = await this.#idle(unmerged, (sweepId) => ({ kind: 'merge-sweep' as const, sweepId }))
    for (const sweepId of merges) await this.#parts.jobs.enqueueMerge(sweepId)
    await this.#mergeOverdue(unmerged.filter((sweepId) => !merges.includes(sweepId)))
    const idleMails = await this.#idle(mails, (mailId) => ({ kind: 'send-mail' as const, mailId }))
    for (const mailId of idleMails) await this.#parts.jobs.enqueueMail(mailId)
    for (const batchId of batches) await this.#apart(`batch ${batchId}`, () => this.#parts.endBatch(batchId))
    return plans.length + idleShards.length + merges.length + idleMails.length
  }

  /** One of these that fails, round after round, must not keep everything else from its job. */
  async #apart(what: string, work: () => Promise<unknown>): Promise<void> {
    try {
      await work()
    } catch (error) {
      if (!this.#stopped) this.#parts.log.warn({ err: error, what }, 'not done in this round')
    }
  }

  async #mergeOverdue(busy: readonly string[]): Promise<void> {
    this.#overdue = new Map(busy.map((sweepId) => [sweepId, (this.#overdue.get(sweepId) ?? 0) + 1]))
    for (const [sweepId, rounds] of this.#overdue) {
      if (rounds <= PATIENCE) continue
      this.#parts.log.warn({ sweep: sweepId }, 'its merge waits for jobs that are gone; merging here')
      await this.#parts.merge(sweepId)
      await this.#parts.jobs.cancelSweep(sweepId)
    }
  }

  async #idle<Row>(rows: readonly Row[], jobOf: (row: Row) => Parameters<Jobs['isLive']>[0]): Promise<Row[]> {
    const idle: Row[] = []
    for (const row of rows) if (!this.#stopped && !(await this.#parts.jobs.isLive(jobOf(row)))) idle.push(row)
    return idle
  }
}

function bySweep(shards: readonly { readonly sweepId: string; readonly index: number }[]): Map<string, number[]> {
  const groups = new Map<string, number[]>()
  for (const { sweepId, index } of shards) groups.set(sweepId, [...(groups.get(sweepId) ?? []), index])
  return groups
}
