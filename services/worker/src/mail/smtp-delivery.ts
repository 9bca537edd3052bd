// Delivery to a mail server, one connection a mail. The stage reached when something breaks decides the outcome: before
// the last byte of the message nothing can have been accepted; after it, without a reply, nobody knows. Certificates are
// always verified, and where TLS is asked for there is no way back to plain text.
import { Readable } from 'node:stream'
import { singleAddress } from '@ductwright/contract/address'
import SMTPConnection from 'nodemailer/lib/smtp-connection'
import type { SmtpServer } from '../settings.js'
import type { Delivery, DeliveryOutcome, OutgoingMail } from './delivery.js'

interface SmtpError extends Error {
  readonly code?: string
  readonly responseCode?: number
  readonly command?: string
}

export class SmtpDelivery implements Delivery {
  readonly #server: SmtpServer
  readonly #timeoutMs: number

  constructor(server: SmtpServer, timeoutMs: number) {
    this.#server = server
    this.#timeoutMs = timeoutMs
  }

  async deliver(mail: OutgoingMail, signal: AbortSignal): Promise<DeliveryOutcome> {
    if (!isSingleAddress(mail.to))
      return { state: 'refused', reason: 'the recipient is not exactly one mail address', mailbox: false }
    const connection = this.#connection()
    const message = new WatchedMessage(mail.mime)
    const onAbort = (): void => connection.close()
    signal.addEventListener('abort', onAbort, { once: true })
    try {
      await this.#transact(connection, mail, message)
      return { state: 'accepted' }
    } catch (error) {
      return outcomeOf(error as SmtpError, message.sent)
    } finally {
      signal.removeEventListener('abort', onAbort)
      connection.close()
    }
  }

  #connection(): SMTPConnection {
    const { host, port, secure, requireTls, certificateAuthority } = this.#server
    return new SMTPConnection({
      host,
      port,
      secure,
      requireTLS: requireTls,
      connectionTimeout: this.#timeoutMs,
      greetingTimeout: this.#timeoutMs,
      socketTimeout: this.#timeoutMs,
      dnsTimeout: this.#timeoutMs,
      tls: {
        rejectUnauthorized: true,
        minVersion: 'TLSv1.2',
        ...(certificateAuthority === null ? {} : { ca: certificateAuthority }),
      },
    })
  }

  #transact(connection: SMTPConnection, mail: OutgoingMail, message: WatchedMessage): Promise<void> {
    const { auth } = this.#server
    return new Promise((resolve, reject) => {
      connection.once('error', reject)
      connection.once('end', () => reject(new Error('the connection ended')))
      const send = (): void =>
        connection.send({ from: mail.from, to: [mail.to] }, message, (error) => {
          if (error) return reject(error)
          connection.quit()
          resolve()
        })
      connection.connect((error) => {
        if (error) return reject(error)
        if (auth === null) return send()
        connection.login({ credentials: auth }, (refused) => (refused ? reject(refused) : send()))
      })
    })
  }
}

/** A mail library reads a comma as a second recipient; the address was judged before, and is judged again here. */
function isSingleAddress(text: string): boolean {
  try {
    return singleAddress(text) === text
  } catch {
    return false
  }
}

/** The message, knowing whether its last byte was handed to the connection. Reading starts when the server says go on. */
class WatchedMessage extends Readable {
  sent = false
  readonly #mime: string

  constructor(mime: string) {
    super()
    this.#mime = mime
  }

  override _read(): void {
    this.push(this.#mime, 'utf8')
    this.push(null)
    this.sent = true
  }
}

/** Replies to sender, recipient, DATA or the message; the others concern the session and say nothing about this mail. */
const ABOUT_THE_MAIL = new Set(['EENVELOPE', 'EMESSAGE'])

/** RFC 5321 §4.2.3, to RCPT: mailbox unavailable, not here, name not allowed; 552, a full one, may be emptied. */
const NO_MAILBOX = new Set([550, 551, 553])

/** RFC 5321: 4yz asks to try again, 5yz never will; a lost connection without a reply depends on what was sent. */
function outcomeOf(error: SmtpError, sent: boolean): DeliveryOutcome {
  const reason = error.message
  const reply = error.responseCode ?? 0
  if (reply >= 500 && ABOUT_THE_MAIL.has(error.code ?? '')) {
    return { state: 'refused', reason, mailbox: error.command === 'RCPT TO' && NO_MAILBOX.has(reply) }
  }
  if (reply >= 400) return { state: 'later', reason }
  return { state: sent ? 'unknown' : 'later', reason }
}
