// Whole messages, ready for the wire: one recipient, text and HTML, the files. The same input gives the same bytes, since
// identity and date are handed in and the part boundaries are drawn from the identity, so a resend is the same mail.
import { singleAddress } from '@ductwright/contract/address'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { Result } from '@ductwright/contract/result'
import MailComposer from 'nodemailer/lib/mail-composer'
import { confirmationMail } from './confirmation.js'
import { type Mail, renderMail } from './mail.js'

/** Who writes to whom, and the identity that every resend repeats. */
export interface Envelope {
  /** One plain address each. */
  readonly from: string
  readonly to: string
  /** With or without angle brackets. */
  readonly messageId: string
  readonly date: Date
  /** Where one POST ends these mails (RFC 8058); its page asks a person first. */
  readonly unsubscribeUrl?: string
}

export interface Message {
  readonly subject: string
  readonly mime: string
}

export function composeMail(result: Result, envelope: Envelope): Promise<Message> {
  return compose(renderMail(result), envelope)
}

export function composeConfirmation(
  options: Envelope & { readonly confirmUrl: string; readonly title: string },
): Promise<Message> {
  return compose(confirmationMail(options.confirmUrl, options.title), options)
}

// RFC 5322 §3.6.4, without the obsolete forms.
const identity = /^<?([\w.!#$%&'*+/=?^`{|}~-]+@[A-Za-z0-9.-]+)>?$/

function identityOf(messageId: string): string {
  const found = identity.exec(messageId)?.[1]
  if (found === undefined || found.length > 200) {
    throw new RangeError(`messageId must look like "<part@host>", got ${JSON.stringify(messageId.slice(0, 80))}`)
  }
  return `<${found}>`
}

/** Any finished mail. */
export function composeMessage(mail: Mail, envelope: Envelope): Promise<Message> {
  return compose(mail, envelope)
}

/** RFC 2369 and RFC 8058: a mail program shows a button, and one POST to the address is enough. */
function listHeaders(url: string | undefined): Record<string, string> {
  if (url === undefined) return {}
  if (!URL.canParse(url) || /[\s<>,]/.test(url)) {
    throw new RangeError(`unsubscribeUrl must be a web address, got ${JSON.stringify(url.slice(0, 80))}`)
  }
  return { 'List-Unsubscribe': `<${url}>`, 'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click' }
}

async function compose(mail: Mail, envelope: Envelope): Promise<Message> {
  if (Number.isNaN(envelope.date.getTime())) throw new RangeError('date must be a point in time, got an invalid one')
  const messageId = identityOf(envelope.messageId)
  const composer = new MailComposer({
    from: { name: 'Ductwright', address: singleAddress(envelope.from) },
    to: { name: '', address: singleAddress(envelope.to) },
    subject: mail.subject,
    messageId,
    date: envelope.date,
    // RFC 3834: keeps out-of-office replies from answering a machine.
    headers: { 'Auto-Submitted': 'auto-generated', ...listHeaders(envelope.unsubscribeUrl) },
    text: mail.text,
    html: mail.html,
    attachments: [...mail.attachments],
    baseBoundary: sha256Hex(messageId).slice(0, 32),
    boundaryPrefix: '--dw',
    newline: 'win',
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  const bytes = await composer.compile().build()
  return { subject: mail.subject, mime: bytes.toString('utf8') }
}
