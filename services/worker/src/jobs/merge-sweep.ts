// Last job of a sweep: merges the shard fronts into the answer. A missing or damaged shard sends the sweep back to computing
// that shard.
import type { JobParts } from '../deps.js'
import { receiptOf } from '../receipt.js'
import { readShardRecord } from '../shard-record.js'
import { StageClock } from '../stage-clock.js'
import { finishSweep } from './finish-sweep.js'

export async function mergeSweep(parts: JobParts, sweepId: string, signal?: AbortSignal): Promise<void> {
  const { records, pool } = parts
  const loaded = await parts.source.open(sweepId)
  if (loaded === null) return
  const { fronts, missing } = await records.shardFronts(sweepId)
  if (missing.length > 0) return computeAgain(parts, sweepId, missing)
  const shards = fronts.map(readShardRecord)
  const clock = new StageClock()
  const answer = await clock.time('answer', () => pool.answer(loaded.inputs, shards, signal))
  const evaluating = shards.reduce((sum, shard) => sum + shard.seconds, 0)
  const started = loaded.request.createdAt
  const work = {
    started,
    seconds: Math.max(0, Date.now() - Date.parse(started)) / 1000,
    threads: parts.settings.threads,
    stages: [{ stage: 'evaluate', seconds: Math.round(evaluating * 1000) / 1000 }, ...clock.stages],
  }
  const receipt = receiptOf(
    work,
    shards.map(({ front }) => front),
  )
  await finishSweep(parts, loaded, answer, receipt)
}

/** A shard whose job still lives is left to it: once it is done, the reconciler finds the sweep ready to be merged. */
async function computeAgain({ jobs, log }: JobParts, sweepId: string, missing: readonly number[]): Promise<void> {
  const live = await Promise.all(missing.map((index) => jobs.isLive({ kind: 'run-shard', sweepId, index })))
  const idle = missing.filter((_, at) => live[at] !== true)
  log.warn({ sweep: sweepId, missing, idle }, 'shards missing')
  if (idle.length > 0) await jobs.enqueueShards(sweepId, idle)
}
