// Evaluates one shard on a thread under a lease. The event loop stays free to renew lease and lock; the token in the lease
// refuses a late write. A shard that was started too often without finishing ends its sweep, and only that one.
import { setTimeout as sleep } from 'node:timers/promises'
import type { ShardLease } from '@ductwright/records/records'
import type { JobParts } from '../deps.js'
import { LeaseKeeper } from '../lease-keeper.js'
import { readRange, writeShardRecord } from '../shard-record.js'
import type { LoadedSweep } from '../sweep-source.js'

/** How often a shard held by another, maybe dead, worker is asked for. */
const ASK_AGAIN_MS = 1000

export async function runShard(parts: JobParts, sweepId: string, index: number, signal: AbortSignal): Promise<void> {
  const loaded = await parts.source.open(sweepId)
  if (loaded === null) return
  const lease = await takeShard(parts, sweepId, index, signal)
  if (lease === null) return
  if (lease.starts > parts.settings.shardStartsMax) return giveUp(parts, lease)
  await compute(parts, loaded, lease, signal)
}

/** null when the shard is done or its sweep has ended; a live lease of another worker is waited for. */
async function takeShard(
  parts: JobParts,
  sweepId: string,
  index: number,
  signal: AbortSignal,
): Promise<ShardLease | null> {
  const { records, settings } = parts
  while (true) {
    signal.throwIfAborted()
    const lease = await records.leaseShard(sweepId, index, settings.leaseMs)
    if (lease !== null) return lease
    if (!(await isOpen(parts, sweepId, index))) return null
    await sleep(ASK_AGAIN_MS, undefined, { signal }).catch(() => {})
  }
}

async function isOpen(parts: JobParts, sweepId: string, index: number): Promise<boolean> {
  const sweep = await parts.records.getSweep(sweepId)
  if (sweep?.state !== 'sweeping') return false
  return (await parts.records.shardFronts(sweepId)).missing.includes(index)
}

async function giveUp(parts: JobParts, lease: ShardLease): Promise<void> {
  const { records, jobs, settings, log } = parts
  const cause = `Shard ${lease.index} was started ${settings.shardStartsMax} times and never finished.`
  await records.failSweep(lease.sweepId, cause)
  log.error({ sweep: lease.sweepId, shard: lease.index }, 'shard given up')
  await jobs.cancelSweep(lease.sweepId)
}

async function compute(parts: JobParts, loaded: LoadedSweep, lease: ShardLease, signal: AbortSignal): Promise<void> {
  const { records, pool, settings } = parts
  const log = parts.log.child({ request: loaded.request.id, sweep: lease.sweepId, shard: lease.index })
  const keeper = new LeaseKeeper(records, lease, settings.leaseMs, log)
  const begun = performance.now()
  try {
    const { front, certificate } = await pool.evaluate(loaded.inputs, readRange(lease.range), {
      signal: AbortSignal.any([signal, keeper.lost, AbortSignal.timeout(settings.shardTimeoutMs)]),
      onProgress: (share) => keeper.progress(share),
      // The next run of a standing request starts from it.
      ...(loaded.request.standing === null ? {} : { how: 'certify' }),
    })
    const seconds = Math.round(performance.now() - begun) / 1000
    const kept = await records.finishShard(lease, writeShardRecord({ front, seconds, certificate }))
    log.info({ seconds, starts: lease.starts }, kept ? 'shard finished' : 'late shard refused')
  } catch (error) {
    if (keeper.lost.aborted) {
      log.info('shard left: its lease was lost or its sweep has ended')
      return
    }
    await giveBack(parts, lease, error)
    throw error
  } finally {
    keeper.stop()
  }
}

/** Frees the shard for the next try at once instead of when the lease runs out; failing to is only slower. */
async function giveBack(parts: JobParts, lease: ShardLease, reason: unknown): Promise<void> {
  const words = reason instanceof Error ? reason.message : String(reason)
  try {
    await parts.records.releaseShard(lease, words)
  } catch (error) {
    parts.log.warn({ sweep: lease.sweepId, shard: lease.index, err: error }, 'lease not given back')
  }
}
