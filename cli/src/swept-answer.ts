// What `sweep` and `explain` share: the options of a sweep in this process, and the answer with its progress on standard
// error.
import { availableParallelism } from 'node:os'
import { type LocalSweep, runSweepLocally } from '@ductwright/worker/local-sweep'
import type { SweepInputs } from '@ductwright/worker/shard-pool'
import type { Command } from 'commander'
import { progressLine } from './progress-line.js'
import { wholeNumber } from './whole-number.js'

export interface SweepLimits {
  readonly threads: number
  readonly secondsMax: number
  readonly exhaustive?: boolean
}

export function withSweepOptions(command: Command): Command {
  return command
    .option('--catalogue <folder>', 'catalogue to take parts from (default: the demonstration catalogue)')
    .option('--threads <count>', 'threads to compute on', wholeNumber(1, 256), availableParallelism())
    .option('--seconds-max <count>', 'refuse a sweep estimated to take longer', wholeNumber(1, 1e6), 1800)
}

export async function sweptAnswer(inputs: SweepInputs, options: SweepLimits): Promise<LocalSweep> {
  const { threads, secondsMax, exhaustive = false } = options
  const line = progressLine('Sweeping')
  try {
    const sweep = await runSweepLocally(inputs, {
      threads,
      secondsMax: exhaustive ? Number.POSITIVE_INFINITY : secondsMax,
      exhaustive,
      onProgress: (share) => line.update(share),
    })
    line.update(1)
    return sweep
  } finally {
    line.stop()
  }
}

/** Columns between which text is laid out: where the terminal ends, or as wide as reads well. */
const NARROWEST = 60
const WIDEST = 100

export function terminalWidth(): number {
  // Some terminals report no width at all.
  return Math.max(NARROWEST, Math.min(WIDEST, process.stdout.columns || WIDEST))
}
