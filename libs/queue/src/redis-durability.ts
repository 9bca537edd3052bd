// Two Redis settings decide whether queued jobs can vanish without a trace, so the service refuses to start on wrong
// ones: an eviction policy deletes jobs when memory is short, and without an append-only file a restart empties the
// queue. Read from INFO, which hosted servers allow where CONFIG is forbidden.
import type { Redis } from 'ioredis'

/** One `name:value` line of an INFO answer; undefined when the server does not report it. */
function infoField(info: string, name: string): string | undefined {
  return info
    .split(/\r?\n/)
    .find((line) => line.startsWith(`${name}:`))
    ?.slice(name.length + 1)
}

export class RedisDurabilityError extends Error {}

/** Throws RedisDurabilityError naming the setting, the value found and the cure. */
export async function assertRedisDurability(redis: Redis, allowVolatile: boolean): Promise<void> {
  const policy = infoField(await redis.info('memory'), 'maxmemory_policy')
  if (policy !== 'noeviction') {
    throw new RedisDurabilityError(
      `Redis setting maxmemory-policy must be noeviction, found ${policy ?? 'nothing reported'}: any other policy deletes ` +
        'queued jobs when memory is short. Set "maxmemory-policy noeviction" in redis.conf.',
    )
  }
  const appendOnly = infoField(await redis.info('persistence'), 'aof_enabled')
  if (appendOnly !== '1' && !allowVolatile) {
    throw new RedisDurabilityError(
      `Redis setting appendonly must be yes, found ${appendOnly === '0' ? 'no' : 'nothing reported'}: without it a restart ` +
        'of Redis loses queued jobs. Set "appendonly yes" in redis.conf, or set allowVolatileRedis to accept the loss.',
    )
  }
}
