// What was ruled out: how many combinations there are, how many of them fit together and how many are left. Which limit
// removed how many depends on how the list was found, so it is told only with the receipt of that work at hand.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Receipt, Result } from '@ductwright/contract/result'
import type { Section } from './letter.js'
import { byCount, removalPairs } from './removals.js'

const count = (value: number): string => figure('count', value)

/** So much of a catalogue version tells it from any other; the whole stands in the receipt. */
const VERSION_LENGTH = 13

export function removedSection(result: Result, receipt: Receipt | null): Section {
  const work = receipt === null ? '' : `${takenOverWords(receipt)}${workWords(receipt)}`
  const pairs = removalPairs(result, receipt)
  return {
    heading: 'What was ruled out',
    blocks: [
      { kind: 'paragraph', text: `${leftWords(result)}${apartWords(result)}${work}` },
      ...(pairs.length === 0 ? [] : [{ kind: 'pairs' as const, pairs }]),
    ],
  }
}

function leftWords({ counts: { raw, compatible, front } }: Result): string {
  const fitting = `${count(raw)} combinations; ${count(compatible)} of them fit together`
  if (compatible === 0) return `${count(raw)} combinations, none of which fits together.`
  if (front === 0) return `${fitting}, and none of these keeps every limit.`
  return `${fitting}, and ${count(front)} of these are left that no other beats in everything.`
}

/** What keeps parts apart most often. */
function apartWords({ counts: { misfits } }: Result): string {
  const [most] = byCount(misfits)
  return most === undefined ? '' : ` Most often parts do not go together for this: ${inert(most.words, 200)}.`
}

function takenOverWords({ taken_over: from }: Receipt): string {
  if (from === null) return ''
  const version = inert(from.catalogue_version, VERSION_LENGTH)
  return ` The list was taken over from the answer on catalogue version ${version}; searched again was only ${inert(from.words, 400)}, and limit by limit only that is counted.`
}

function workWords({ dominated, feasible, taken_over: from }: Receipt): string {
  const aside = dominated === 0 ? [] : [`${count(dominated)} were put aside because one listed is no worse in anything`]
  const kept = feasible === 0 ? [] : [`${count(feasible)} were worked through and keep every limit`]
  const words = [...aside, ...kept].join('; ')
  return words === '' ? '' : `${from === null ? ' ' : ' Of that '}${words}.`
}
