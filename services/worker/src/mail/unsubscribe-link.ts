// The way out in every mail: an address with a random token, of which the store keeps only the hash.
import { randomBytes } from 'node:crypto'
import { sha256Hex } from '@ductwright/contract/canonical-json'

export interface UnsubscribeLink {
  readonly url: string
  readonly hash: string
}

export function unsubscribeLink(publicUrl: string): UnsubscribeLink {
  const token = randomBytes(32).toString('base64url')
  return { url: `${publicUrl}/unsubscribe?token=${token}`, hash: sha256Hex(token) }
}
