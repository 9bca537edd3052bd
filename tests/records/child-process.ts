// Children of the tests: started as plain programs on the built packages, read line by line, killed without warning.

import { type ChildProcessByStdio, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import type { Readable, Writable } from 'node:stream'
import { fileURLToPath } from 'node:url'

export class Child {
  readonly lines: string[] = []
  readonly ended: Promise<void>
  readonly #process: ChildProcessByStdio<Writable, Readable, null>

  constructor(script: string, args: readonly string[]) {
    const path = fileURLToPath(new URL(`./children/${script}`, import.meta.url))
    this.#process = spawn(process.execPath, [path, ...args], { stdio: ['pipe', 'pipe', 'inherit'] })
    const lines = createInterface({ input: this.#process.stdout })
    lines.on('line', (line) => this.lines.push(line))
    // Output and process end in either order; the last lines count.
    const closed = new Promise<void>((resolve) => lines.once('close', resolve))
    const exited = new Promise<void>((resolve) => this.#process.once('exit', () => resolve()))
    this.ended = Promise.all([closed, exited]).then(() => undefined)
  }

  get pid(): number {
    return this.#process.pid ?? -1
  }

  async hasSaid(count: number): Promise<void> {
    while (this.lines.length < count) {
      if (this.#process.exitCode !== null) throw new Error(`the child ended with code ${this.#process.exitCode}`)
      await new Promise((resolve) => setTimeout(resolve, 5))
    }
  }

  tell(text: string): void {
    this.#process.stdin.write(text)
  }

  async kill(): Promise<void> {
    this.#process.kill('SIGKILL')
    await this.ended
  }
}
