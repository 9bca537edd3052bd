// Opens Redis for the queue: reachable within the allowed time, fit for jobs, and patient afterwards. Reconnecting waits
// at most two seconds between tries, so work resumes soon after an outage however long it was.

import { Redis } from 'ioredis'
import type { JobSettings } from './job-settings.js'
import { assertRedisDurability } from './redis-durability.js'

/** Host and port only: the URL may hold a password. */
function nameOf(url: string): string {
  try {
    return new URL(url).host
  } catch {
    throw new RangeError('redisUrl must be a URL such as redis://localhost:6379')
  }
}

async function connectWithin(redis: Redis, name: string, limitMs: number): Promise<void> {
  let lastCause = 'no answer'
  const note = (error: Error): void => {
    lastCause = error.message || error.name
  }
  redis.on('error', note)
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(
      () => reject(new Error(`Redis at ${name} not reachable in ${limitMs} ms: ${lastCause}`)),
      limitMs,
    )
  })
  try {
    await Promise.race([redis.ping(), late])
  } finally {
    clearTimeout(timer)
    redis.off('error', note)
  }
}

export async function openRedis(url: string, settings: JobSettings): Promise<Redis> {
  const name = nameOf(url)
  const redis = new Redis(url, {
    // Commands issued during an outage wait for its end; BullMQ's workers require it.
    maxRetriesPerRequest: null,
    retryStrategy: (tries) => Math.min(100 * tries, 2_000),
  })
  // Never without a listener, or a lost connection would end the process.
  redis.on('error', () => undefined)
  try {
    await connectWithin(redis, name, settings.connectTimeoutMs)
    await assertRedisDurability(redis, settings.allowVolatileRedis)
    return redis
  } catch (error) {
    redis.disconnect()
    throw error
  }
}
