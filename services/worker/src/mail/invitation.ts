// A new address is asked once whether it wants mail at all before anything else is sent to it. The link carries a random
// token; only its hash is stored with the address. Without a mail server nothing leaves the machine, so nobody is asked.
import { randomBytes } from 'node:crypto'
import { sha256Hex } from '@ductwright/contract/canonical-json'
import type { RequestRow } from '@ductwright/records/records'
import { composeConfirmation } from '@ductwright/report/mime'
import type { JobParts } from '../deps.js'
import type { WorkerSettings } from '../settings.js'
import { confirmationMailId, messageIdOf } from './mail-identity.js'

export const needsConfirmation = (settings: WorkerSettings): boolean => settings.mail.kind === 'smtp'

/** Safe to repeat: an address that is confirmed, or was asked, is left alone. */
export async function inviteAddress(parts: JobParts, request: RequestRow): Promise<void> {
  const { records, jobs, settings } = parts
  const { address } = request
  if (address === null || !needsConfirmation(settings) || (await records.isConfirmed(address))) return
  const token = randomBytes(32).toString('base64url')
  const mail = await confirmationMail(settings, request, address, token)
  if (!(await records.inviteAddress(address, sha256Hex(token), request.id, mail))) return
  parts.log.info({ request: request.id }, 'a new address is asked to confirm')
  await jobs.enqueueMail(mail.id)
}

async function confirmationMail(settings: WorkerSettings, request: RequestRow, address: string, token: string) {
  const id = confirmationMailId(request.id)
  const messageId = messageIdOf(id, settings.mailFrom)
  const { subject, mime } = await composeConfirmation({
    from: settings.mailFrom,
    to: address,
    messageId,
    date: new Date(),
    confirmUrl: `${settings.publicUrl}/confirm?token=${token}`,
    title: request.title,
  })
  return { id, subject, messageId, mime }
}
