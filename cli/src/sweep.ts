// `sweep`: answers one request in this process, on threads, without any store, and prints what the mail would say; with a
// folder, the page, the mail, the list and the charts are written there too.
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { ownPartsOf } from '@ductwright/contract/own-parts'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Receipt, Result } from '@ductwright/contract/result'
import { renderReceipt } from '@ductwright/report/receipt'
import { renderText } from '@ductwright/report/text'
import { sweepInputs } from '@ductwright/worker/shard-pool'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { UsageError } from './complaint.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'
import { openFolder, writeInto } from './out-folder.js'
import { type SweepLimits, sweptAnswer, terminalWidth, withSweepOptions } from './swept-answer.js'

interface SweepOptions extends SweepLimits {
  readonly catalogue?: string
  readonly json?: boolean
  readonly out?: string
}

const files = `
With --out, the folder is made if it is not there and holds afterwards:
  report.html           the whole answer as one page that needs nothing else
  mail.html, .txt, .eml the mail: for a browser, as text, and as a message without recipient
  answer.csv, .json     every setup that nothing else beats, and the whole answer
  charts/               each chart as SVG and PNG`

export function sweepCommand(): Command {
  const command = new Command('sweep')
    .description('Answer one request: every sensible combination, the ones nothing else beats, ranked.')
    .argument('<request>', 'JSON file with the request, or - for standard input')
  return withSweepOptions(command)
    .option('--json', 'print the result as canonical JSON, and nothing else, on standard output')
    .option('--out <folder>', 'write the answer as files into this folder')
    .option('--exhaustive', 'work every combination through, one by one: the same answer, much slower')
    .addHelpText('after', files)
    .action(run)
}

async function run(path: string, options: SweepOptions): Promise<void> {
  const json = await readJson(path)
  const understood = parseRequest(json)
  if (ownPartsOf(json) !== null) throw new UsageError('/own_parts: only a service keeps own parts; leave it out here')
  const catalogue = await catalogueFrom(options.catalogue)
  if (options.out !== undefined) await openFolder(options.out)
  const sweep = await sweptAnswer(sweepInputs(understood, catalogueContent(catalogue)), options)
  const result = JSON.parse(sweep.result) as Result
  const { receipt } = sweep
  if (options.out !== undefined) await writeAnswer(options.out, result, receipt)
  const text = () => renderText(result, { width: terminalWidth(), receipt })
  process.stdout.write(options.json === true ? `${sweep.result}\n` : text())
  if (options.json !== true) process.stderr.write(`\n${renderReceipt(receipt)}`)
  process.exitCode = result.outcome === 'reached' ? DONE : NO_ANSWER
}

async function writeAnswer(folder: string, result: Result, receipt: Receipt): Promise<void> {
  // Loaded only when asked for, since drawing needs half a second to start.
  const { answerFiles } = await import('@ductwright/report/out-files')
  const written = await answerFiles(result, receipt)
  await writeInto(folder, written)
  process.stderr.write(`${folder}: ${written.size} files written, among them report.html\n`)
}
