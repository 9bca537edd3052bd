// A whole sweep in this process without any store: plans, runs the shards on threads, and hands back the fronts with a
// receipt. What the command line's `sweep` is made of.
import { freemem } from 'node:os'
import { InputError, shown } from '@ductwright/contract/fault'
import type { Receipt } from '@ductwright/contract/result'
import { refusalOf } from '@ductwright/pipeline/acceptance'
import type { ShardFront, SweepEstimate } from '@ductwright/pipeline/shards'
import { receiptOf } from './receipt.js'
import { type CertifiedFront, ShardPool, type SweepInputs, type SweepPlan } from './shard-pool.js'
import { StageClock } from './stage-clock.js'

export interface LocalSweepOptions {
  readonly threads: number
  /** A sweep estimated to take longer than this, s over all threads, is refused before it starts. */
  readonly secondsMax?: number
  /** 0…1 over all shards, by work. */
  readonly onProgress?: (share: number, estimate: SweepEstimate) => void
  readonly signal?: AbortSignal
  /** Work every combination through instead of searching: the same front, much slower. */
  readonly exhaustive?: boolean
}

export interface LocalSweep {
  readonly fronts: readonly ShardFront[]
  /** Canonical JSON of the answer. */
  readonly result: string
  readonly answerHash: string
  readonly receipt: Receipt
}

export async function runSweepLocally(inputs: SweepInputs, options: LocalSweepOptions): Promise<LocalSweep> {
  const pool = new ShardPool({ threads: options.threads })
  const clock = new StageClock()
  try {
    const plan = await clock.time('plan', () => pool.plan(inputs))
    options.signal?.throwIfAborted()
    refuseTooLarge(plan.estimate, options)
    const shards = await clock.time('evaluate', () => evaluateAll(pool, inputs, plan, options))
    const { result, answerHash } = await clock.time('answer', () => pool.answer(inputs, shards, options.signal))
    const fronts = shards.map(({ front }) => front)
    const { started, seconds, stages } = clock
    return {
      fronts,
      result,
      answerHash,
      receipt: receiptOf({ started, seconds, threads: options.threads, stages }, fronts),
    }
  } finally {
    await pool.close()
  }
}

function refuseTooLarge(estimate: SweepEstimate, options: LocalSweepOptions): void {
  const { threads, secondsMax = Number.POSITIVE_INFINITY } = options
  const limits = { combinations: Number.POSITIVE_INFINITY, seconds: secondsMax, bytes: freemem() }
  const message = refusalOf(estimate, limits, threads)
  if (message === null) return
  throw new InputError('the sweep is too large', [
    { pointer: '/sweep', rule: 'too-large', value: shown(estimate.combinations), message },
  ])
}

async function evaluateAll(
  pool: ShardPool,
  inputs: SweepInputs,
  plan: SweepPlan,
  options: LocalSweepOptions,
): Promise<CertifiedFront[]> {
  const whole = plan.ranges.reduce((sum, range) => sum + range.work, 0)
  const done = plan.ranges.map(() => 0)
  const tell = (index: number, share: number): void => {
    done[index] = share
    const worked = plan.ranges.reduce((sum, range, at) => sum + range.work * (done[at] ?? 0), 0)
    options.onProgress?.(whole === 0 ? 1 : worked / whole, plan.estimate)
  }
  const failed = new AbortController()
  const signal = AbortSignal.any([failed.signal, ...(options.signal === undefined ? [] : [options.signal])])
  const runs = plan.ranges.map(async (range, index) => {
    const found = await pool.evaluate(inputs, range, {
      signal,
      onProgress: (share) => tell(index, share),
      ...(options.exhaustive === true ? { how: 'exhaust' } : {}),
    })
    tell(index, 1)
    return found
  })
  try {
    return await Promise.all(runs)
  } catch (error) {
    failed.abort(error)
    await Promise.allSettled(runs)
    throw error
  }
}
