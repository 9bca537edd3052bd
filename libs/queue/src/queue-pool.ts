// The records' own Postgres pool, lent to BullMQ: what BullMQ may see of it, and statements that survive a deadlock.
// The pool stays the caller's: ending this one ends nothing.

import { EventEmitter } from 'node:events'
import type { PgClientLike, PgMessage, PgPoolLike } from '@ductwright/records/pg-pool-like'
import type { PgPool, PgPoolClient, PgQueryResult } from 'bullmq'

/** Removing a merge while one of its shards ends makes the two wait for each other now and then. */
const deadlockTries = 5
const isDeadlock = (error: unknown): boolean => error instanceof Error && 'code' in error && error.code === '40P01'

/** Clients with an error listener: one that breaks while it is out of the pool and has none would end the process. */
const guarded = new WeakSet<PgClientLike>()

export class QueuePool extends EventEmitter implements PgPool {
  readonly #pool: PgPoolLike

  constructor(pool: PgPoolLike) {
    super()
    this.#pool = pool
    // BullMQ listens once for each queue and worker, and only an emitter with a listener may emit errors.
    this.setMaxListeners(0)
    pool.setMaxListeners(0)
    pool.on('error', (error) => this.listenerCount('error') > 0 && this.emit('error', error))
  }

  /** Statements run alone, so one that lost to a deadlock left nothing behind and can simply be repeated. */
  async query<Row>(text: string, values?: readonly unknown[]): Promise<PgQueryResult<Row>> {
    for (let triesLeft = deadlockTries; ; triesLeft--) {
      try {
        return await this.#pool.query<Row>(text, values)
      } catch (error) {
        if (!isDeadlock(error) || triesLeft === 1) throw error
      }
    }
  }

  async connect(): Promise<PgPoolClient> {
    return lent(await this.#pool.connect())
  }

  async end(): Promise<void> {
    // Nothing to end: the pool belongs to whoever opened it.
  }
}

/**
 * What BullMQ may see of a client. Its socket is left out on purpose: BullMQ would take keep-alive on that socket for a
 * promise to notice every lost connection, and then wait for up to an hour without looking; unseen, it looks every 10 s.
 */
function lent(client: PgClientLike): PgPoolClient {
  if (!guarded.has(client)) {
    guarded.add(client)
    client.on('error', () => undefined)
  }
  const shown = {
    query: (text: string, values?: readonly unknown[]) => client.query(text, values),
    on: (event: 'notification' | 'error' | 'end', listener: (value: never) => void) => {
      client.on(event as 'error', listener as (error: Error) => void)
      return shown
    },
    removeListener: (event: 'notification', listener: (message: PgMessage) => void) => {
      client.removeListener(event, listener)
      return shown
    },
    // Of our two kinds of listeners only this one goes; errors need one until the very end.
    removeAllListeners: () => {
      client.removeAllListeners('notification')
      return shown
    },
    release: (destroy?: boolean) => client.release(destroy),
  }
  return shown as PgPoolClient
}
