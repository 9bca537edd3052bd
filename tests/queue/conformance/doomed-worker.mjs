// A worker process that takes shards and never finishes one, until it is killed. Arguments, each as JSON: where the jobs
// are ({ redisUrl } | { databaseUrl } | { dataFolder }), the job settings, and the sweep it enqueues a shard of.
import { openJobs } from '@ductwright/queue/open-jobs'
import { openRecords } from '@ductwright/records/open-records'

const [place, settings, sweepId] = process.argv.slice(2).map((text) => JSON.parse(text))

async function backend() {
  if ('redisUrl' in place) return place
  const { pool } = await openRecords(place)
  return { pool, kind: 'databaseUrl' in place ? 'postgres' : 'embedded' }
}

const never = new Promise(() => undefined)
const jobs = await openJobs(await backend(), settings)
const runShard = () => {
  process.stdout.write('started\n')
  return never
}
await jobs.work(
  { planSweep: () => never, runShard, mergeSweep: () => never, sendMail: () => never, failed: () => never },
  { shards: 1 },
)
await jobs.enqueueShards(sweepId, [0])
