// The mails of standing requests and batches: their letters with the files that belong to them and, at the end, the way out
// for people whose mail program shows no button for it.

import type { BatchSummary } from '@ductwright/contract/batch-summary'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeBatchLetter } from '../batch-letter/compose-batch-letter.js'
import type { Letter } from '../letter.js'
import { type Attachment, answerAttachments, attachment, letterMail, type Mail } from '../mail.js'
import type { ChangedRow } from './answer-change.js'
import { composeChangeLetter } from './compose-change-letter.js'
import { composeTroubleLetter } from './trouble-letter.js'

/** `receipt` is that of the work for `now`, where it is at hand. */
export function changeMail(
  old: Result,
  now: Result,
  rows: readonly ChangedRow[],
  unsubscribeUrl: string,
  receipt: Receipt | null = null,
): Mail {
  const { letter, subject } = composeChangeLetter(old, now, rows, receipt)
  return leaving(letter, subject, answerAttachments(now), unsubscribeUrl)
}

export function troubleMail(title: string, cause: string, unsubscribeUrl: string): Mail {
  const { letter, subject } = composeTroubleLetter(title, cause)
  return leaving(letter, subject, [], unsubscribeUrl)
}

export function batchMail(summary: BatchSummary, unsubscribeUrl: string): Mail {
  const { letter, subject } = composeBatchLetter(summary)
  const file = attachment('ductwright-batch.json', 'application/json', canonicalJson(summary))
  return leaving(letter, subject, [file], unsubscribeUrl)
}

const wayOut = 'No more of these mails:'

/** In plain text the address stands on a line of its own, unbroken however long it is. */
function leaving(letter: Letter, subject: string, attachments: readonly Attachment[], unsubscribeUrl: string): Mail {
  const { html } = letterMail({ ...letter, footer: [...letter.footer, `${wayOut} ${unsubscribeUrl}`] }, subject, [])
  const { text } = letterMail(letter, subject, [])
  return { subject, text: `${text}${wayOut}\n${unsubscribeUrl}\n`, html, attachments }
}
