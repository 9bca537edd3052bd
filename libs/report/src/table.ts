// The ranked list on its own, for a terminal.
import type { Result } from '@ductwright/contract/result'
import { rankedLines, softened, wrap } from './plain.js'
import { rankedBlock, rankedFooter } from './ranked.js'

export function renderTable(result: Result, options: { readonly width?: number } = {}): string {
  const width = options.width ?? 100
  const block = rankedBlock(result)
  if (block.kind !== 'ranked' || block.rows.length === 0)
    return 'No setup keeps every limit: there is nothing to rank.\n'
  const lines = [...rankedLines(block.columns, block.rows, width), ...wrap(rankedFooter(result), width)]
  return `${softened(lines.join('\n'))}\n`
}
