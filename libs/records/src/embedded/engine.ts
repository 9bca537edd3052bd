// The main thread's handle on the database thread: sends statements, matches the replies, passes notifications on, and
// turns the thread's death into an error for everyone who waits.

import { Worker } from 'node:worker_threads'
import type { FromEngine, StatementFault, StatementResult, ToEngine } from './engine-messages.js'

/** A statement that failed; the fields of node-postgres' errors (`code`, `constraint` …) are on it. */
export class StatementError extends Error {
  readonly code?: string
  readonly inTransaction: boolean
  constructor(fault: StatementFault) {
    super(fault.message)
    this.inTransaction = fault.inTransaction
    Object.assign(this, fault.fields)
  }
}

/** The thread has ended or was closed; SQLSTATE 57P01 is what a server says when it shuts down. */
export class EngineStopped extends Error {
  override readonly name = 'EngineStopped'
  readonly code = '57P01'
}

/** The reply that statement 0, the start itself, waits for. */
const started: StatementResult = { rows: [], rowCount: null, command: '', inTransaction: false }

interface Waiting {
  resolve(result: StatementResult): void
  reject(error: Error): void
}

export interface EngineEvents {
  notification(channel: string, payload: string): void
  /** The thread died without being asked to. */
  failure(error: Error): void
}

export class Engine {
  readonly #thread: Worker
  #events: EngineEvents | null = null
  readonly #waiting = new Map<number, Waiting>()
  #lastId = 0
  readonly #ready: Promise<void>
  #stopped: EngineStopped | null = null

  private constructor(thread: Worker) {
    this.#thread = thread
    thread.on('error', (error) => this.#fail(error))
    thread.on('exit', (code) => this.#fail(new Error(`the database thread ended with code ${code}`)))
    this.#ready = new Promise((resolve, reject) => {
      this.#waiting.set(0, { resolve: () => resolve(), reject })
      thread.on('message', (message: FromEngine) => this.#receive(message))
    })
  }

  static async start(folder: string): Promise<Engine> {
    const thread = new Worker(new URL('./engine-thread.js', import.meta.url), { workerData: { folder } })
    const engine = new Engine(thread)
    await engine.#ready
    return engine
  }

  watch(events: EngineEvents): void {
    this.#events = events
  }

  run(text: string, values: readonly unknown[] | null): Promise<StatementResult> {
    if (this.#stopped !== null) return Promise.reject(this.#stopped)
    const id = ++this.#lastId
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject })
      this.#send({ kind: 'run', statement: { id, text, values } })
    })
  }

  /** Runs what was sent before, writes a checkpoint and ends the thread. */
  async close(): Promise<void> {
    if (this.#stopped !== null) return
    const ended = new Promise((resolve) => this.#thread.once('exit', resolve))
    this.#stopped = new EngineStopped('the embedded database is closed')
    this.#send({ kind: 'close' })
    await ended
  }

  #send(message: ToEngine): void {
    this.#thread.postMessage(message)
  }

  #receive(message: FromEngine): void {
    if (message.kind === 'ready') this.#take(0)?.resolve(started)
    else if (message.kind === 'notification') this.#events?.notification(message.channel, message.payload)
    else if (message.kind === 'result') this.#take(message.id)?.resolve(message.result)
    else if (message.kind === 'fault') this.#take(message.id)?.reject(new StatementError(message.fault))
  }

  #take(id: number): Waiting | undefined {
    const waiting = this.#waiting.get(id)
    this.#waiting.delete(id)
    return waiting
  }

  #fail(cause: Error): void {
    const asked = this.#stopped !== null
    this.#stopped ??= new EngineStopped(`the embedded database stopped: ${cause.message}`, { cause })
    for (const { reject } of this.#waiting.values()) reject(this.#stopped)
    this.#waiting.clear()
    if (!asked) this.#events?.failure(this.#stopped)
  }
}
