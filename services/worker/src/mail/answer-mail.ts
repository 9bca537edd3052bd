// The mail about an answer, or none. To a single request it is the answer. To a standing request it is sent only when the
// answer says something else than the one its owner knows, and then it says what changed and why.

import type { Receipt, Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { changed, meaningOf } from '@ductwright/contract/standing-meaning'
import type { AnswerMail } from '@ductwright/records/mail-records'
import type { RequestRow } from '@ductwright/records/records'
import type { StandingRow } from '@ductwright/records/standing-records'
import { changeMail, troubleMail } from '@ductwright/report/change-letter/change-mail'
import { composeMessage, type Envelope, type Message } from '@ductwright/report/mime'
import type { JobParts } from '../deps.js'
import type { SweepAnswer } from '../shard-pool.js'
import { catalogueRows } from './catalogue-rows.js'
import { answerMailId, messageIdOf } from './mail-identity.js'
import { unsubscribeLink } from './unsubscribe-link.js'

export interface Told {
  readonly mail: AnswerMail | null
  /** What the owner of a standing request knew when it was composed. */
  readonly told: string | null
}

/** Every mail carries the way out of it. */
type Compose = (envelope: Envelope & { readonly unsubscribeUrl: string }) => Promise<Message>

/** `receipt` is that of the work for this answer. */
export async function answerMail(
  parts: JobParts,
  request: RequestRow,
  answer: SweepAnswer,
  receipt: Receipt,
): Promise<Told> {
  if (request.address === null) return { mail: null, told: null }
  const now = JSON.parse(answer.result) as Result
  const plain: Compose = (envelope) => parts.pool.composeMail(answer.result, receipt, envelope)
  if (request.standing === null) {
    return { mail: await composed(parts, request, answer.answerHash, 'answer', plain), told: null }
  }
  const standing = await listening(parts, request)
  const told = standing?.toldHash ?? null
  if (standing === null || told === answer.answerHash) return { mail: null, told }
  const old = await knownAnswer(parts, standing)
  if (old === null) return { mail: await composed(parts, request, answer.answerHash, 'answer', plain), told }
  if (!changed(meaningOf(old), meaningOf(now))) return { mail: null, told }
  const rows = await catalogueRows(parts.records, old.catalogue.version, now.catalogue.version)
  const change: Compose = (envelope) =>
    composeMessage(changeMail(old, now, rows, envelope.unsubscribeUrl, receipt), envelope)
  return { mail: await composed(parts, request, answer.answerHash, 'change', change), told }
}

/** The mail that says why a standing request has no answer any more. */
export async function noAnswerMail(parts: JobParts, request: RequestRow, cause: string): Promise<Told> {
  const standing = request.standing === null ? null : await listening(parts, request)
  if (standing === null) return { mail: null, told: null }
  const trouble: Compose = (envelope) =>
    composeMessage(troubleMail(request.title, cause, envelope.unsubscribeUrl), envelope)
  return { mail: await composed(parts, request, `trouble ${cause}`, 'trouble', trouble), told: standing.toldHash }
}

/** null while nothing may be told about this run: paused, revised or deleted since it began. */
async function listening({ records }: JobParts, { standing }: RequestRow): Promise<StandingRow | null> {
  const row = await records.getStanding(standing?.id ?? '')
  return row?.state === 'active' && row.revision === standing?.revision ? row : null
}

/** The answer its owner knows; null when that was none, or one of another edition of the answer's form. */
async function knownAnswer({ records }: JobParts, standing: StandingRow): Promise<Result | null> {
  const stored = standing.toldRunId === null ? null : await records.getAnswer(standing.toldRunId)
  if (stored === null || stored.answerHash !== standing.toldHash) return null
  const json = JSON.parse(stored.result) as Result
  return resultSchema.safeParse(json).success ? json : null
}

async function composed(
  { settings }: JobParts,
  request: RequestRow,
  about: string,
  kind: 'answer' | 'change' | 'trouble',
  compose: Compose,
): Promise<AnswerMail> {
  const id = answerMailId(request.id, about)
  const messageId = messageIdOf(id, settings.mailFrom)
  const address = request.address ?? ''
  const { url, hash } = unsubscribeLink(settings.publicUrl)
  const envelope = { from: settings.mailFrom, to: address, messageId, date: new Date(), unsubscribeUrl: url }
  const { subject, mime } = await compose(envelope)
  return { id, address, kind, subject, messageId, mime, unsubscribeHash: hash }
}
