// The end of a sweep, however its front was found: the mail is composed once, and answer, receipt, outbox row and what is
// kept for the next run are written in one transaction.
import { itemSummary } from '@ductwright/contract/batch-summary'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import type { RequestRow } from '@ductwright/records/records'
import type { NewKept } from '@ductwright/records/standing-records'
import type { JobParts } from '../deps.js'
import { answerMail } from '../mail/answer-mail.js'
import { inviteAddress, needsConfirmation } from '../mail/invitation.js'
import type { SweepAnswer } from '../shard-pool.js'
import { type LoadedSweep, questionOf } from '../sweep-source.js'

export async function finishSweep(
  parts: JobParts,
  loaded: LoadedSweep,
  answer: SweepAnswer,
  receipt: Receipt,
): Promise<void> {
  const { records, jobs, log } = parts
  const { sweep, request } = loaded
  await inviteAddress(parts, request)
  const { mail, told } = await answerMail(parts, request, answer, receipt)
  const stored = { result: answer.result, answerHash: answer.answerHash, receipt: JSON.stringify(receipt) }
  const requireConfirmed = needsConfirmation(parts.settings)
  const kept = await records.finishSweep(
    sweep.id,
    { ...stored, ...summaryOf(request, answer), ...keptOf(loaded, answer) },
    mail,
    {
      requireConfirmed,
      told,
    },
  )
  log.info({ request: request.id, sweep: sweep.id, outcome: answer.outcome, mail: mail?.kind, kept }, 'sweep answered')
  if (kept && mail !== null) await jobs.enqueueMail(mail.id)
}

/** Kept beside the answer of a batch's item, for the summary of the batch. */
function summaryOf(request: RequestRow, answer: SweepAnswer): { readonly summary?: string } {
  if (request.batch === null) return {}
  return { summary: canonicalJson(itemSummary(JSON.parse(answer.result) as Result)) }
}

/** A run of a standing request leaves the next one what it needs. */
function keptOf({ request, understood }: LoadedSweep, { keptFront, notes }: SweepAnswer): { readonly kept?: NewKept } {
  if (request.standing === null) return {}
  return { kept: { question: questionOf(understood), front: keptFront, notes } }
}
