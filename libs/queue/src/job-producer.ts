// Puts jobs into the queues, looks at them and takes them out. Finished jobs leave nothing behind: outcomes are rows of
// the records, failures are reported to handlers.failed, and a finished row's id is free for its next job at once.

import type { FlowJob, JobsOptions } from 'bullmq'
import type { Backend, JobQueue } from './backend.js'
import {
  type JobData,
  type JobRow,
  jobId,
  type MergeSlot,
  mergeSlots,
  type QueueName,
  queueNames,
  queueOf,
} from './job-ids.js'
import type { JobSettings } from './job-settings.js'
import type { JobKind, Jobs } from './jobs.js'

const liveStates: ReadonlySet<string> = new Set(['waiting', 'delayed', 'active', 'prioritized', 'waiting-children'])

/** Events that BullMQ writes for each job and nobody here reads. */
const keptEvents = 100

export class JobProducer {
  readonly #settings: JobSettings
  readonly #queues: ReadonlyMap<QueueName, JobQueue>
  readonly #flows

  constructor(backend: Backend, settings: JobSettings) {
    this.#settings = settings
    const options = { ...backend.asking, streams: { events: { maxLen: keptEvents } } }
    this.#queues = new Map(queueNames.map((name) => [name, new backend.classes.Queue(name, options)]))
    this.#flows = new backend.classes.FlowProducer(backend.asking)
    for (const [name, queue] of this.#queues) queue.on('error', this.#logError(name))
    this.#flows.on('error', this.#logError('flows'))
  }

  async enqueue(row: JobRow, delayMs = 0): Promise<void> {
    const { kind, ...data } = row
    if (kind === 'merge-sweep' && (await this.isLive(row))) return
    await this.#queue(kind).add(kind, data, { ...this.#jobOptions(row), delay: delayMs })
  }

  async enqueueShards(sweepId: string, indices: readonly number[]): Promise<void> {
    if (indices.length === 0) return this.enqueue({ kind: 'merge-sweep', sweepId })
    const slot = await this.#freeMergeSlot(sweepId, indices)
    if (slot !== null) await this.#flows.add(this.#shardFlow(sweepId, indices, slot))
  }

  async isLive(row: JobRow): Promise<boolean> {
    const slots: readonly MergeSlot[] = row.kind === 'merge-sweep' ? mergeSlots : [1]
    for (const slot of slots) if (liveStates.has(await this.#state(row, slot))) return true
    return false
  }

  /** Removes what has not started; what runs is locked and stays. The merge goes first, or its last shard would start it. */
  async removeSweep(sweepId: string): Promise<void> {
    const steps = this.#queue('plan-sweep')
    let last = -1
    for (const slot of mergeSlots) {
      const id = jobId({ kind: 'merge-sweep', sweepId }, slot)
      const merge = await steps.getJob(id)
      last = Math.max(last, merge?.data.last ?? -1)
      await steps.remove(id, { removeChildren: false })
    }
    await steps.remove(jobId({ kind: 'plan-sweep', sweepId }))
    const shards = this.#queue('run-shard')
    for (let index = 0; index <= last; index++) await shards.remove(jobId({ kind: 'run-shard', sweepId, index }))
  }

  async load(): ReturnType<Jobs['load']> {
    const loads = await Promise.all([...this.#queues.values()].map(queueLoad))
    const ages = loads.map((load) => load.oldestSeconds).filter((age) => age !== null)
    return {
      waiting: loads.reduce((sum, load) => sum + load.waiting, 0),
      active: loads.reduce((sum, load) => sum + load.active, 0),
      oldestSeconds: ages.length === 0 ? null : Math.max(...ages),
    }
  }

  async close(): Promise<void> {
    await Promise.all([this.#flows.close(), ...[...this.#queues.values()].map((queue) => queue.close())])
  }

  /**
   * Where the merge of these shards can go; null when such a merge waits already and lacks none of them. A merge that
   * waits for jobs which no longer exist is replaced, or it would wait for ever.
   */
  async #freeMergeSlot(sweepId: string, indices: readonly number[]): Promise<MergeSlot | null> {
    for (const slot of mergeSlots) {
      const state = await this.#state({ kind: 'merge-sweep', sweepId }, slot)
      if (state === 'unknown') return slot
      if (state !== 'waiting-children') continue
      if (await this.#allLive(sweepId, indices)) return null
      await this.#queue('merge-sweep').remove(jobId({ kind: 'merge-sweep', sweepId }, slot), { removeChildren: false })
      return slot
    }
    return null
  }

  async #allLive(sweepId: string, indices: readonly number[]): Promise<boolean> {
    const live = await Promise.all(indices.map((index) => this.isLive({ kind: 'run-shard', sweepId, index })))
    return live.every(Boolean)
  }

  #shardFlow(sweepId: string, indices: readonly number[], slot: MergeSlot): FlowJob {
    const merge: JobRow = { kind: 'merge-sweep', sweepId }
    const data: JobData = { sweepId, last: Math.max(...indices) }
    return {
      name: merge.kind,
      queueName: queueOf(merge.kind),
      data,
      opts: this.#jobOptions(merge, slot),
      children: indices.map((index) => this.#shardNode({ kind: 'run-shard', sweepId, index })),
    }
  }

  #shardNode(row: JobRow & { readonly kind: 'run-shard' }) {
    const { kind, ...data } = row
    // The merge must come even when a shard has failed for good: it is what notices the gap.
    const opts = { ...this.#jobOptions(row), ignoreDependencyOnFailure: true }
    return { name: kind, queueName: queueOf(kind), data, opts }
  }

  #jobOptions(row: JobRow, slot: MergeSlot = 1): JobsOptions {
    const { attempts, backoffMs, mailAttempts, mailBackoffMs } = this.#settings
    const isMail = row.kind === 'send-mail'
    return {
      jobId: jobId(row, slot),
      attempts: isMail ? mailAttempts : attempts,
      backoff: { type: 'exponential', delay: isMail ? mailBackoffMs : backoffMs },
      removeOnComplete: true,
      removeOnFail: true,
    }
  }

  #logError(queue: string): (error: Error) => void {
    return (error) => this.#settings.log({ level: 'error', event: 'connection-error', queue, cause: error.message })
  }

  #state(row: JobRow, slot: MergeSlot = 1): Promise<string> {
    return this.#queue(row.kind).getJobState(jobId(row, slot))
  }

  #queue(kind: JobKind): JobQueue {
    return this.#queues.get(queueOf(kind))!
  }
}

/** How many of the longest waiting jobs are looked at: jobs may be taken between counting and looking. */
const oldestWindow = 16

async function queueLoad(queue: JobQueue): ReturnType<Jobs['load']> {
  const { waiting = 0, delayed = 0, active = 0 } = await queue.getJobCounts('waiting', 'delayed', 'active')
  // Newest first on every backend, so the end of the list is the oldest.
  const oldest = waiting === 0 ? [] : await queue.getJobs(['waiting'], Math.max(0, waiting - oldestWindow), -1)
  const since = Math.min(...oldest.map((job) => job.timestamp))
  const oldestSeconds = oldest.length === 0 ? null : Math.max(0, (Date.now() - since) / 1000)
  return { waiting: waiting + delayed, active, oldestSeconds }
}
