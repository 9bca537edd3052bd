// Where a catalogue version came from, and the private parts that owners lay over the shared catalogue. A version made of
// such a layer is kept because runs are pinned to it, but it is nobody else's to see and never the current one.

import { type Kysely, sql } from 'kysely'

const statements = [
  // The parts as they were sent; `version` is their hash, so that an owner changes what was last read and nothing newer.
  sql`create table ductwright.catalogue_layers (
    id uuid primary key,
    name text not null,
    content text not null,
    version text not null,
    created_at timestamptz not null,
    changed_at timestamptz not null
  )`,

  // start: loaded when the service started; upload: sent to the API; layer: a private layer over a shared version.
  sql`alter table ductwright.catalogue_versions
    add column origin text not null default 'start' check (origin in ('start', 'upload', 'layer')),
    add column layer_id uuid references ductwright.catalogue_layers (id) on delete set null`,
  sql`create index catalogue_versions_shared on ductwright.catalogue_versions (put_order desc) where origin <> 'layer'`,
  sql`create index catalogue_versions_of_layer on ductwright.catalogue_versions (layer_id) where layer_id is not null`,
  sql`create index sweeps_of_version on ductwright.sweeps (catalogue_version)`,
]

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const statement of statements) await statement.execute(db)
}
