// Brings the store's tables up to what this code knows, one file a step, and refuses a store that is ahead of the code
// or a server that is too old. Steps are only ever added; each runs in the one transaction of the run.

import { type Kysely, type Migration, Migrator, sql } from 'kysely'
import * as firstTables from './migrations/0001-first-tables.js'
import * as catalogueLayers from './migrations/0002-catalogue-layers.js'
import * as standingRequests from './migrations/0003-standing-requests.js'
import * as keptFronts from './migrations/0004-kept-fronts.js'

export const schemaName = 'ductwright'
const oldestServer = 15

const migrations: Record<string, Migration> = {
  '0001-first-tables': firstTables,
  '0002-catalogue-layers': catalogueLayers,
  '0003-standing-requests': standingRequests,
  '0004-kept-fronts': keptFronts,
}

export class StoreRefused extends Error {
  override readonly name = 'StoreRefused'
}

export async function migrate<Tables>(db: Kysely<Tables>): Promise<void> {
  await refuseOldServer(db)
  await refuseNewerTables(db)
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => migrations },
    migrationTableSchema: schemaName,
    migrationTableName: 'migrations',
    migrationLockTableName: 'migrations_lock',
  })
  const { error } = await migrator.migrateToLatest()
  if (error !== undefined) throw error
}

async function refuseOldServer<Tables>(db: Kysely<Tables>): Promise<void> {
  const { rows } = await sql<{ version: number }>`
    select current_setting('server_version_num')::int / 10000 as version`.execute(db)
  const version = rows[0]?.version ?? 0
  if (version >= oldestServer) return
  throw new StoreRefused(`Postgres ${oldestServer} or later is needed, this server is version ${version}`)
}

/** A newer release may have changed the meaning of a column: writing with the older code could spoil its rows. */
async function refuseNewerTables<Tables>(db: Kysely<Tables>): Promise<void> {
  const ledger = await sql<{ name: string | null }>`
    select to_regclass('ductwright.migrations')::text as name`.execute(db)
  if (!ledger.rows[0]?.name) return
  const { rows } = await sql<{ name: string }>`select name from ductwright.migrations order by name`.execute(db)
  const unknown = rows.map((row) => row.name).filter((name) => migrations[name] === undefined)
  if (unknown.length === 0) return
  throw new StoreRefused(
    `the records are ahead of this program: they hold migration ${unknown.join(', ')}, which it does not know. ` +
      'Start the newer release instead',
  )
}
