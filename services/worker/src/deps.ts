// What a worker is built from, and what its jobs share.
import type { Jobs } from '@ductwright/queue/jobs'
import type { Records } from '@ductwright/records/records'
import type { Logger } from 'pino'
import type { Delivery } from './mail/delivery.js'
import type { WorkerSettings } from './settings.js'
import type { ShardPool } from './shard-pool.js'
import type { SweepSource } from './sweep-source.js'

export interface WorkerDeps {
  readonly records: Records
  readonly jobs: Jobs
  readonly settings: WorkerSettings
  readonly log: Logger
}

export interface JobParts extends WorkerDeps {
  readonly pool: ShardPool
  readonly source: SweepSource
  readonly delivery: Delivery
}
