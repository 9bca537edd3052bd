// First job of a sweep: answers it at once where an earlier run left enough, else splits it into shards and enqueues them.
// Repeating it changes nothing, so a crash between storing the plan and enqueueing the shards is mended by running it again.
import { InputError } from '@ductwright/contract/fault'
import type { JobParts } from '../deps.js'
import { noAnswerMail } from '../mail/answer-mail.js'
import { inviteAddress, needsConfirmation } from '../mail/invitation.js'
import { writeRange } from '../shard-record.js'
import type { LoadedSweep } from '../sweep-source.js'
import { takeOver } from './take-over.js'

export async function planSweep(parts: JobParts, sweepId: string, signal: AbortSignal): Promise<void> {
  const { jobs, log } = parts
  try {
    const loaded = await parts.source.open(sweepId)
    if (loaded === null) return
    if (loaded.sweep.shardCount === null && (await takeOver(parts, loaded, signal))) return
    const shards = loaded.sweep.shardCount ?? (await plan(parts, loaded))
    await jobs.enqueueShards(sweepId, [...Array(shards).keys()])
    log.info({ request: loaded.request.id, sweep: sweepId, shards }, 'sweep planned')
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    await refuse(parts, sweepId, error.message)
  }
}

/**
 * The request was judged when it was accepted, so the rules or the catalogue have changed since; trying again cannot help.
 * The owner of a standing request is told, once for each reason.
 */
async function refuse(parts: JobParts, sweepId: string, cause: string): Promise<void> {
  const { records, jobs, log, settings } = parts
  const sweep = await records.getSweep(sweepId)
  const request = sweep === null ? null : await records.getRequest(sweep.requestId)
  const { mail, told } = request === null ? { mail: null, told: null } : await noAnswerMail(parts, request, cause)
  const failed = await records.failSweep(sweepId, cause, mail, { requireConfirmed: needsConfirmation(settings), told })
  log.warn({ sweep: sweepId }, 'sweep refused while planning')
  if (failed && mail !== null) await jobs.enqueueMail(mail.id)
}

async function plan(parts: JobParts, loaded: LoadedSweep): Promise<number> {
  const { records, pool } = parts
  const { ranges } = await pool.plan(loaded.inputs)
  await inviteAddress(parts, loaded.request)
  const stored = ranges.map((range) => ({ range: writeRange(range), work: range.work }))
  const sweep = await records.planSweep(loaded.sweep.id, stored)
  return sweep.shardCount ?? 0
}
