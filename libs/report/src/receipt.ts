// How the work went, in a few lines: never part of the answer, because it differs from run to run.

import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Receipt } from '@ductwright/contract/result'
import { blockLines, softened } from './plain.js'

export function renderReceipt(receipt: Receipt): string {
  const threads = `${figure('count', receipt.threads)} ${receipt.threads === 1 ? 'thread' : 'threads'}`
  const pairs = [
    { label: 'Started', value: inert(receipt.started, 40) },
    { label: 'Took', value: `${figure('fineSeconds', receipt.seconds)} on ${threads}` },
    {
      label: 'Work',
      value: `${figure('count', receipt.shards)} shards, ${figure('count', receipt.boxes)} groups judged as a whole, ${figure('count', receipt.evaluated)} setups worked out`,
    },
    ...receipt.stages.map((stage) => ({ label: inert(stage.stage, 40), value: figure('fineSeconds', stage.seconds) })),
  ]
  return `${softened(blockLines({ kind: 'pairs', pairs }, 100).join('\n'))}\n`
}
