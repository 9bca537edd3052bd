// The tables as the query builder sees them, and the two habits of every statement: names are schema-qualified, and
// time is the database's clock, so that processes with different clocks agree on leases.

import type { RunReason } from '@ductwright/contract/standing-advance'
import { type ColumnType, type Generated, type Kysely, type RawBuilder, sql, type Transaction } from 'kysely'
import type { CatalogueOrigin } from './catalogue-records.js'
import type { MailKind, Suppression } from './mail-records.js'
import type { MailState, RequestState, SweepState } from './records.js'
import type { BatchesTable, KeptFrontsTable, StandingRequestsTable } from './standing-tables.js'

/** Read as a Date; written as an expression of the database's clock or as ISO text. */
export type Time = ColumnType<Date, Date | string, Date | string>
export type NullableTime = ColumnType<Date | null, Date | string | null | undefined, Date | string | null>
export type NullableNumber = ColumnType<number | null, number | null | undefined, number | null>
export type NullableText = ColumnType<string | null, string | null | undefined, string | null>
type DefaultTime = ColumnType<Date, Date | string | undefined, Date | string>

export interface CatalogueVersionsTable {
  version: string
  name: string
  content: string
  put_order: Generated<string>
  created_at: DefaultTime
  origin: Generated<CatalogueOrigin>
  layer_id: NullableText
}

export interface CatalogueLayersTable {
  id: string
  name: string
  content: string
  version: string
  created_at: Time
  changed_at: Time
}

export interface RequestsTable {
  id: string
  title: string
  address: string | null
  body: string
  body_hash: string
  idempotency_hash: string | null
  state: RequestState
  cause: NullableText
  created_at: Time
  finished_at: NullableTime
  sweep_id: string
  standing_id: NullableText
  standing_revision: NullableNumber
  run_reason: ColumnType<RunReason | null, RunReason | null | undefined, never>
  batch_id: NullableText
  batch_index: NullableNumber
}

export interface SweepsTable {
  id: string
  request_id: string
  catalogue_version: string
  model_version: string
  state: SweepState
  cause: NullableText
  shard_count: ColumnType<number | null, number | null | undefined, number | null>
  created_at: Time
  finished_at: NullableTime
}

export interface ShardsTable {
  sweep_id: string
  index: number
  range: string
  work: number
  token: Generated<number>
  starts: Generated<number>
  lease_until: NullableTime
  progress: Generated<number>
  front: NullableText
  front_sha256: NullableText
  last_fault: NullableText
}

export interface AnswersTable {
  sweep_id: string
  request_id: string
  result: string
  result_sha256: string
  answer_hash: string
  receipt: string
  summary: NullableText
  created_at: DefaultTime
}

export interface AddressesTable {
  address: string
  token_hash: string
  state: 'waiting' | 'confirmed'
  created_at: DefaultTime
  confirmed_at: NullableTime
}

/** Addresses by their hash. */
export interface RecipientsTable {
  address_sha256: string
  window_start: DefaultTime
  sent: Generated<number>
  suppressed: ColumnType<Suppression | null, Suppression | null | undefined, Suppression | null>
  suppressed_at: NullableTime
}

export interface OutboxTable {
  id: string
  request_id: NullableText
  batch_id: NullableText
  kind: MailKind
  address: string
  subject: string
  message_id: string
  mime: string
  answer_hash: NullableText
  unsubscribe_hash: NullableText
  state: MailState
  attempts: Generated<number>
  token: Generated<number>
  lease_until: NullableTime
  due_at: DefaultTime
  leased_after_doubt: Generated<boolean>
  last_error: NullableText
  created_at: DefaultTime
}

export interface Tables {
  'ductwright.catalogue_versions': CatalogueVersionsTable
  'ductwright.catalogue_layers': CatalogueLayersTable
  'ductwright.requests': RequestsTable
  'ductwright.sweeps': SweepsTable
  'ductwright.shards': ShardsTable
  'ductwright.answers': AnswersTable
  'ductwright.addresses': AddressesTable
  'ductwright.outbox': OutboxTable
  'ductwright.recipients': RecipientsTable
  'ductwright.standing_requests': StandingRequestsTable
  'ductwright.kept_fronts': KeptFrontsTable
  'ductwright.batches': BatchesTable
}

export type Database = Kysely<Tables>
/** A pool or a running transaction. */
export type Session = Database | Transaction<Tables>

/** The clock at the moment of the statement: `now()` would be the start of a transaction that may have waited. */
export const clock: RawBuilder<Date> = sql<Date>`clock_timestamp()`

/** Milliseconds only, so that a time survives the way through a JavaScript Date and back. */
export const clockInMilliseconds: RawBuilder<Date> = sql<Date>`date_trunc('milliseconds', clock_timestamp())`

export function fromNow(milliseconds: number): RawBuilder<Date> {
  return sql<Date>`clock_timestamp() + ${milliseconds}::double precision * interval '1 millisecond'`
}

/** Now, by the clock of the store. */
export async function storeTime(session: Session): Promise<Date> {
  const { rows } = await sql<{ now: Date }>`select ${clockInMilliseconds} as now`.execute(session)
  if (rows[0] === undefined) throw new Error('the store gave no time')
  return rows[0].now
}
