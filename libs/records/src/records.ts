// What the service remembers, as nouns. Two stores implement it over one SQL text: Postgres on a server, and Postgres
// in this process in a locked data folder (see open-records.ts). Every method is one transaction; nothing here knows
// about queues, mail servers or HTTP.

import type { RunReason } from '@ductwright/contract/standing-advance'
import type { BatchRecords } from './batch-records.js'
import type { CatalogueRecords } from './catalogue-records.js'
import type { AnswerMail, MailRecords } from './mail-records.js'
import type { NewKept, StandingRecords } from './standing-records.js'

export type { MailKind, MailRow, MailState } from './mail-records.js'

/** Life of a request as its owner sees it. */
export type RequestState = 'accepted' | 'running' | 'answered' | 'failed' | 'cancelled'

/** Life of one sweep (one run of a request against one catalogue version). */
export type SweepState = 'accepted' | 'sweeping' | 'answered' | 'failed' | 'cancelled'

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
  /** The standing request it is a run of, which of its revisions, and why it runs. */
  readonly standing: { readonly id: string; readonly revision: number; readonly reason: RunReason } | null
  /** The batch it is an item of. */
  readonly batch: { readonly id: string; readonly index: number } | null
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

export type Accepted =
  | { readonly outcome: 'new' | 'repeated'; readonly request: RequestRow }
  /** The key was used before with another body. */
  | { readonly outcome: 'mismatch' }

export interface Page<Row> {
  readonly rows: readonly Row[]
  /** Opaque; null on the last page. */
  readonly next: string | null
}

export interface NewAnswer {
  readonly result: string
  readonly answerHash: string
  readonly receipt: string
  /** What the summary of a batch tells of it. */
  readonly summary?: string
  /** Of a run of a standing request: for the next one. */
  readonly kept?: NewKept
}

export interface FinishOptions {
  readonly requireConfirmed: boolean
  /** Of a run: what its owner was last told when the mail was composed. */
  readonly told?: string | null
}

export interface Records extends CatalogueRecords, StandingRecords, BatchRecords, MailRecords {
  readonly kind: 'embedded' | 'server'
  /** Cheap round trip; throws when the store cannot be reached. */
  ping(): Promise<void>
  close(): Promise<void>

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
   * on request and answer hash. `mail` null: nothing to say, or no address. Of a run of a standing request the mail is
   * written only if its owner still knows what `told` says, the hash it was composed against: otherwise StaleMail is
   * thrown and nothing has happened. False when the sweep had already ended.
   */
  finishSweep(id: string, answer: NewAnswer, mail: AnswerMail | null, options: FinishOptions): Promise<boolean>
  /** Ends it with the cause; `mail` tells the owner of a standing request that it can no longer be answered. */
  failSweep(id: string, cause: string, mail?: AnswerMail | null, options?: FinishOptions): Promise<boolean>
  getAnswer(
    requestId: string,
  ): Promise<{ readonly result: string; readonly answerHash: string; readonly receipt: string } | null>

  /** Everything that should have a live job: what the reconciler enqueues after a crash. */
  unfinished(): Promise<{
    readonly unplanned: readonly string[]
    readonly shards: readonly { readonly sweepId: string; readonly index: number }[]
    /** Sweeps whose shards are all done but that have no answer. */
    readonly unmerged: readonly string[]
    readonly mails: readonly string[]
    /** Batches whose items have all ended but that have no summary. */
    readonly batches: readonly string[]
  }>
}
