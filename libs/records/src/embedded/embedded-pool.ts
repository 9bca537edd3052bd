// A pool in the shape of `pg.Pool` over the embedded database, for the query builder and the job queue alike. It has one
// session: single statements take turns, a transaction keeps the session from BEGIN to COMMIT or ROLLBACK.

import { EventEmitter } from 'node:events'
import { join } from 'node:path'
import type { PgPoolLike, PgResult } from '../pg-pool-like.js'
import { type ClientHome, EmbeddedClient } from './embedded-client.js'
import { Engine } from './engine.js'
import { type FolderLock, lockFolder } from './folder-lock.js'
import { SessionLock } from './session-lock.js'

export interface EmbeddedOptions {
  readonly dataFolder: string
  /** Schema in which unqualified names are looked up; the records themselves qualify every name. */
  readonly searchPath?: string
  readonly idleInTransactionMs?: number
}

const closePatienceMs = 5_000

export class EmbeddedPool extends EventEmitter implements PgPoolLike {
  /** Read by the job queue: a session in this process cannot be dropped silently. */
  readonly options = { keepAlive: true }
  readonly #engine: Engine
  readonly #folderLock: FolderLock
  readonly #home: ClientHome
  readonly #listeners = new Map<EmbeddedClient, Set<string>>()
  #ended: Promise<void> | null = null

  private constructor(engine: Engine, folderLock: FolderLock, idleInTransactionMs: number) {
    super()
    this.setMaxListeners(0)
    this.#engine = engine
    this.#folderLock = folderLock
    engine.watch({
      notification: (channel, payload) => this.#notify(channel, payload),
      failure: (error) => this.#fail(error),
    })
    this.#home = {
      engine,
      idleInTransactionMs,
      lock: new SessionLock(),
      listen: (client, channel) => this.#listen(client, channel),
      forget: (client) => this.#forget(client),
    }
  }

  static async open(options: EmbeddedOptions): Promise<EmbeddedPool> {
    const folderLock = await lockFolder(options.dataFolder)
    try {
      const engine = await Engine.start(join(options.dataFolder, 'postgres'))
      const pool = new EmbeddedPool(engine, folderLock, options.idleInTransactionMs ?? 30_000)
      await pool.query("select set_config('search_path', $1, false)", [options.searchPath ?? 'public'])
      return pool
    } catch (error) {
      await folderLock.release()
      throw error
    }
  }

  async connect(): Promise<EmbeddedClient> {
    if (this.#ended !== null) throw new Error('cannot connect: the pool has been ended')
    const client = new EmbeddedClient(this.#home)
    this.emit('connect', client)
    return client
  }

  // biome-ignore lint/suspicious/noExplicitAny: node-postgres' own default
  async query<Row = any>(text: string, values?: readonly unknown[]): Promise<PgResult<Row>> {
    // The text of node-postgres' error, which the job queue looks for while closing.
    if (this.#ended !== null) throw new Error('Cannot use a pool after calling end on the pool')
    const client = new EmbeddedClient(this.#home)
    try {
      return await client.query<Row>(text, values)
    } finally {
      // Also rolls back a transaction that was opened here: nobody could ever end it.
      client.release()
    }
  }

  /** Waits its turn (a forgotten transaction cannot hold it up for long), closes the database and frees the folder. */
  end(): Promise<void> {
    this.#ended ??= this.#close()
    return this.#ended
  }

  async #close(): Promise<void> {
    const patience = new Promise<void>((resolve) => setTimeout(resolve, closePatienceMs).unref())
    await Promise.race([this.#home.lock.acquire(), patience])
    await this.#engine.close()
    await this.#folderLock.release()
  }

  #listen(client: EmbeddedClient, channel: string): void {
    const channels = this.#listeners.get(client) ?? new Set()
    this.#listeners.set(client, channels.add(channel))
  }

  /** The session stops listening to a channel with its last client. */
  #forget(client: EmbeddedClient): void {
    const channels = this.#listeners.get(client) ?? new Set()
    this.#listeners.delete(client)
    for (const channel of channels) {
      const shared = [...this.#listeners.values()].some((others) => others.has(channel))
      if (!shared && this.#ended === null) this.#unlisten(channel).catch(() => undefined)
    }
  }

  async #unlisten(channel: string): Promise<void> {
    const release = await this.#home.lock.acquire()
    const again = [...this.#listeners.values()].some((others) => others.has(channel))
    try {
      if (!again) await this.#engine.run(`unlisten "${channel.replaceAll('"', '""')}"`, null)
    } finally {
      release()
    }
  }

  #notify(channel: string, payload: string): void {
    for (const [client, channels] of this.#listeners) {
      if (channels.has(channel)) client.emit('notification', { channel, payload })
    }
  }

  #fail(error: Error): void {
    for (const client of this.#listeners.keys()) if (client.listenerCount('error') > 0) client.emit('error', error)
    if (this.listenerCount('error') > 0) this.emit('error', error)
    void this.#folderLock.release()
  }
}
