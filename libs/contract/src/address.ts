// One mail address, safe to hand to a mail library: exactly one mailbox, no display name, no list, no comment, no quoting,
// nothing that could break out of a header. Narrower than RFC 5321 allows; internationalised domains go in their xn-- form.
import { z } from 'zod'
import { readBySchema } from './issue-faults.js'

// RFC 5321 §4.5.3.1: 64 octets before the @, 254 in all.
const LONGEST = 254
const LONGEST_LOCAL = 64
const ATOM = "[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+"
const LABEL = '[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?'
const MAILBOX = new RegExp(`^(${ATOM}(?:\\.${ATOM})*)@((?:${LABEL}\\.)+${LABEL})$`)
const ALLOWED = 'must be exactly one plain mail address such as "pilot@example.org"'

/** What is wrong with an address, worded to follow the field's name; null when it is one. */
function addressFault(text: string): string | null {
  if (text.length > LONGEST) return `${ALLOWED}, at most ${LONGEST} characters`
  if (/[,;]|@[^@]*@/.test(text)) return `${ALLOWED}; a list of addresses is not taken`
  if (/[<>()":]|\s/.test(text)) return `${ALLOWED}; no names, comments, quotes or blanks`
  const match = MAILBOX.exec(text)
  if (!match) return `${ALLOWED}; write an internationalised domain in its xn-- form`
  if (match[1]!.length > LONGEST_LOCAL) return `${ALLOWED}, at most ${LONGEST_LOCAL} characters before the @`
  return /\.\d+$/.test(text) ? `${ALLOWED}; a bare IP address is not taken` : null
}

/** Schema of an address; the domain is folded to lower case, the part before the @ is kept. */
export const address = z
  .string()
  .superRefine((text, context) => {
    const message = addressFault(text)
    if (message) context.addIssue({ code: 'custom', input: text, message, params: { rule: 'address' } })
  })
  .transform((text) => text.slice(0, text.indexOf('@')) + text.slice(text.indexOf('@')).toLowerCase())
  .meta({ description: 'Exactly one mail address.', maxLength: LONGEST, examples: ['pilot@example.org'] })

/** Reads one address given on its own (command line, configuration); throws InputError when it is not one. */
export function singleAddress(text: string): string {
  return readBySchema(address, text, 'address')
}
