// Puts a worker together: compute threads, mail delivery, the handlers of the jobs in the order of the pipeline, and the
// reconciler. It opens neither store nor queue, so it runs alone or beside the API in one process.
import type { Handlers } from '@ductwright/queue/jobs'
import type { JobParts, WorkerDeps } from './deps.js'
import { finishBatch } from './jobs/finish-batch.js'
import { mergeSweep } from './jobs/merge-sweep.js'
import { planSweep } from './jobs/plan-sweep.js'
import { runShard } from './jobs/run-shard.js'
import { sendMail } from './jobs/send-mail.js'
import type { Delivery } from './mail/delivery.js'
import { FolderDelivery } from './mail/folder-delivery.js'
import { SmtpDelivery } from './mail/smtp-delivery.js'
import { Reconciler } from './reconciler.js'
import type { WorkerSettings } from './settings.js'
import { ShardPool } from './shard-pool.js'
import { advanceStanding } from './standing-upkeep.js'
import { throughOutages } from './store-outage.js'
import { SweepSource } from './sweep-source.js'

export interface RunningWorker {
  /** Stops taking jobs, lets running ones end for up to `graceMs`, returns the rest, and closes the queue it was given. */
  close(graceMs?: number): Promise<void>
}

const GRACE_MS = 15_000

export async function startWorker(deps: WorkerDeps): Promise<RunningWorker> {
  const { records, jobs, settings, log } = deps
  const parts: JobParts = {
    ...deps,
    pool: new ShardPool({ threads: settings.threads, heapMb: settings.threadHeapMb }),
    source: new SweepSource(records),
    delivery: deliveryOf(settings),
  }
  const reconciler = new Reconciler({
    records,
    jobs,
    log,
    everyMs: settings.reconcileMs,
    merge: (sweepId) => mergeSweep(parts, sweepId),
    begin: () => advanceStanding(parts),
    endBatch: (batchId) => finishBatch(parts, batchId),
  })
  await jobs.work(handlersOf(parts), { shards: settings.threads })
  reconciler.start()
  log.info({ threads: settings.threads, mail: settings.mail.kind }, 'worker started')
  return {
    close: async (graceMs = GRACE_MS) => {
      await reconciler.stop()
      await jobs.close(graceMs)
      await parts.pool.close()
    },
  }
}

function handlersOf(parts: JobParts): Handlers {
  return {
    planSweep: (sweepId, signal) => throughOutages(parts, signal, () => planSweep(parts, sweepId, signal)),
    runShard: (sweepId, index, _attempt, signal) =>
      throughOutages(parts, signal, () => runShard(parts, sweepId, index, signal)),
    mergeSweep: (sweepId, signal) => throughOutages(parts, signal, () => mergeSweep(parts, sweepId, signal)),
    sendMail: (mailId, signal) => throughOutages(parts, signal, () => sendMail(parts, mailId, signal)),
    failed: (job, cause) => recordFailure(parts, job, cause),
  }
}

/** A step that failed for good ends its sweep with the reason; a mail keeps its own account in the outbox. */
async function recordFailure(parts: JobParts, job: Parameters<Handlers['failed']>[0], cause: string): Promise<void> {
  const { records, jobs, log } = parts
  log.error({ kind: job.kind, sweep: job.sweepId, shard: job.index, mail: job.mailId, cause }, 'job failed for good')
  if (job.sweepId === null) return
  const step = job.index === null ? job.kind : `${job.kind} ${job.index}`
  if (await records.failSweep(job.sweepId, `${step} failed: ${cause}`)) await jobs.cancelSweep(job.sweepId)
}

function deliveryOf(settings: WorkerSettings): Delivery {
  const { mail } = settings
  if (mail.kind === 'folder') return new FolderDelivery(mail.folder)
  return new SmtpDelivery(mail.server, settings.mailTimeoutMs)
}
