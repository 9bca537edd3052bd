// What the store promises about mails and the people they go to: the outbox, consent, suppression and erasure.

/**
 * Life of one mail; `held` waits for the address to be confirmed, `written` went to a folder instead of a server,
 * `suppressed` is not sent because its owner unsubscribed or the mailbox refused an earlier one for good.
 */
export type MailState = 'held' | 'pending' | 'sending' | 'accepted' | 'written' | 'failed' | 'unknown' | 'suppressed'

/** `change`: an answer that differs from the one last mailed; `trouble`: a standing request that cannot be answered. */
export type MailKind = 'answer' | 'confirmation' | 'change' | 'trouble' | 'batch'

/** Why nothing is sent to an address. */
export type Suppression = 'bounced' | 'unsubscribed'

/** What a mail is about. */
export type MailOwner = { readonly requestId: string } | { readonly batchId: string }

export interface ComposedMail {
  readonly id: string
  readonly subject: string
  readonly messageId: string
  readonly mime: string
  /** SHA-256 of the token in its unsubscribe link. */
  readonly unsubscribeHash?: string
}

export interface AnswerMail extends ComposedMail {
  readonly address: string
  readonly kind?: MailKind
}

export interface MailRow {
  readonly id: string
  /** Exactly one of the two is not null. */
  readonly requestId: string | null
  readonly batchId: string | null
  readonly kind: MailKind
  readonly address: string
  readonly subject: string
  readonly messageId: string
  readonly state: MailState
  readonly attempts: number
  readonly lastError: string | null
  readonly createdAt: string
  /** When the next attempt is due, or the last one ended. */
  readonly dueAt: string
}

export interface MailLease {
  readonly row: MailRow
  readonly mime: string
  readonly token: number
}

/** What an unsubscribe link is about. */
export interface Subscription {
  readonly title: string
  /** null: not of a standing request, so the link is about all mail to the address. */
  readonly standingId: string | null
}

export interface MailRecords {
  /**
   * Takes one mail for sending; null when it is not due or is held by a live lease. A mail to a suppressed address
   * becomes `suppressed`; a first attempt beyond `perDay` mails to one address in a day waits until the day is over.
   */
  leaseMail(id: string, leaseMs: number, limit?: { readonly perDay: number }): Promise<MailLease | null>
  /**
   * Records the outcome of an attempt; false when the token is stale. `retryAt` only with `pending`; `bounced` only with
   * `failed`: the mailbox refuses mail for good, so its address is suppressed and what waits for it with it.
   */
  settleMail(
    id: string,
    token: number,
    state: MailState,
    detail: { readonly error: string | null; readonly retryAt: string | null; readonly bounced?: boolean },
  ): Promise<boolean>
  mailsOf(requestId: string): Promise<readonly MailRow[]>
  /** Of all runs of a standing request, newest first, at most `limit`. */
  mailsOfStanding(standingId: string, limit: number): Promise<readonly MailRow[]>
  mailOfBatch(batchId: string): Promise<MailRow | null>

  /** Registers an address as waiting (storing only the hash of the token) and its confirmation mail; false if already confirmed or waiting. */
  inviteAddress(address: string, tokenHash: string, owner: MailOwner, mail: ComposedMail): Promise<boolean>
  /** Confirms by token hash, lifts a suppression and releases the held mails of that address; the address, or null for an unknown token. */
  confirmAddress(tokenHash: string): Promise<string | null>
  isConfirmed(address: string): Promise<boolean>
  suppressionOf(address: string): Promise<Suppression | null>

  /** What the link is about; null for an unknown token. Changes nothing. */
  subscription(unsubscribeHash: string): Promise<Subscription | null>
  /**
   * `this`: stops the standing request the mail was about (of other mails: as `all`). `all`: nothing is sent to the
   * address any more. What waited is not sent. False for an unknown token. Safe to repeat.
   */
  unsubscribe(unsubscribeHash: string, scope: 'this' | 'all'): Promise<boolean>

  /** Removes a request and everything about it, its address and mails included; false when unknown. */
  eraseRequest(id: string): Promise<boolean>
  /** The same for a batch with its items. */
  eraseBatch(id: string): Promise<boolean>
  /** Removes everything kept under the address that this unsubscribe link was sent to, and writes to it no more. */
  eraseAddress(unsubscribeHash: string): Promise<boolean>
}
