// First tables. Plain SQL for Postgres 15 and later; the embedded database runs the same text.
// Request bodies, results and shard fronts are `text`, not `jsonb`: their bytes must come back exactly as they went in.
// Ended states are final; the state columns say so in their checks, the transitions live beside each table's functions.

import { type Kysely, sql } from 'kysely'

const statements = [
  sql`create sequence ductwright.catalogue_order`,

  // The version with the highest put_order is the current one.
  sql`create table ductwright.catalogue_versions (
    version text primary key,
    name text not null,
    content text not null,
    put_order bigint not null default nextval('ductwright.catalogue_order'),
    created_at timestamptz not null default clock_timestamp()
  )`,

  sql`create table ductwright.requests (
    id uuid primary key,
    title text not null,
    address text,
    body text not null,
    body_hash text not null,
    idempotency_hash text,
    state text not null check (state in ('accepted', 'running', 'answered', 'failed', 'cancelled')),
    cause text,
    created_at timestamptz not null,
    finished_at timestamptz,
    sweep_id uuid not null
  )`,
  sql`create unique index requests_idempotency on ductwright.requests (idempotency_hash)`,
  sql`create index requests_newest on ductwright.requests (created_at desc, id desc)`,

  sql`create table ductwright.sweeps (
    id uuid primary key,
    request_id uuid not null references ductwright.requests (id) on delete cascade,
    catalogue_version text not null references ductwright.catalogue_versions (version),
    model_version text not null,
    state text not null check (state in ('accepted', 'sweeping', 'answered', 'failed', 'cancelled')),
    cause text,
    shard_count integer check (shard_count >= 0),
    created_at timestamptz not null,
    finished_at timestamptz
  )`,
  sql`create index sweeps_of_request on ductwright.sweeps (request_id)`,
  sql`create index sweeps_unfinished on ductwright.sweeps (created_at) where state in ('accepted', 'sweeping')`,

  // token counts the leases given out; only the holder of the latest may write.
  sql`create table ductwright.shards (
    sweep_id uuid not null references ductwright.sweeps (id) on delete cascade,
    index integer not null check (index >= 0),
    range text not null,
    work double precision not null check (work >= 0),
    token integer not null default 0,
    starts integer not null default 0,
    lease_until timestamptz,
    progress double precision not null default 0 check (progress between 0 and 1),
    front text,
    front_sha256 text,
    last_fault text,
    primary key (sweep_id, index),
    check ((front is null) = (front_sha256 is null))
  )`,

  sql`create table ductwright.answers (
    sweep_id uuid primary key references ductwright.sweeps (id) on delete cascade,
    request_id uuid not null references ductwright.requests (id) on delete cascade,
    result text not null,
    result_sha256 text not null,
    answer_hash text not null,
    receipt text not null,
    created_at timestamptz not null default clock_timestamp()
  )`,
  sql`create index answers_of_request on ductwright.answers (request_id)`,

  sql`create table ductwright.addresses (
    address text primary key,
    token_hash text not null unique,
    state text not null check (state in ('waiting', 'confirmed')),
    created_at timestamptz not null default clock_timestamp(),
    confirmed_at timestamptz
  )`,

  // leased_after_doubt: this mail was already sent once more after an attempt of unknown outcome.
  sql`create table ductwright.outbox (
    id text primary key,
    request_id uuid not null references ductwright.requests (id) on delete cascade,
    kind text not null check (kind in ('answer', 'confirmation')),
    address text not null,
    subject text not null,
    message_id text not null,
    mime text not null,
    answer_hash text,
    state text not null check (state in ('held', 'pending', 'sending', 'accepted', 'written', 'failed', 'unknown')),
    attempts integer not null default 0,
    token integer not null default 0,
    lease_until timestamptz,
    due_at timestamptz not null default clock_timestamp(),
    leased_after_doubt boolean not null default false,
    last_error text,
    created_at timestamptz not null default clock_timestamp(),
    unique (request_id, answer_hash)
  )`,
  sql`create index outbox_unsettled on ductwright.outbox (due_at)
    where state in ('held', 'pending', 'sending', 'unknown')`,
  sql`create index outbox_held on ductwright.outbox (address) where state = 'held'`,
]

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of statements) await statement.execute(db)
}
