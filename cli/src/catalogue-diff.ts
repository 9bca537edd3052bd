// `catalogue diff`: what is different in the second catalogue, one sentence a line, or row by row as JSON.

import { type CatalogueDiff, diffCatalogues, isEmptyDiff } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { inert } from '@ductwright/contract/inert'
import { Command } from 'commander'
import { catalogueAt } from './catalogue-folder.js'

interface DiffOptions {
  readonly json?: boolean
}

export function catalogueDiffCommand(): Command {
  return new Command('diff')
    .description('Say what is different in the second of two catalogues.')
    .argument('<before>', 'folder with the tables of a catalogue, or JSON file of one version')
    .argument('<after>', 'the same, for the catalogue to compare with it')
    .option('--json', 'print the differences as canonical JSON, and nothing else, on standard output')
    .action(async (before: string, after: string, options: DiffOptions) => {
      const diff = diffCatalogues(await catalogueAt(before), await catalogueAt(after))
      process.stdout.write(options.json === true ? `${canonicalJson(shown(diff))}\n` : words(diff))
    })
}

function words(diff: CatalogueDiff): string {
  const { before, after } = diff
  const lines = diffWords(diff, after.currency).map((sentence) => inert(sentence))
  const count = lines.length === 1 ? '1 difference' : `${lines.length} differences`
  const head = `${inert(before.name, 80)} of ${before.dated} → ${inert(after.name, 80)} of ${after.dated}`
  const ending = isEmptyDiff(diff) ? 'Nothing is different.' : `${count}.`
  return [head, ...lines.map((line) => `- ${line}`), ending, ''].join('\n')
}

/** Without the rows in SI units, which are there to make a patch of. */
function shown({ before, after, head, parts }: CatalogueDiff) {
  return { before, after, catalogue: head, parts: parts.map(({ entry: _entry, ...change }) => change) }
}
