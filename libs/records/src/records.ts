// What the service remembers, as nouns. Two stores implement it over one SQL text: Postgres on a server, and Postgres
// in this process in a locked data folder (see open-records.ts). Every method is one transaction; nothing here knows
// about queues, mail servers or HTTP.

/** Life of a request as its owner sees it. */
export type RequestState = 'accepted' | 'running' | 'answered' | 'failed' | 'cancelled'

/** Life of one sweep (one run of a request against one catalogue version). */
export type SweepState = 'accepted' | 'sweeping' | 'answered' | 'failed' | 'cancelled'

/** Life of one mail; `held` waits for the address to be confirmed, `written` went to a folder instead of a server. */
export type MailState = 'held' | 'pending' | 'sending' | 'accepted' | 'written' | 'failed' | 'unknown'

export interface NewRequest {
  readonly title: string
  readonly address: string | null
  /** The request as it was sent, canonical JSON. */
  readonly body: string
  /** SHA-256 of `body`, hex. */
  readonly bodyHash: string
  readonly idempotencyKey: string | null
  readonly catalogueVersion: string
  readonly modelVersion: string
}

export interface RequestRow {
  readonly id: string
  readonly title: string
  readonly address: string | null
  readonly body: string
  readonly state: RequestState
  /** Why it failed; null otherwise. */
  readonly cause: string | null
  readonly createdAt: string
  readonly finishedAt: string | null
  readonly sweepId: string
}

export interface SweepRow {
  readonly id: string
  readonly requestId: string
  readonly catalogueVersion: string
  readonly modelVersion: string
  readonly state: SweepState
  readonly cause: string | null
  /** null until planned */
  readonly shardCount: number | null
  /** 0…1, over all shards by their work */
  readonly progress: number
}

/** A shard handed to one worker: only the holder of `token` may write. */
export interface ShardLease {
  readonly sweepId: string
  readonly index: number
  readonly token: number
  /** Index range of the shard, as planned. */
  readonly range: string
  /** Starts so far, this one included. */
  readonly starts: number
}

export interface MailRow {
  readonly id: string
  readonly requestId: string
  readonly kind: 'answer' | 'confirmation'
  readonly address: string
  readonly subject: string
  readonly messageId: string
  readonly state: MailState
  readonly attempts: number
  readonly lastError: string | null
  readonly createdAt: string
}

export type Accepted =
  | { readonly outcome: 'new' | 'repeated'; readonly request: RequestRow }
  /** The key was used before with another body. */
  | { readonly outcome: 'mismatch' }

export interface Page<Row> {
  readonly rows: readonly Row[]
  /** Opaque; null on the last page. */
  readonly next: string | null
}

export interface Records {
  readonly kind: 'embedded' | 'server'
  /** Cheap round trip; throws when the store cannot be reached. */
  ping(): Promise<void>
  close(): Promise<void>

  /** Keeps one immutable catalogue version (idempotent) and makes it the current one. */
  putCatalogue(version: string, name: string, content: string): Promise<void>
  /** Content of a version; null if unknown. */
  getCatalogue(version: string): Promise<string | null>
  currentCatalogue(): Promise<{ readonly version: string; readonly content: string } | null>

  /** Writes request and sweep together; the same idempotency key and body give the earlier request back. */
  acceptRequest(request: NewRequest): Promise<Accepted>
  getRequest(id: string): Promise<RequestRow | null>
  /** Newest first. */
  listRequests(page: { readonly limit: number; readonly after: string | null }): Promise<Page<RequestRow>>
  /** Marks an unfinished request cancelled; false when it had already ended or is unknown. */
  cancelRequest(id: string): Promise<boolean>

  getSweep(id: string): Promise<SweepRow | null>
  /** Stores the shard ranges once (a second plan of the same sweep changes nothing) and moves the sweep to `sweeping`. */
  planSweep(id: string, ranges: readonly { readonly range: string; readonly work: number }[]): Promise<SweepRow>
  /** Takes or takes over a shard; null when it is done, held by a live lease, or the sweep has ended. Each lease has a higher token. */
  leaseShard(sweepId: string, index: number, leaseMs: number): Promise<ShardLease | null>
  /** Prolongs the lease and records progress; false when the token is stale or the sweep has ended: stop working. */
  renewShard(lease: ShardLease, progress: number, leaseMs: number): Promise<boolean>
  /** Stores the shard's front with its checksum; false when the token is stale (the late write is refused). */
  finishShard(lease: ShardLease, front: string): Promise<boolean>
  /** Gives a lease back after a fault, keeping the reason. */
  releaseShard(lease: ShardLease, reason: string): Promise<void>
  /** Fronts of all shards, verified against their checksums; a damaged one is reopened and `missing` names it. */
  shardFronts(sweepId: string): Promise<{ readonly fronts: readonly string[]; readonly missing: readonly number[] }>
  /**
   * One transaction: the answer, its receipt, the request's end, and (when there is an address) one outbox row, unique
   * on request and answer hash. `mail` null: no address. False when the sweep had already ended.
   */
  finishSweep(
    id: string,
    answer: { readonly result: string; readonly answerHash: string; readonly receipt: string },
    mail: {
      readonly id: string
      readonly address: string
      readonly subject: string
      readonly messageId: string
      readonly mime: string
    } | null,
    options: { readonly requireConfirmed: boolean },
  ): Promise<boolean>
  failSweep(id: string, cause: string): Promise<boolean>
  getAnswer(
    requestId: string,
  ): Promise<{ readonly result: string; readonly answerHash: string; readonly receipt: string } | null>

  /** Takes one mail for sending; null when it is not due or is held by a live lease. */
  leaseMail(
    id: string,
    leaseMs: number,
  ): Promise<{ readonly row: MailRow; readonly mime: string; readonly token: number } | null>
  /** Records the outcome of an attempt; false when the token is stale. `retryAt` only with `pending`. */
  settleMail(
    id: string,
    token: number,
    state: MailState,
    detail: { readonly error: string | null; readonly retryAt: string | null },
  ): Promise<boolean>
  mailsOf(requestId: string): Promise<readonly MailRow[]>

  /** Registers an address as waiting (storing only the hash of the token) and its confirmation mail; false if already confirmed or waiting. */
  inviteAddress(
    address: string,
    tokenHash: string,
    requestId: string,
    mail: { readonly id: string; readonly subject: string; readonly messageId: string; readonly mime: string },
  ): Promise<boolean>
  /** Confirms by token hash and releases the held mails of that address; the address, or null for an unknown token. */
  confirmAddress(tokenHash: string): Promise<string | null>
  isConfirmed(address: string): Promise<boolean>

  /** Everything that should have a live job: what the reconciler enqueues after a crash. */
  unfinished(): Promise<{
    readonly unplanned: readonly string[]
    readonly shards: readonly { readonly sweepId: string; readonly index: number }[]
    /** Sweeps whose shards are all done but that have no answer. */
    readonly unmerged: readonly string[]
    readonly mails: readonly string[]
  }>
}
