// One client of the embedded pool. All clients share the one session, so a client that opens a transaction keeps the
// turn until the transaction has ended; its own statements go straight through, everyone else's wait.

import { EventEmitter } from 'node:events'
import type { PgClientLike, PgResult } from '../pg-pool-like.js'
import { type Engine, StatementError } from './engine.js'
import type { StatementResult } from './engine-messages.js'
import type { Release, SessionLock } from './session-lock.js'

export interface ClientHome {
  readonly engine: Engine
  readonly lock: SessionLock
  /** A transaction that issues nothing for so long is rolled back, as a server would with its own timeout. */
  readonly idleInTransactionMs: number
  listen(client: EmbeddedClient, channel: string): void
  forget(client: EmbeddedClient): void
}

export class EmbeddedClient extends EventEmitter implements PgClientLike {
  readonly #home: ClientHome
  /** Set while this client's transaction holds the session. */
  #turn: Release | null = null
  /** Statements of one client run in the order they were issued. */
  #tail: Promise<unknown> = Promise.resolve()
  #idle: NodeJS.Timeout | undefined
  #ended: string | null = null

  constructor(home: ClientHome) {
    super()
    this.#home = home
    this.setMaxListeners(0)
  }

  // biome-ignore lint/suspicious/noExplicitAny: node-postgres' own default
  query<Row = any>(text: string, values?: readonly unknown[]): Promise<PgResult<Row>> {
    const result = this.#tail.then(() => this.#run(text, values))
    this.#tail = result.catch(() => undefined)
    return result as Promise<PgResult<Row>>
  }

  release(): void {
    if (this.#ended !== null) return
    this.#ended = 'the client was released'
    this.#home.forget(this)
    this.#tail = this.#tail.then(() => this.#rollBack())
  }

  /** Resolves when everything issued so far has run. */
  async settled(): Promise<void> {
    await this.#tail
  }

  async #run(text: string, values: readonly unknown[] | undefined): Promise<PgResult> {
    if (this.#ended !== null) throw new Error(`statement refused: ${this.#ended}`)
    clearTimeout(this.#idle)
    const turn = this.#turn ?? (await this.#home.lock.acquire())
    let inTransaction = this.#turn !== null
    try {
      const result = await this.#home.engine.run(text, parameters(values))
      inTransaction = result.inTransaction
      this.#noteListen(text)
      return asPgResult(result)
    } catch (error) {
      inTransaction = error instanceof StatementError && error.inTransaction
      throw error
    } finally {
      this.#keepOrPass(turn, inTransaction)
    }
  }

  #keepOrPass(turn: Release, inTransaction: boolean): void {
    this.#turn = inTransaction ? turn : null
    if (!inTransaction) {
      turn()
      return
    }
    this.#idle = setTimeout(() => this.#abandon(), this.#home.idleInTransactionMs)
    this.#idle.unref()
  }

  #abandon(): void {
    this.#ended ??= `its transaction issued nothing for ${this.#home.idleInTransactionMs} ms and was rolled back`
    this.#tail = this.#tail.then(() => this.#rollBack())
  }

  async #rollBack(): Promise<void> {
    clearTimeout(this.#idle)
    const turn = this.#turn
    if (turn === null) return
    this.#turn = null
    // A stopped engine has nothing left to roll back: its recovery does that.
    await this.#home.engine.run('rollback', null).catch(() => undefined)
    turn()
  }

  #noteListen(text: string): void {
    const channel = listenedChannel(text)
    if (channel !== null) this.#home.listen(this, channel)
  }
}

/** undefined means NULL, as in node-postgres; without parameters several statements are allowed in one text. */
function parameters(values: readonly unknown[] | undefined): readonly unknown[] | null {
  return values === undefined || values.length === 0 ? null : values.map((value) => value ?? null)
}

function asPgResult({ rows, rowCount, command }: StatementResult): PgResult {
  return { rows, rowCount, command }
}

function listenedChannel(text: string): string | null {
  const bare = text.replace(/--[^\n]*/g, '').trim()
  const match = /^listen\s+(?:"((?:[^"]|"")+)"|(\w+))\s*;?$/i.exec(bare)
  if (match === null) return null
  return match[1]?.replaceAll('""', '"') ?? match[2]?.toLowerCase() ?? null
}
