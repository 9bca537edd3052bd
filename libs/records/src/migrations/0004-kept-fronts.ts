// What is kept of the last whole run of a standing request, so that its next run need not search everything again. One row
// each, and none of it is needed: without it the next run is whole.

import { type Kysely, sql } from 'kysely'

const statements = [
  // question: hash of the request as it was understood. front: packed by the pipeline, with its checksum. notes: physics
  // worked out for the last answer, as text.
  sql`create table ductwright.kept_fronts (
    standing_id uuid primary key references ductwright.standing_requests (id) on delete cascade,
    question text not null,
    catalogue_version text not null,
    model_version text not null,
    front bytea not null,
    front_sha256 text not null,
    notes text not null,
    kept_at timestamptz not null default clock_timestamp()
  )`,
]

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of statements) await statement.execute(db)
}
