// A Redis that could lose jobs is refused at the start, with the setting, the value found and the cure.
import { openJobs } from '@ductwright/queue/open-jobs'
import { afterAll, expect, it } from 'vitest'
import { testRedis } from '../servers/redis.js'
import { describeWith } from '../servers/test-server.js'

const [evicting, volatile] = await Promise.all([
  testRedis({ args: ['--maxmemory-policy', 'allkeys-lru'] }),
  testRedis({ args: ['--appendonly', 'no'] }),
])
afterAll(async () => {
  await Promise.all([evicting?.stop(), volatile?.stop()])
})

// A server given from outside has its own settings.
describeWith(evicting?.from === 'environment' ? null : evicting, 'a Redis that evicts', (server) => {
  it('is refused, whatever else is accepted', async () => {
    const refusal = /maxmemory-policy must be noeviction, found allkeys-lru.*Set "maxmemory-policy noeviction"/
    await expect(openJobs({ redisUrl: server.url })).rejects.toThrow(refusal)
    await expect(openJobs({ redisUrl: server.url }, { allowVolatileRedis: true })).rejects.toThrow(refusal)
  })
})

describeWith(volatile?.from === 'environment' ? null : volatile, 'a Redis without append-only file', (server) => {
  it('is refused unless accepted', async () => {
    await expect(openJobs({ redisUrl: server.url })).rejects.toThrow(
      /appendonly must be yes, found no.*Set "appendonly yes"/,
    )
    const jobs = await openJobs({ redisUrl: server.url }, { allowVolatileRedis: true })
    await jobs.close()
  })
})

it('says so when nothing answers, without the password', async () => {
  const opening = openJobs({ redisUrl: 'redis://:secret@127.0.0.1:1' }, { connectTimeoutMs: 300 })
  await expect(opening).rejects.toThrow(/^Redis at 127\.0\.0\.1:1 not reachable in 300 ms: .*ECONNREFUSED/)
})

it('refuses what is not a URL, and settings that make no sense', async () => {
  await expect(openJobs({ redisUrl: 'localhost' })).rejects.toThrow('redisUrl must be a URL')
  await expect(openJobs({ redisUrl: 'redis://127.0.0.1:1' }, { lockMs: 0 })).rejects.toThrow(
    'lockMs must be a whole number of at least 1, got 0',
  )
})
