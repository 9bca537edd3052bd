// Threads that prepare a question each for themselves and then share its shards, each taking the next when it is done.
import { Worker } from 'node:worker_threads'

export class Team {
  #shards = 0
  #workers

  constructor(size) {
    const script = new URL('./sweep-thread.mjs', import.meta.url)
    this.#workers = Array.from({ length: size }, () => new Worker(script))
  }

  async prepare(name) {
    const [shards] = await Promise.all(this.#workers.map((worker) => ask(worker, { name })))
    this.#shards = shards
  }

  /** Fronts of all shards, searched by the first `threads` of the team. */
  async sweep(threads) {
    const fronts = []
    let next = 0
    const work = async (worker) => {
      while (next < this.#shards) fronts.push(await ask(worker, { shard: next++ }))
    }
    await Promise.all(this.#workers.slice(0, threads).map(work))
    return fronts
  }

  close() {
    return Promise.all(this.#workers.map((worker) => worker.terminate()))
  }
}

function ask(worker, message) {
  return new Promise((resolve, reject) => {
    const settle = (settled, value) => {
      worker.off('message', done)
      worker.off('error', failed)
      settled(value)
    }
    const done = (value) => settle(resolve, value)
    const failed = (error) => settle(reject, error)
    worker.on('message', done)
    worker.on('error', failed)
    worker.postMessage(message)
  })
}
