// Where the answer is no: the smallest changes of the request that would make it yes, each on its own, and what clean-up
// work alone would do.
import { inert } from '@ductwright/contract/inert'
import type { Relaxation, Result } from '@ductwright/contract/result'
import type { Block, Section } from './letter.js'
import { partsLine } from './setup-words.js'

const names: Readonly<Record<Relaxation['relax'], string>> = {
  budget: 'Budget',
  'take-off-mass': 'Take-off mass',
  margin: 'Reserve',
  'drag-area': 'Drag area',
  'flight-time': 'Flight time',
  'stall-speed': 'Stall speed',
  target: 'Speed asked for',
}

const longestWords = 400

/** None where nothing is known that would help. */
export function possibleSection(result: Result): Section[] {
  const { relaxations, drag_work: work } = result
  const pairs = relaxations.map((change) => ({
    label: names[change.relax],
    value: `${inert(change.words, longestWords)} ${partsLine(change.setup, result.names)}`,
  }))
  const changes: Block[] = pairs.length === 0 ? [] : [{ kind: 'pairs', pairs }]
  const cleaned: Block[] = work === null ? [] : [{ kind: 'paragraph', text: inert(work.words, longestWords) }]
  if (changes.length + cleaned.length === 0) return []
  return [{ heading: 'What would make it possible', blocks: [...changes, ...cleaned] }]
}
