// Opens the records on one of their two stores: a Postgres server, or Postgres inside this process in a locked folder.
// Both run the same SQL; the pool is also where the job queue keeps its own schema, named below.
//
// The embedded store survives the death of the process at any moment, but it never calls fsync: after a power failure
// the last writes, or the folder, may be lost. Where that matters, give a database address.

import { Kysely, PostgresDialect, type PostgresPool, sql } from 'kysely'
import { addresses } from './addresses.js'
import { answers } from './answers.js'
import { batches } from './batches.js'
import { catalogueLayers } from './catalogue-layers.js'
import { catalogueVersions } from './catalogue-versions.js'
import { EmbeddedPool } from './embedded/embedded-pool.js'
import { erasure } from './erasure.js'
import { keptFronts } from './kept-fronts.js'
import { migrate } from './migrate.js'
import { outbox } from './outbox.js'
import type { PgPoolLike } from './pg-pool-like.js'
import type { Records } from './records.js'
import { requests } from './requests.js'
import { serverPool } from './server-pool.js'
import { shards } from './shards.js'
import { standing } from './standing.js'
import { standingRuns } from './standing-runs.js'
import { sweeps } from './sweeps.js'
import type { Database, Tables } from './tables.js'
import { unfinished } from './unfinished.js'
import { unsubscribing } from './unsubscribing.js'

export type OpenRecords = Records & {
  /** Shared with the job queue; `close` of the records ends it. */
  readonly pool: PgPoolLike
}

export type RecordsOptions = { readonly dataFolder: string } | { readonly databaseUrl: string }

/** The job queue's tables live here, and it names them without a schema. */
export const queueSchema = 'bullmq'

export async function openRecords(options: RecordsOptions): Promise<OpenRecords> {
  const kind = 'dataFolder' in options ? 'embedded' : 'server'
  const pool = await openPool(options)
  try {
    const db: Database = new Kysely<Tables>({ dialect: new PostgresDialect({ pool: pool as unknown as PostgresPool }) })
    await migrate(db)
    return compose(kind, pool, db)
  } catch (error) {
    await pool.end()
    throw error
  }
}

function compose(kind: Records['kind'], pool: PgPoolLike, db: Database): OpenRecords {
  let closed: Promise<void> | null = null
  return {
    kind,
    pool,
    async ping() {
      await sql`select 1`.execute(db)
    },
    close() {
      closed ??= pool.end()
      return closed
    },
    ...catalogueVersions(db),
    ...catalogueLayers(db),
    ...requests(db),
    ...sweeps(db),
    ...shards(db),
    ...answers(db),
    ...outbox(db),
    ...addresses(db),
    ...unfinished(db),
    ...standing(db),
    ...standingRuns(db),
    ...keptFronts(db),
    ...batches(db),
    ...unsubscribing(db),
    ...erasure(db),
  }
}

async function openPool(options: RecordsOptions): Promise<PgPoolLike> {
  if ('dataFolder' in options) return EmbeddedPool.open({ dataFolder: options.dataFolder, searchPath: queueSchema })
  // The overloads of its event methods hide from the compiler that it fits.
  return serverPool({ databaseUrl: options.databaseUrl, searchPath: queueSchema }) as unknown as PgPoolLike
}
