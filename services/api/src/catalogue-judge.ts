// Hands catalogues that were sent to the thread that reads them, one at a time. The thread starts with the first and stays; one
// that dies or takes too long is replaced, and only the call it worked for fails.
import { Worker } from 'node:worker_threads'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import type { CatalogueJob, Judged } from './catalogue-thread.js'
import { Problem } from './problems.js'

const TIMEOUT_MS = 60_000
/** Enough for the largest catalogue that is read several times over. */
const HEAP_MB = 1024
const WAITING_MAX = 8

export class CatalogueJudge {
  #thread: Worker | null = null
  #last: Promise<unknown> = Promise.resolve()
  #waiting = 0

  /**
   * The version that what was sent makes.
   * @throws CatalogueError with all faults; Problem when too many wait already
   */
  async judge(job: CatalogueJob): Promise<Extract<Judged, { ok: true }>> {
    if (this.#waiting >= WAITING_MAX) {
      const words = `${WAITING_MAX} catalogues are waiting to be read already.`
      throw new Problem('too-many-requests', words, { retryAfterSeconds: 5 })
    }
    this.#waiting += 1
    const turn = this.#last.then(() => this.#run(job))
    this.#last = turn.catch(() => {})
    const judged = await turn.finally(() => {
      this.#waiting -= 1
    })
    if (!judged.ok) throw new CatalogueError(judged.faults)
    return judged
  }

  async close(): Promise<void> {
    await this.#thread?.terminate()
    this.#thread = null
  }

  #run(job: CatalogueJob): Promise<Judged> {
    const thread = this.#running()
    let timer: NodeJS.Timeout | undefined
    return new Promise<Judged>((resolve, reject) => {
      const fail = (error: Error): void => {
        if (this.#thread === thread) this.#thread = null
        void thread.terminate()
        reject(error)
      }
      const late = new Error(`a catalogue was not read within ${TIMEOUT_MS} ms`)
      timer = setTimeout(() => fail(late), TIMEOUT_MS)
      const ended = (): void => fail(new Error('the thread that reads catalogues has ended'))
      thread.once('error', fail).once('exit', ended)
      thread.once('message', (judged: Judged) => {
        thread.off('error', fail).off('exit', ended)
        resolve(judged)
      })
      thread.postMessage(job)
    }).finally(() => clearTimeout(timer))
  }

  #running(): Worker {
    if (this.#thread !== null) return this.#thread
    const thread = new Worker(new URL('./catalogue-thread.js', import.meta.url), {
      resourceLimits: { maxOldGenerationSizeMb: HEAP_MB },
    })
    thread.on('error', () => {})
    thread.once('exit', () => {
      if (this.#thread === thread) this.#thread = null
    })
    // An idle thread holds up no exit.
    thread.unref()
    this.#thread = thread
    return thread
  }
}
