// `evaluate`: works one setup through every model and prints what it does and which limit it is closest to.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { parseSetup } from '@ductwright/contract/parse-setup'
import type { SetupReport } from '@ductwright/contract/setup'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { renderSetupReport } from '@ductwright/report/setup-report'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { readJson } from './json-input.js'

interface EvaluateOptions {
  readonly catalogue?: string
  readonly json?: boolean
  readonly plots?: string
}

export function evaluateCommand(): Command {
  return new Command('evaluate')
    .description('Work one setup through every model.')
    .argument('<setup>', 'JSON file with the setup, or - for standard input')
    .option('--catalogue <folder>', 'catalogue to take parts from (default: the demonstration catalogue)')
    .option('--json', 'print the report as canonical JSON, and nothing else, on standard output')
    .option('--plots <file>', 'draw its curves into an HTML file: thrust and drag, efflux, temperatures, margins')
    .action(async (path: string, options: EvaluateOptions) => {
      const setup = parseSetup(await readJson(path))
      const catalogue = await catalogueFrom(options.catalogue)
      const report = evaluateSetup(setup, catalogue)
      if (options.plots !== undefined) await plot(options.plots, report, catalogue)
      process.stdout.write(options.json === true ? `${canonicalJson(report)}\n` : renderSetupReport(report))
      process.exitCode = report.refused.length > 0 ? NO_ANSWER : DONE
    })
}

async function plot(path: string, report: SetupReport, catalogue: Catalogue): Promise<void> {
  const { writePlots } = await import('./plots-file.js')
  if (await writePlots(path, report, catalogue)) return
  process.stderr.write(`${path}: not written, since nothing can be worked out for this setup\n`)
}
