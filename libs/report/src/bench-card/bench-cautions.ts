// The cautions on the card: what keeps hands, eyes and bystanders whole at the bench, then every caution of the answer,
// none shortened. Common practice, no source.
import { inert } from '@ductwright/contract/inert'
import type { Section } from '../letter.js'

const atTheBench = [
  'A fan pulls in fingers, sleeves, hair and tools: hands stay away from inlet and outlet while a pack is connected, and nobody looks into either.',
  'Raise the throttle in steps and read between them. Another person holds the cut-off switch; a bucket of sand is in reach.',
] as const

export function cautionsSection(cautions: readonly string[]): Section {
  const items = [...atTheBench, ...cautions.map((words) => inert(words, Number.POSITIVE_INFINITY))]
  return { heading: 'Cautions', blocks: [{ kind: 'list', items }] }
}
