// `verify`: checks an answer from nothing but itself and its catalogue, without the search that found it.

import { figure } from '@ductwright/contract/figures'
import { parseResult } from '@ductwright/contract/parse-result'
import { type Extent, type Verification, verifyResult } from '@ductwright/pipeline/verify-result'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'
import { progressLine } from './progress-line.js'
import { wholeNumber } from './whole-number.js'

/** The JSON of a whole front of some thousand setups is some tens of megabytes. */
const LARGEST_RESULT_BYTES = 256 * 1024 * 1024
const USUAL_SAMPLE = 1_000_000

interface VerifyOptions {
  readonly catalogue?: string
  readonly sample: number
  readonly seed: number
  readonly whole?: boolean
  readonly json?: boolean
}

export function verifyCommand(): Command {
  return new Command('verify')
    .description('Check an answer: work every listed setup through again and hold combinations against the list.')
    .argument('<result>', 'JSON file with the answer, or - for standard input')
    .option('--catalogue <folder>', 'catalogue the answer was made from (default: the demonstration catalogue)')
    .option('--sample <count>', 'combinations drawn at random', wholeNumber(1, 1e9), USUAL_SAMPLE)
    .option('--seed <count>', 'another number draws others', wholeNumber(0, 1e9), 1)
    .option('--whole', 'every combination instead of a sample: about a second for a million')
    .option('--json', 'print what was found as JSON, and nothing else, on standard output')
    .action(async (path: string, options: VerifyOptions) => {
      const result = parseResult(await readJson(path, LARGEST_RESULT_BYTES))
      const catalogue = await catalogueFrom(options.catalogue)
      const extent: Extent = options.whole === true ? 'whole' : { sample: options.sample, seed: options.seed }
      const line = progressLine('Verifying')
      const found = verifyResult(result, catalogue, extent, { progress: (share) => line.update(share) })
      line.stop()
      process.stdout.write(options.json === true ? `${JSON.stringify(found)}\n` : words(found))
      process.exitCode = found.faults.length > 0 ? NO_ANSWER : DONE
    })
}

function words({ faults, members, tried, feasible, compatible }: Verification): string {
  const count = (value: number): string => figure('count', value)
  const extent = `${count(members)} listed setups worked through again; ${count(tried)} of ${count(compatible)} combinations that fit together held against them, ${count(feasible)} of which keep every limit.`
  const verdict =
    faults.length > 0
      ? 'It does not hold:'
      : 'It holds: nothing tried beats the list, and no listed setup beats another.'
  return `${[extent, verdict, ...faults.map((fault) => `- ${fault}`)].join('\n')}\n`
}
