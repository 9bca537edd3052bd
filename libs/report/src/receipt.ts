// How the work went, in a few lines: never part of the answer, because it differs from run to run.

import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Receipt } from '@ductwright/contract/result'
import type { Pair } from './letter.js'
import { blockLines, softened } from './plain.js'
import { byCount } from './removals.js'

export function renderReceipt(receipt: Receipt): string {
  const threads = `${figure('count', receipt.threads)} ${receipt.threads === 1 ? 'thread' : 'threads'}`
  const pairs = [
    { label: 'Started', value: inert(receipt.started, 40) },
    { label: 'Took', value: `${figure('fineSeconds', receipt.seconds)} on ${threads}` },
    {
      label: 'Work',
      value: `${figure('count', receipt.shards)} shards, ${figure('count', receipt.boxes)} groups judged as a whole, ${figure('count', receipt.evaluated)} setups worked out`,
    },
    ...takenOver(receipt),
    ...putAway(receipt),
    ...receipt.stages.map((stage) => ({ label: inert(stage.stage, 40), value: figure('fineSeconds', stage.seconds) })),
  ]
  return `${softened(blockLines({ kind: 'pairs', pairs }, 100).join('\n'))}\n`
}

function takenOver({ taken_over: from }: Receipt): Pair[] {
  if (from === null) return []
  const words = `from catalogue version ${inert(from.catalogue_version, 80)}; searched again only ${inert(from.words, 400)}`
  return [{ label: 'List taken over', value: words }]
}

/** Which rule put whole groups away, the most first. */
function putAway({ removed, dominated }: Receipt): Pair[] {
  const limits = removed.map(({ rule, words, in_groups: count }) => ({ rule, words, count }))
  const beaten = { rule: 'beaten', words: 'a listed setup is no worse in anything', count: dominated }
  const most = byCount([...limits, beaten])
  const value = most.map(({ words, count }) => `${inert(words, 80)} ${figure('count', count)}`).join(', ')
  return most.length === 0 ? [] : [{ label: 'Put away in groups', value }]
}
