// Standing requests and batches, and what the outbox needs for them. A run of a standing request, and an item of a batch,
// is a request like any other with a pointer to what it belongs to, so that shards, answers and mails work unchanged.

import { type Kysely, sql } from 'kysely'

const statements = [
  // The columns from seen_catalogue on are what the state machine moves; run_id is the run under way. mailed_hash is the
  // answer its owner knows, and mailed_run_id the run that found it. A deleted one keeps its id and nothing else.
  sql`create table ductwright.standing_requests (
    id uuid primary key,
    title text not null,
    address text,
    body text not null,
    body_hash text not null,
    idempotency_hash text,
    state text not null check (state in ('active', 'paused', 'deleted')),
    unsubscribed boolean not null default false,
    revision integer not null default 1 check (revision >= 1),
    every_days integer check (every_days >= 1),
    seen_catalogue text,
    seen_model text,
    changed_at timestamptz,
    first_changed_at timestamptz,
    settled_catalogue text,
    settled_model text,
    settled_revision integer,
    due_at timestamptz,
    run_id uuid,
    last_cause text,
    mailed_hash text,
    mailed_run_id uuid,
    created_at timestamptz not null,
    revised_at timestamptz not null,
    check (state <> 'deleted' or address is null)
  )`,
  sql`create unique index standing_idempotency on ductwright.standing_requests (idempotency_hash)`,
  sql`create index standing_newest on ductwright.standing_requests (created_at desc, id desc)`,
  sql`create index standing_of_address on ductwright.standing_requests (address)`,

  sql`create table ductwright.batches (
    id uuid primary key,
    title text not null,
    address text,
    body_hash text not null,
    idempotency_hash text,
    state text not null check (state in ('running', 'ended')),
    item_count integer not null check (item_count >= 1),
    summary text,
    created_at timestamptz not null,
    finished_at timestamptz
  )`,
  sql`create unique index batches_idempotency on ductwright.batches (idempotency_hash)`,
  sql`create index batches_of_address on ductwright.batches (address)`,
  sql`create index batches_running on ductwright.batches (created_at) where state = 'running'`,

  sql`alter table ductwright.requests
    add column standing_id uuid references ductwright.standing_requests (id) on delete cascade,
    add column standing_revision integer,
    add column run_reason text,
    add column batch_id uuid references ductwright.batches (id) on delete cascade,
    add column batch_index integer,
    add check (standing_id is null or batch_id is null),
    add unique (batch_id, batch_index)`,
  sql`create index requests_of_standing on ductwright.requests (standing_id, created_at desc)
    where standing_id is not null`,
  sql`create index requests_of_address on ductwright.requests (address)`,

  // A few hundred bytes of an answer, from which the summary of a batch is made.
  sql`alter table ductwright.answers add column summary text`,

  // A mail belongs to a request or to a batch. Its unsubscribe link carries a token of which only the hash is here.
  sql`alter table ductwright.outbox
    alter column request_id drop not null,
    add column batch_id uuid unique references ductwright.batches (id) on delete cascade,
    add column unsubscribe_hash text unique,
    add check (num_nonnulls(request_id, batch_id) = 1),
    drop constraint outbox_kind_check,
    add constraint outbox_kind_check check (kind in ('answer', 'confirmation', 'change', 'trouble', 'batch')),
    drop constraint outbox_state_check,
    add constraint outbox_state_check check (state in
      ('held', 'pending', 'sending', 'accepted', 'written', 'failed', 'unknown', 'suppressed'))`,
  sql`create index outbox_of_address on ductwright.outbox (address)`,

  // Whom not to write to, and how much was written lately. By hash: the promise not to write outlives the address.
  sql`create table ductwright.recipients (
    address_sha256 text primary key,
    window_start timestamptz not null default clock_timestamp(),
    sent integer not null default 0,
    suppressed text check (suppressed in ('bounced', 'unsubscribed')),
    suppressed_at timestamptz
  )`,
]

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of statements) await statement.execute(db)
}
