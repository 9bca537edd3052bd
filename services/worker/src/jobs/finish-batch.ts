// Last step of a batch: every item has ended, so the summary is put together from what was kept beside each answer, and it
// is mailed once. Repeating it changes nothing.
import { type BatchSummary, batchSummary, type ItemSummary } from '@ductwright/contract/batch-summary'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { BatchItemRow, BatchRow } from '@ductwright/records/batch-records'
import type { AnswerMail } from '@ductwright/records/mail-records'
import { batchMail } from '@ductwright/report/change-letter/change-mail'
import { composeMessage } from '@ductwright/report/mime'
import type { JobParts } from '../deps.js'
import { inviteAddress, needsConfirmation } from '../mail/invitation.js'
import { batchMailId, messageIdOf } from '../mail/mail-identity.js'
import { unsubscribeLink } from '../mail/unsubscribe-link.js'

export async function finishBatch(parts: JobParts, batchId: string): Promise<void> {
  const { records, jobs, log } = parts
  const batch = await records.getBatch(batchId)
  if (batch === null || batch.state === 'ended') return
  const summary = batchSummary(batch.title, (await records.batchItems(batchId)).map(endedItem))
  await inviteAddress(parts, { owner: { batchId }, id: batchId, title: batch.title, address: batch.address })
  const mail = batch.address === null ? null : await summaryMail(parts, batch, summary)
  const requireConfirmed = needsConfirmation(parts.settings)
  const kept = await records.finishBatch(batchId, canonicalJson(summary), mail, { requireConfirmed })
  log.info({ batch: batchId, items: batch.itemCount, kept }, 'batch ended')
  if (kept && mail !== null) await jobs.enqueueMail(mail.id)
}

const endedItem = ({ index, requestId, title, state, cause, summary }: BatchItemRow) => ({
  index,
  request: requestId,
  title,
  state,
  cause,
  summary: summary === null ? null : (JSON.parse(summary) as ItemSummary),
})

async function summaryMail({ settings }: JobParts, batch: BatchRow, summary: BatchSummary): Promise<AnswerMail> {
  const id = batchMailId(batch.id)
  const messageId = messageIdOf(id, settings.mailFrom)
  const address = batch.address ?? ''
  const { url, hash } = unsubscribeLink(settings.publicUrl)
  const envelope = { from: settings.mailFrom, to: address, messageId, date: new Date(), unsubscribeUrl: url }
  const { subject, mime } = await composeMessage(batchMail(summary, url), envelope)
  return { id, address, kind: 'batch', subject, messageId, mime, unsubscribeHash: hash }
}
