// A whole sweep in this process without any store: plans, runs the shards on threads, and hands back the fronts with a
// receipt. What the command line's `sweep` is made of.
import { InputError, shown } from '@ductwright/contract/fault'
import type { Receipt } from '@ductwright/contract/result'
import type { ShardFront, SweepEstimate } from '@ductwright/pipeline/shards'
import { ShardPool, type SweepInputs, type SweepPlan } from './shard-pool.js'
import { type Stage, StageClock } from './stage-clock.js'

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
    const fronts = await clock.time('evaluate', () => evaluateAll(pool, inputs, plan, options))
    const { result, answerHash } = await clock.time('answer', () => pool.answer(inputs, fronts))
    return { fronts, result, answerHash, receipt: receiptOf(clock, fronts, options.threads) }
  } finally {
    await pool.close()
  }
}

function refuseTooLarge(
  estimate: SweepEstimate,
  { threads, secondsMax = Number.POSITIVE_INFINITY }: LocalSweepOptions,
): void {
  const seconds = estimate.seconds / threads
  if (seconds <= secondsMax) return
  const size = `${estimate.compatible.toExponential(2)} combinations that fit together`
  const message = `${size} would take about ${Math.round(seconds)} s on ${threads} threads; at most ${secondsMax} s are allowed. Name fewer duties or nozzle ratios, or require and exclude parts`
  throw new InputError('the sweep is too large', [
    { pointer: '/sweep', rule: 'too-large', value: shown(estimate.combinations), message },
  ])
}

async function evaluateAll(
  pool: ShardPool,
  inputs: SweepInputs,
  plan: SweepPlan,
  options: LocalSweepOptions,
): Promise<ShardFront[]> {
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
    const front = await pool.evaluate(inputs, range, {
      signal,
      onProgress: (share) => tell(index, share),
      exhaustive: options.exhaustive ?? false,
    })
    tell(index, 1)
    return front
  })
  try {
    return await Promise.all(runs)
  } catch (error) {
    failed.abort(error)
    await Promise.allSettled(runs)
    throw error
  }
}

function receiptOf(clock: StageClock, fronts: readonly ShardFront[], threads: number): Receipt {
  const stages: readonly Stage[] = clock.stages
  const evaluated = fronts.reduce((sum, front) => sum + front.evaluated, 0)
  const boxes = fronts.reduce((sum, front) => sum + front.boxes, 0)
  return { started: clock.started, seconds: clock.seconds, threads, shards: fronts.length, evaluated, boxes, stages }
}
