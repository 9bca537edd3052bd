// The tables of standing requests and batches as the query builder sees them.
import type { StandingState } from '@ductwright/contract/standing-advance'
import type { Generated } from 'kysely'
import type { NullableNumber, NullableText, NullableTime, Time } from './tables.js'

export interface StandingRequestsTable {
  id: string
  title: string
  address: string | null
  body: string
  body_hash: string
  idempotency_hash: NullableText
  state: StandingState
  unsubscribed: Generated<boolean>
  revision: Generated<number>
  every_days: NullableNumber
  seen_catalogue: NullableText
  seen_model: NullableText
  changed_at: NullableTime
  first_changed_at: NullableTime
  settled_catalogue: NullableText
  settled_model: NullableText
  settled_revision: NullableNumber
  due_at: NullableTime
  run_id: NullableText
  last_cause: NullableText
  mailed_hash: NullableText
  mailed_run_id: NullableText
  created_at: Time
  revised_at: Time
}

export interface KeptFrontsTable {
  standing_id: string
  question: string
  catalogue_version: string
  model_version: string
  front: Buffer
  front_sha256: string
  notes: string
  kept_at: Time
}

export interface BatchesTable {
  id: string
  title: string
  address: string | null
  body_hash: string
  idempotency_hash: NullableText
  state: 'running' | 'ended'
  item_count: number
  summary: NullableText
  created_at: Time
  finished_at: NullableTime
}
