// Who a mail is: its outbox id follows from what it says, and its Message-ID from the outbox id, so that every attempt and
// every repeated merge names the same mail.
import { sha256Hex } from '@ductwright/contract/canonical-json'

export const answerMailId = (requestId: string, answerHash: string): string =>
  sha256Hex(`answer ${requestId} ${answerHash}`).slice(0, 32)

/** `ownerId`: the request or batch that brought the address. */
export const confirmationMailId = (ownerId: string): string => sha256Hex(`confirmation ${ownerId}`).slice(0, 32)

export const batchMailId = (batchId: string): string => sha256Hex(`batch ${batchId}`).slice(0, 32)

/** The domain is the sender's own, as RFC 5322 asks. */
export const messageIdOf = (mailId: string, from: string): string =>
  `<${mailId}@${from.slice(from.lastIndexOf('@') + 1)}>`
