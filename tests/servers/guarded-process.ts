// The tests' side of guard.mjs: a server process that is ended, and whose folder is removed, even if the tests are killed.

import { type ChildProcessByStdio, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import type { Readable, Writable } from 'node:stream'
import { fileURLToPath } from 'node:url'
import type { ServerFaults } from './test-server.js'

export interface GuardedJob {
  readonly command: string
  readonly args: readonly string[]
  readonly uid: number | null
  readonly gid: number | null
  /** Removed at the end. */
  readonly folder: string
  readonly softSignal: NodeJS.Signals
  readonly hardSignal: NodeJS.Signals
}

export class GuardedProcess implements ServerFaults {
  readonly #guard: ChildProcessByStdio<Writable, Readable, null>
  readonly #answers: () => Promise<boolean>
  #exit: string | null = null
  #expecting: { word: string; resolve(): void } | null = null

  private constructor(job: GuardedJob, answers: () => Promise<boolean>) {
    const script = fileURLToPath(new URL('./guard.mjs', import.meta.url))
    // Detached: an interrupt at the terminal must reach the tests only, the guard follows when they end.
    this.#guard = spawn(process.execPath, [script, JSON.stringify(job)], {
      detached: true,
      stdio: ['pipe', 'pipe', 'inherit'],
    })
    this.#guard.stdin.on('error', () => undefined)
    this.#answers = answers
    createInterface({ input: this.#guard.stdout }).on('line', (line) => this.#hear(line))
  }

  /** Starts the server and waits until `answers` is true; null when the process ended instead (a port was taken). */
  static async launch(job: GuardedJob, answers: () => Promise<boolean>): Promise<GuardedProcess | null> {
    const guarded = new GuardedProcess(job, answers)
    if (await guarded.#untilAnswering()) return guarded
    await guarded.stop()
    return null
  }

  /** Why the server ended; null while it runs. */
  get exit(): string | null {
    return this.#exit
  }

  async stop(): Promise<void> {
    if (this.#guard.exitCode !== null || this.#guard.signalCode !== null) return
    const ended = new Promise((resolve) => this.#guard.once('exit', resolve))
    this.#guard.stdin.end()
    await ended
  }

  kill(): Promise<void> {
    return this.#order('kill', 'exited')
  }

  async start(): Promise<void> {
    await this.#order('start', 'started')
    if (!(await this.#untilAnswering())) throw new Error(`the server did not start again: ${this.#exit}`)
  }

  freeze(): Promise<void> {
    return this.#order('freeze', 'frozen')
  }

  thaw(): Promise<void> {
    return this.#order('thaw', 'thawed')
  }

  #order(order: string, reply: string): Promise<void> {
    return new Promise((resolve) => {
      this.#expecting = { word: reply, resolve }
      this.#guard.stdin.write(`${order}\n`)
    })
  }

  #hear(line: string): void {
    const word = line.split(' ', 1)[0] ?? ''
    if (word === 'started') this.#exit = null
    if (word === 'exited' || word === 'failed') this.#exit = line
    if (word !== this.#expecting?.word) return
    this.#expecting.resolve()
    this.#expecting = null
  }

  async #untilAnswering(): Promise<boolean> {
    const deadline = Date.now() + 30_000
    while (this.#exit === null && Date.now() < deadline) {
      if (await this.#answers()) return true
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    return false
  }
}
