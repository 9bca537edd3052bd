// Compute threads: everything that takes longer than a few milliseconds runs here, so that the event loop keeps renewing
// locks and leases. A thread that runs out of memory is replaced and only its task fails. Used by the jobs and by the
// command line alike.
import { MessageChannel, type MessagePort } from 'node:worker_threads'
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { InputError } from '@ductwright/contract/fault'
import type { SweepRequest } from '@ductwright/contract/request'
import type { Receipt } from '@ductwright/contract/result'
import type { ShardRange } from '@ductwright/pipeline/shards'
import type { Envelope, Message } from '@ductwright/report/mime'
import { Piscina } from 'piscina'
import type * as thread from './shard-thread.js'
import type { CertifiedFront, KeptRun, SweepAnswer, SweepInputs, SweepPlan, TakenOver, Told } from './shard-thread.js'

export type { CertifiedFront, KeptRun, SweepAnswer, SweepInputs, SweepPlan, TakenOver } from './shard-thread.js'

export interface EvaluateHooks {
  /** Aborting stops the thread's work within a fifth of a second. */
  readonly signal?: AbortSignal
  readonly onProgress?: (share: number) => void
  /** Work every combination through, or keep the certificate of the search. */
  readonly how?: 'exhaust' | 'certify'
}

/** A thread that has not stopped by then is ended; what it computed is lost either way. */
const STOP_WITHIN_MS = 1500
const IDLE_MS = 60_000

/** Names the pair of request and catalogue, so that a thread knows whether it has prepared it already. */
export const sweepInputs = (understood: SweepRequest, catalogue: string): SweepInputs => ({
  key: sha256Hex(`${sha256Hex(canonicalJson(understood))} ${sha256Hex(catalogue)}`),
  understood,
  catalogue,
})

export class ShardPool {
  readonly threads: number
  readonly #pool: Piscina

  constructor(options: { readonly threads: number; readonly heapMb?: number }) {
    this.threads = options.threads
    this.#pool = new Piscina({
      filename: new URL('./shard-thread.js', import.meta.url).href,
      minThreads: 1,
      maxThreads: options.threads,
      idleTimeout: IDLE_MS,
      ...(options.heapMb === undefined ? {} : { resourceLimits: { maxOldGenerationSizeMb: options.heapMb } }),
    })
  }

  plan(inputs: SweepInputs): Promise<SweepPlan> {
    return this.#run('plan', { inputs })
  }

  async evaluate(inputs: SweepInputs, range: ShardRange, hooks: EvaluateHooks = {}): Promise<CertifiedFront> {
    const { port1, port2 } = new MessageChannel()
    port1.on('message', (share: number) => hooks.onProgress?.(share))
    const how = hooks.how ?? 'search'
    try {
      return await this.#cancellable(hooks.signal, (cancel, signal) =>
        this.#run('evaluate', { inputs, range, how, cancel, port: port2 }, { transferList: [port2], signal }),
      )
    } finally {
      port1.close()
    }
  }

  answer(inputs: SweepInputs, shards: readonly CertifiedFront[], signal?: AbortSignal): Promise<SweepAnswer> {
    return this.#cancellable(signal, (cancel, kill) =>
      this.#run('answer', { inputs, shards, cancel }, { signal: kill }),
    )
  }

  /** The answer from what an earlier run of the same question left, or why that is not enough. */
  takeOver(inputs: SweepInputs, kept: KeptRun, signal?: AbortSignal): Promise<TakenOver> {
    return this.#cancellable(signal, (cancel, kill) =>
      this.#run('takeOver', { inputs, kept, cancel }, { signal: kill }),
    )
  }

  /** Runs a task that looks at a flag while it works: set when told to stop, and its thread ended if it does not look. */
  async #cancellable<Value>(
    signal: AbortSignal | undefined,
    task: (cancel: Int32Array<SharedArrayBuffer>, kill: AbortSignal) => Promise<Value>,
  ): Promise<Value> {
    signal?.throwIfAborted()
    const cancel = new Int32Array(new SharedArrayBuffer(4))
    const kill = new AbortController()
    let killer: NodeJS.Timeout | undefined
    const onAbort = (): void => {
      Atomics.store(cancel, 0, 1)
      killer = setTimeout(() => kill.abort(), STOP_WITHIN_MS)
    }
    signal?.addEventListener('abort', onAbort, { once: true })
    try {
      return await task(cancel, kill.signal)
    } catch (error) {
      signal?.throwIfAborted()
      throw error
    } finally {
      clearTimeout(killer)
      signal?.removeEventListener('abort', onAbort)
    }
  }

  /** The mail of an answer, from its canonical JSON and the receipt of its work. */
  composeMail(result: string, receipt: Receipt, envelope: Envelope): Promise<Message> {
    const filename = new URL('./mail-thread.js', import.meta.url).href
    return this.#pool.run({ result, receipt, envelope }, { filename, name: 'compose' }) as Promise<Message>
  }

  close(): Promise<void> {
    return this.#pool.destroy()
  }

  async #run<Step extends keyof typeof thread>(
    step: Step,
    task: Parameters<(typeof thread)[Step]>[0],
    options: { readonly transferList?: MessagePort[]; readonly signal?: AbortSignal } = {},
  ): Promise<ValueOf<ReturnType<(typeof thread)[Step]>>> {
    const told = (await this.#pool.run(task, { name: step, ...options })) as Told<
      ValueOf<ReturnType<(typeof thread)[Step]>>
    >
    if ('faults' in told) throw new InputError('request', told.faults)
    return told.value
  }
}

type ValueOf<Result> = Extract<Result, { readonly value: unknown }>['value']
