// What the store promises about batches: items that are ordinary requests, and one summary when all have ended.
import type { AnswerMail } from './mail-records.js'
import type { NewRequest, RequestState } from './records.js'

export interface NewBatch {
  readonly title: string
  readonly address: string | null
  readonly bodyHash: string
  readonly idempotencyKey: string | null
  /** In order; their addresses are null. */
  readonly items: readonly Omit<NewRequest, 'idempotencyKey'>[]
}

export interface BatchRow {
  readonly id: string
  readonly title: string
  readonly address: string | null
  readonly state: 'running' | 'ended'
  readonly itemCount: number
  /** How many of the items have ended. */
  readonly endedCount: number
  /** JSON, once it has ended. */
  readonly summary: string | null
  readonly createdAt: string
  readonly finishedAt: string | null
}

export interface BatchItemRow {
  readonly index: number
  readonly requestId: string
  readonly title: string
  readonly state: RequestState
  readonly cause: string | null
  /** JSON, of an answered one. */
  readonly summary: string | null
}

export type BatchAccepted =
  | { readonly outcome: 'new' | 'repeated'; readonly batch: BatchRow; readonly sweepIds: readonly string[] }
  | { readonly outcome: 'mismatch' }

export interface BatchRecords {
  /** Batch, requests and sweeps in one transaction; the same key and body give the earlier batch back. */
  acceptBatch(batch: NewBatch): Promise<BatchAccepted>
  getBatch(id: string): Promise<BatchRow | null>
  batchItems(id: string): Promise<readonly BatchItemRow[]>
  /** Summary, end and mail in one transaction; false when it had ended before or is unknown. */
  finishBatch(
    id: string,
    summary: string,
    mail: AnswerMail | null,
    options: { readonly requireConfirmed: boolean },
  ): Promise<boolean>
}
