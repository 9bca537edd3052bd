// Last job of a sweep: merges the shard fronts into the answer, composes the mail once, and writes answer, receipt and
// outbox row in one transaction. A missing or damaged shard sends the sweep back to computing that shard.
import { itemSummary } from '@ductwright/contract/batch-summary'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import type { RequestRow } from '@ductwright/records/records'
import type { JobParts } from '../deps.js'
import { answerMail } from '../mail/answer-mail.js'
import { inviteAddress, needsConfirmation } from '../mail/invitation.js'
import { receiptOf } from '../receipt.js'
import type { SweepAnswer } from '../shard-pool.js'
import { readShardRecord } from '../shard-record.js'
import { StageClock } from '../stage-clock.js'
import type { LoadedSweep } from '../sweep-source.js'

export async function mergeSweep(parts: JobParts, sweepId: string, signal?: AbortSignal): Promise<void> {
  const { records, pool } = parts
  const loaded = await parts.source.open(sweepId)
  if (loaded === null) return
  const { fronts, missing } = await records.shardFronts(sweepId)
  if (missing.length > 0) return computeAgain(parts, sweepId, missing)
  const shards = fronts.map(readShardRecord)
  const found = shards.map(({ front }) => front)
  const clock = new StageClock()
  const answer = await clock.time('answer', () => pool.answer(loaded.inputs, found, signal))
  const evaluating = shards.reduce((sum, shard) => sum + shard.seconds, 0)
  const started = loaded.request.createdAt
  const work = {
    started,
    seconds: Math.max(0, Date.now() - Date.parse(started)) / 1000,
    threads: parts.settings.threads,
    stages: [{ stage: 'evaluate', seconds: Math.round(evaluating * 1000) / 1000 }, ...clock.stages],
  }
  await finish(parts, loaded, answer, receiptOf(work, found))
}

/** A shard whose job still lives is left to it: once it is done, the reconciler finds the sweep ready to be merged. */
async function computeAgain({ jobs, log }: JobParts, sweepId: string, missing: readonly number[]): Promise<void> {
  const live = await Promise.all(missing.map((index) => jobs.isLive({ kind: 'run-shard', sweepId, index })))
  const idle = missing.filter((_, at) => live[at] !== true)
  log.warn({ sweep: sweepId, missing, idle }, 'shards missing')
  if (idle.length > 0) await jobs.enqueueShards(sweepId, idle)
}

async function finish(parts: JobParts, loaded: LoadedSweep, answer: SweepAnswer, receipt: Receipt): Promise<void> {
  const { records, jobs, log } = parts
  const { sweep, request } = loaded
  await inviteAddress(parts, request)
  const { mail, told } = await answerMail(parts, request, answer, receipt)
  const stored = { result: answer.result, answerHash: answer.answerHash, receipt: JSON.stringify(receipt) }
  const requireConfirmed = needsConfirmation(parts.settings)
  const kept = await records.finishSweep(sweep.id, { ...stored, ...summaryOf(request, answer) }, mail, {
    requireConfirmed,
    told,
  })
  log.info({ request: request.id, sweep: sweep.id, outcome: answer.outcome, mail: mail?.kind, kept }, 'sweep answered')
  if (kept && mail !== null) await jobs.enqueueMail(mail.id)
}

/** Kept beside the answer of a batch's item, for the summary of the batch. */
function summaryOf(request: RequestRow, answer: SweepAnswer): { readonly summary?: string } {
  if (request.batch === null) return {}
  return { summary: canonicalJson(itemSummary(JSON.parse(answer.result) as Result)) }
}
