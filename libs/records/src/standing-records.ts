// What the store promises about standing requests: revisions, runs pinned to versions, and what their owner was told.
import type { RunReason, SettleWindow, StandingState } from '@ductwright/contract/standing-advance'
import type { RunVersion } from '@ductwright/contract/standing-version'
import type { Page, RequestState } from './records.js'

export interface NewStanding {
  readonly title: string
  readonly address: string
  /** The sweep request as it was sent, canonical JSON. */
  readonly body: string
  /** Of body and schedule. */
  readonly bodyHash: string
  readonly everyDays: number | null
  readonly idempotencyKey: string | null
}

export interface StandingRow {
  readonly id: string
  readonly title: string
  /** null once deleted. */
  readonly address: string | null
  readonly body: string
  readonly state: StandingState
  /** Its owner ended it from a mail; only a new one can follow. */
  readonly unsubscribed: boolean
  readonly revision: number
  readonly everyDays: number | null
  readonly seen: RunVersion | null
  /** A change was seen and may still be followed by others. */
  readonly settling: boolean
  readonly settled: (RunVersion & { readonly revision: number }) | null
  readonly dueAt: string | null
  /** The run under way. */
  readonly runId: string | null
  /** Why the last run gave no answer. */
  readonly lastCause: string | null
  /** Hash of what its owner was last told: an answer, or why there is none. */
  readonly toldHash: string | null
  /** The run with the answer last mailed. */
  readonly toldRunId: string | null
  readonly createdAt: string
  readonly revisedAt: string
}

export interface RunRow {
  readonly id: string
  readonly revision: number
  readonly reason: RunReason
  readonly state: RequestState
  readonly cause: string | null
  readonly version: RunVersion
  readonly answerHash: string | null
  readonly createdAt: string
  readonly finishedAt: string | null
}

export type StandingAccepted =
  | { readonly outcome: 'new' | 'repeated'; readonly standing: StandingRow }
  | { readonly outcome: 'mismatch' }

export type Revised =
  | { readonly outcome: 'revised'; readonly standing: StandingRow }
  /** Somebody else revised it since. */
  | { readonly outcome: 'stale'; readonly standing: StandingRow }
  /** Deleted, unsubscribed or never there. */
  | { readonly outcome: 'gone' }

/** What of a run is kept for the next one. */
export interface NewKept {
  /** Hash of the request as it was understood: a front answers no other. */
  readonly question: string
  /** null: the one that is kept stays. */
  readonly front: Uint8Array | null
  readonly notes: string
}

export interface KeptFrontRow {
  readonly question: string
  /** That the front is of. */
  readonly version: RunVersion
  readonly front: Uint8Array
  readonly notes: string
}

export interface AdvanceOptions extends SettleWindow {
  readonly requireConfirmed: boolean
}

export interface StandingRecords {
  acceptStanding(standing: NewStanding): Promise<StandingAccepted>
  getStanding(id: string): Promise<StandingRow | null>
  /** Newest first, without deleted ones. */
  listStanding(page: { readonly limit: number; readonly after: string | null }): Promise<Page<StandingRow>>
  /** Another question under the same id: a run follows at once. `revision`: only if this is the one in force. */
  reviseStanding(id: string, revision: number | null, next: Omit<NewStanding, 'idempotencyKey'>): Promise<Revised>
  /** Pauses or resumes; null when unknown, deleted or (to resume) unsubscribed. */
  setStandingState(id: string, state: 'active' | 'paused'): Promise<StandingRow | null>
  /** Says why it cannot run at the moment. */
  noteStanding(id: string, cause: string): Promise<void>
  /** Removes its address, question, runs and mails; only the id stays. False when unknown or deleted before. */
  deleteStanding(id: string): Promise<boolean>
  /** What is kept of its last whole run; null when nothing is, or it is damaged. */
  keptFront(standingId: string): Promise<KeptFrontRow | null>
  /** Newest first. */
  runsOf(standingId: string, limit: number): Promise<readonly RunRow[]>

  /** The shared catalogue in force; null when there is none. */
  currentVersion(): Promise<string | null>
  /** Those that may have to move, seen from the versions in force. */
  restlessStanding(current: RunVersion): Promise<readonly string[]>
  /**
   * Moves one by the rules of `advanceStanding`, under its lock and on the store's clock, and writes the run, if one is
   * started, in the same transaction; the run's sweep, or null.
   */
  advanceStanding(
    id: string,
    current: RunVersion,
    options: AdvanceOptions,
  ): Promise<{ readonly sweepId: string } | null>
}
