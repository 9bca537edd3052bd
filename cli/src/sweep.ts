// `sweep`: answers one request in this process, on threads, without any store, and prints what the mail would say.
import { availableParallelism } from 'node:os'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { ownPartsOf } from '@ductwright/contract/own-parts'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result } from '@ductwright/contract/result'
import { renderReceipt } from '@ductwright/report/receipt'
import { renderText } from '@ductwright/report/text'
import { type LocalSweep, runSweepLocally } from '@ductwright/worker/local-sweep'
import { type SweepInputs, sweepInputs } from '@ductwright/worker/shard-pool'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { UsageError } from './complaint.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'
import { progressLine } from './progress-line.js'
import { wholeNumber } from './whole-number.js'

/** Columns between which the text is laid out: where the terminal ends, or as wide as reads well. */
const NARROWEST = 60
const WIDEST = 120

interface SweepOptions {
  readonly catalogue?: string
  readonly json?: boolean
  readonly threads: number
  readonly secondsMax: number
  readonly exhaustive?: boolean
}

export function sweepCommand(): Command {
  return new Command('sweep')
    .description('Answer one request: every sensible combination, the ones nothing else beats, ranked.')
    .argument('<request>', 'JSON file with the request, or - for standard input')
    .option('--catalogue <folder>', 'catalogue to take parts from (default: the demonstration catalogue)')
    .option('--json', 'print the result as canonical JSON, and nothing else, on standard output')
    .option('--threads <count>', 'threads to compute on', wholeNumber(1, 256), availableParallelism())
    .option('--seconds-max <count>', 'refuse a sweep estimated to take longer', wholeNumber(1, 1e6), 1800)
    .option('--exhaustive', 'work every combination through, one by one: the same answer, much slower')
    .action(async (path: string, options: SweepOptions) => {
      const json = await readJson(path)
      const understood = parseRequest(json)
      if (ownPartsOf(json) !== null)
        throw new UsageError('/own_parts: only a service keeps own parts; leave it out here')
      const catalogue = await catalogueFrom(options.catalogue)
      const sweep = await swept(sweepInputs(understood, catalogueContent(catalogue)), options)
      const result = JSON.parse(sweep.result) as Result
      process.stdout.write(options.json === true ? `${sweep.result}\n` : renderText(result, { width: width() }))
      if (options.json !== true) process.stderr.write(`\n${renderReceipt(sweep.receipt)}`)
      process.exitCode = result.outcome === 'reached' ? DONE : NO_ANSWER
    })
}

async function swept(inputs: SweepInputs, options: SweepOptions): Promise<LocalSweep> {
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

function width(): number {
  // Some terminals report no width at all.
  return Math.max(NARROWEST, Math.min(WIDEST, process.stdout.columns || WIDEST))
}
