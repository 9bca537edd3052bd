// Holds a shard's lease while a thread computes: renews it with the latest progress, and says so when it is lost, because
// another worker has taken over or the sweep has ended. A store that is down for a moment does not lose the lease by
// itself; the token refuses a late write in any case.
import type { Records, ShardLease } from '@ductwright/records/records'
import type { Logger } from 'pino'

/** Renewals in the life of one lease, so that one lost call does not lose it. */
const RENEWALS = 4

export class LeaseKeeper {
  readonly #lost = new AbortController()
  readonly #timer: NodeJS.Timeout
  #progress = 0

  constructor(records: Records, lease: ShardLease, leaseMs: number, log: Logger) {
    let busy = false
    this.#timer = setInterval(async () => {
      if (busy) return
      busy = true
      try {
        if (!(await records.renewShard(lease, this.#progress, leaseMs))) this.#lost.abort(new LeaseLost())
      } catch (error) {
        log.warn({ err: error }, 'lease not renewed')
      } finally {
        busy = false
      }
    }, leaseMs / RENEWALS)
  }

  /** Aborted when the shard is no longer ours. */
  get lost(): AbortSignal {
    return this.#lost.signal
  }

  progress(share: number): void {
    this.#progress = share
  }

  stop(): void {
    clearInterval(this.#timer)
  }
}

class LeaseLost extends Error {
  constructor() {
    super('the lease of this shard was lost')
  }
}
