// Where a mail goes, behind one question with typed answers; the job decides what follows from each.

export interface OutgoingMail {
  readonly id: string
  readonly from: string
  /** Exactly one address. */
  readonly to: string
  /** The whole message, as composed once. */
  readonly mime: string
}

export type DeliveryOutcome =
  /** The server took it. */
  | { readonly state: 'accepted' }
  /** It lies in the folder. */
  | { readonly state: 'written' }
  /** Not taken now; another try may work. */
  | { readonly state: 'later'; readonly reason: string }
  /** Refused for good; `mailbox`: whatever is sent there, since the mailbox does not exist or takes no mail. */
  | { readonly state: 'refused'; readonly reason: string; readonly mailbox: boolean }
  /** The connection was lost between the final dot and the reply, so nobody knows (RFC 1047). */
  | { readonly state: 'unknown'; readonly reason: string }

export interface Delivery {
  /** Never throws for what a server or a disk may do. */
  deliver(mail: OutgoingMail, signal: AbortSignal): Promise<DeliveryOutcome>
}
