// A new address is asked once whether it wants mail at all before anything else is sent to it. The link carries a random
// token; only its hash is stored with the address. Without a mail server nothing leaves the machine, so nobody is asked.
import { randomBytes } from 'node:crypto'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { ComposedMail, MailOwner } from '@ductwright/records/mail-records'
import { composeConfirmation } from '@ductwright/report/mime'
import type { JobParts } from '../deps.js'
import type { WorkerSettings } from '../settings.js'
import { confirmationMailId, messageIdOf } from './mail-identity.js'
import { unsubscribeLink } from './unsubscribe-link.js'

export const needsConfirmation = (settings: WorkerSettings): boolean => settings.mail.kind === 'smtp'

/** What brought the address: a request, unless `owner` says otherwise. */
export interface Inviting {
  readonly owner?: MailOwner
  readonly id: string
  readonly title: string
  readonly address: string | null
}

/** Safe to repeat: an address that is confirmed, or was asked, is left alone. */
export async function inviteAddress(parts: JobParts, inviting: Inviting): Promise<void> {
  const { records, jobs, settings } = parts
  const { id, address, owner = { requestId: id } } = inviting
  if (address === null || !needsConfirmation(settings) || (await records.isConfirmed(address))) return
  const token = randomBytes(32).toString('base64url')
  const mail = await confirmationMail(settings, inviting, address, token)
  if (!(await records.inviteAddress(address, sha256Hex(token), owner, mail))) return
  parts.log.info(owner, 'a new address is asked to confirm')
  await jobs.enqueueMail(mail.id)
}

async function confirmationMail(
  settings: WorkerSettings,
  { id: ownerId, title }: Inviting,
  address: string,
  token: string,
): Promise<ComposedMail> {
  const id = confirmationMailId(ownerId)
  const messageId = messageIdOf(id, settings.mailFrom)
  const { url, hash } = unsubscribeLink(settings.publicUrl)
  const { subject, mime } = await composeConfirmation({
    from: settings.mailFrom,
    to: address,
    messageId,
    date: new Date(),
    unsubscribeUrl: url,
    confirmUrl: `${settings.publicUrl}/confirm?token=${token}`,
    title,
  })
  return { id, subject, messageId, mime, unsubscribeHash: hash }
}
