// The one switch between the places BullMQ can keep jobs: the records' Postgres (embedded or a server), or Redis. It
// opens the connections, checks that they are fit for a queue, and hands out BullMQ's classes bound to them; everything
// else in this package sees only the Backend.

import type { PgPoolLike } from '@ductwright/records/pg-pool-like'
import {
  type BackendClasses,
  type BackendFactory,
  createPostgresBackend,
  createRedisBackend,
  DEFAULT_SCHEMA,
  type IQueueBackend,
  type JobProgress,
  type PgPoolClient,
  type Queue,
  runMigrations,
  type Worker,
  withBackend,
} from 'bullmq'
import type { Redis } from 'ioredis'
import { startUpkeep } from './embedded-upkeep.js'
import type { JobData } from './job-ids.js'
import type { JobSettings } from './job-settings.js'
import { QueuePool } from './queue-pool.js'
import { openRedis } from './redis-connections.js'

interface PoolOptions {
  /** Names without a schema must be looked up in BullMQ's own, `bullmq`. */
  readonly pool: PgPoolLike
  readonly kind: 'embedded' | 'postgres'
}

export type BackendOptions = { readonly redisUrl: string } | PoolOptions

type Classes = BackendClasses<IQueueBackend, unknown>
export type JobQueue = Queue<JobData, null, string, JobData, null, string, IQueueBackend, unknown>
export type JobWorker = Worker<JobData, null, string, IQueueBackend, JobProgress, unknown>

export interface Backend {
  readonly kind: 'embedded' | 'postgres' | 'redis'
  readonly classes: Classes
  /** For enqueueing and looking: a command fails rather than waits for ever. */
  readonly asking: { readonly connection: unknown; readonly prefix: string }
  /** For working: outages are waited out. */
  readonly working: { readonly connection: unknown; readonly prefix: string }
  close(): Promise<void>
}

/** Key prefix on Redis; Postgres has the schema instead and ignores it. */
const prefix = 'ductwright'

/** The two factories differ in their connection type only, which stays inside this file. */
const classesOf = (factory: unknown): Classes => withBackend(factory as BackendFactory<IQueueBackend, unknown>)

export function openBackend(options: BackendOptions, settings: JobSettings): Promise<Backend> {
  return 'redisUrl' in options ? onRedis(options.redisUrl, settings) : onPostgres(options, settings)
}

async function onPostgres({ pool, kind }: PoolOptions, settings: JobSettings): Promise<Backend> {
  assertRoom(pool)
  const connection = new QueuePool(pool)
  const client = await connection.connect()
  try {
    await runMigrations(client)
    await assertSearchPath(client)
  } finally {
    client.release()
  }
  const stopUpkeep = kind === 'embedded' ? startUpkeep(pool, settings) : async () => undefined
  const access = { connection, prefix }
  const classes = classesOf(createPostgresBackend)
  return { kind, classes, asking: access, working: access, close: stopUpkeep }
}

/** Each of three workers and the ear for cancels keeps a connection to be woken on; some must be left for statements. */
const leastConnections = 6

function assertRoom(pool: PgPoolLike): void {
  const max = 'options' in pool ? (pool.options as { readonly max?: number }).max : undefined
  if (max !== undefined && max < leastConnections) {
    throw new RangeError(`the pool must allow at least ${leastConnections} connections (max), got ${max}`)
  }
}

/** BullMQ's statements name no schema. */
async function assertSearchPath(client: PgPoolClient): Promise<void> {
  const { rows } = await client.query<{ schema: string | null }>('select current_schema() as schema')
  const found = rows[0]?.schema
  if (found === DEFAULT_SCHEMA) return
  throw new Error(`the pool must look names up in schema ${DEFAULT_SCHEMA} first (search_path), but it uses ${found}`)
}

async function onRedis(url: string, settings: JobSettings): Promise<Backend> {
  const working = await openRedis(url, settings)
  const asking = working.duplicate({ commandTimeout: settings.commandTimeoutMs })
  const connections: readonly Redis[] = [working, asking]
  for (const redis of connections) {
    redis.on('error', (error) => settings.log({ level: 'error', event: 'connection-error', cause: error.message }))
  }
  return {
    kind: 'redis',
    classes: classesOf(createRedisBackend),
    asking: { connection: asking, prefix },
    working: { connection: working, prefix },
    close: async () => {
      for (const redis of connections) redis.disconnect()
    },
  }
}
