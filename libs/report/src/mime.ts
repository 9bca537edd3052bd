// Whole messages, ready for the wire: one recipient, text and HTML, the pictures and files. The same input gives the same
// bytes, since identity and date are handed in and the part boundaries are drawn from the identity, so a resend is the
// same mail.
import { singleAddress } from '@ductwright/contract/address'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { Receipt, Result } from '@ductwright/contract/result'
import MailComposer from 'nodemailer/lib/mail-composer'
import { confirmationMail } from './confirmation.js'
import { type Attachment, type Mail, renderMail } from './mail.js'

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

/** The envelope is judged before the mail is drawn. `receipt` is that of the work, where it is at hand. */
export async function composeMail(
  result: Result,
  envelope: Envelope,
  receipt: Receipt | null = null,
): Promise<Message> {
  const head = headOf(envelope)
  return compose(await renderMail(result, receipt), head)
}

export function composeConfirmation(
  options: Envelope & { readonly confirmUrl: string; readonly title: string },
): Promise<Message> {
  return compose(confirmationMail(options.confirmUrl, options.title), headOf(options))
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
export async function composeMessage(mail: Mail, envelope: Envelope): Promise<Message> {
  return compose(mail, headOf(envelope))
}

/** A mail without a recipient, to be kept in a file; its identity follows from the answer. */
export async function composeDraft(mail: Mail, answerHash: string, date: Date): Promise<string> {
  const from = 'answers@ductwright.invalid'
  const messageId = `<${answerHash.slice(0, 32)}@ductwright.invalid>`
  return (await compose(mail, headOf({ from, to: null, messageId, date }))).mime
}

type Addressed = Omit<Envelope, 'to'> & { readonly to: string | null }

/** Whatever of the envelope goes into the head of the message. */
function headOf({ from, to, messageId, date, unsubscribeUrl }: Addressed) {
  if (Number.isNaN(date.getTime())) throw new RangeError('date must be a point in time, got an invalid one')
  return {
    from: { name: 'Ductwright', address: singleAddress(from) },
    ...(to === null ? {} : { to: { name: '', address: singleAddress(to) } }),
    messageId: identityOf(messageId),
    date,
    // RFC 3834: keeps out-of-office replies from answering a machine.
    headers: { 'Auto-Submitted': 'auto-generated', ...listHeaders(unsubscribeUrl) },
  }
}

/** RFC 2369 and RFC 8058: a mail program shows a button, and one POST to the address is enough. */
function listHeaders(url: string | undefined): Record<string, string> {
  if (url === undefined) return {}
  if (!URL.canParse(url) || /[\s<>,]/.test(url)) {
    throw new RangeError(`unsubscribeUrl must be a web address, got ${JSON.stringify(url.slice(0, 80))}`)
  }
  return { 'List-Unsubscribe': `<${url}>`, 'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click' }
}

async function compose(mail: Mail, head: ReturnType<typeof headOf>): Promise<Message> {
  const composer = new MailComposer({
    ...head,
    subject: mail.subject,
    text: mail.text,
    html: mail.html,
    attachments: mail.attachments.map(attached),
    baseBoundary: sha256Hex(head.messageId).slice(0, 32),
    boundaryPrefix: '--dw',
    newline: 'win',
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  const bytes = await composer.compile().build()
  return { subject: mail.subject, mime: bytes.toString('utf8') }
}

/** A picture belongs to the HTML that shows it, a file to the whole message. */
function attached({ contentId, ...file }: Attachment) {
  return contentId === null ? file : { ...file, cid: contentId, contentDisposition: 'inline' as const }
}
