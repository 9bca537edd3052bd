// `explain`: answers "why not mine". Works a setup through every model in the circumstances of a request, answers the
// request, and says what keeps the setup out of the list, or which one of the list beats it and by how much.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import { parseSetup } from '@ductwright/contract/parse-setup'
import type { SetupChoice } from '@ductwright/contract/request'
import type { Result } from '@ductwright/contract/result'
import { explanationOf, isOut } from '@ductwright/report/explanation'
import { renderExplanation } from '@ductwright/report/explanation-text'
import { sweepInputs } from '@ductwright/worker/shard-pool'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { UsageError } from './complaint.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'
import { judgeSetup } from './judged-setup.js'
import { type SweepLimits, sweptAnswer, terminalWidth, withSweepOptions } from './swept-answer.js'

interface ExplainOptions extends SweepLimits {
  readonly catalogue?: string
  readonly json?: boolean
}

const notes = `
The setup file is what evaluate reads, or its "setup" alone. It is judged in the airframe, the air, the flight and the
limits of the request; its own are not used.

Ends with 0 when the setup keeps every limit, beaten or not, and with 1 when it cannot be built or breaks a limit.`

export function explainCommand(): Command {
  const command = new Command('explain')
    .description('Say why a setup is not in the answer of a request: what it breaks, or what beats it and by how much.')
    .argument('<setup>', 'JSON file with the setup, or - for standard input')
    .argument('<request>', 'JSON file with the request, or - for standard input')
  return withSweepOptions(command)
    .option('--json', 'print the explanation as canonical JSON, and nothing else, on standard output')
    .addHelpText('after', notes)
    .action(run)
}

async function run(setupPath: string, requestPath: string, options: ExplainOptions): Promise<void> {
  if (setupPath === '-' && requestPath === '-') throw new UsageError('only one of setup and request can be -')
  const requested = await readJson(requestPath)
  const request = parseRequest(requested)
  const setup = setupOf(await readJson(setupPath), requested)
  const catalogue: Catalogue = await catalogueFrom(options.catalogue)
  const judged = judgeSetup(setup, request, catalogue)
  const sweep = await sweptAnswer(sweepInputs(request, catalogueContent(catalogue)), options)
  const explanation = explanationOf(judged, JSON.parse(sweep.result) as Result)
  process.stdout.write(
    options.json === true
      ? `${canonicalJson(explanation)}\n`
      : renderExplanation(explanation, { width: terminalWidth() }),
  )
  process.exitCode = isOut(explanation) ? NO_ANSWER : DONE
}

/** A setup by itself is read in the airframe of the request. */
function setupOf(json: unknown, requested: unknown): SetupChoice {
  const whole = typeof json === 'object' && json !== null && 'setup' in json
  const { airframe } = requested as { readonly airframe?: unknown }
  return parseSetup(whole ? json : { airframe, setup: json }).setup
}
