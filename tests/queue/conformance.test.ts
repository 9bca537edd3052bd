// One suite for every place jobs can be kept in: what code above relies on must hold on all of them alike.
import type { Jobs } from '@ductwright/queue/jobs'
import { afterAll, describe } from 'vitest'
import { freshDataFolder } from '../servers/embedded-folder.js'
import { testPostgres } from '../servers/postgres.js'
import { testRedis } from '../servers/redis.js'
import { describeWith } from '../servers/test-server.js'
import { cancels } from './conformance/cancels.js'
import { endings } from './conformance/endings.js'
import { failures } from './conformance/failures.js'
import { observing } from './conformance/observing.js'
import { repeats } from './conformance/repeats.js'
import { type Stage, stage } from './conformance/stage.js'
import { workOrder } from './conformance/work-order.js'

const [postgres, redis] = await Promise.all([testPostgres(), testRedis()])
afterAll(async () => {
  await Promise.all([postgres?.stop(), redis?.stop()])
})

function conformance(kind: Jobs['kind'], on: Stage): void {
  workOrder(on)
  repeats(on)
  failures(on)
  cancels(on)
  observing(on, kind)
  endings(on)
}

describe('jobs in the embedded database', () => {
  conformance(
    'embedded',
    stage(async () => {
      const folder = await freshDataFolder()
      return { place: { dataFolder: folder.path }, remove: () => folder.remove() }
    }),
  )
})

describeWith(postgres, 'jobs in a Postgres server', (server) => {
  conformance(
    'postgres',
    stage(async () => ({ place: { databaseUrl: await server.freshDatabase() }, remove: async () => undefined })),
  )
})

describeWith(redis, 'jobs in Redis', (server) => {
  conformance(
    'redis',
    stage(async () => ({ place: { redisUrl: server.url }, remove: async () => undefined })),
  )
})
