// Receipts are read back as they were written; of another form, they are none.
import { readReceipt } from '@ductwright/contract/read-receipt'
import type { Receipt } from '@ductwright/contract/result'
import { describe, expect, it } from 'vitest'

const receipt: Receipt = {
  started: '2026-11-25T09:30:00.000Z',
  seconds: 3.2,
  threads: 2,
  shards: 8,
  evaluated: 120,
  boxes: 45,
  removed: [{ rule: 'budget', words: 'budget', count: 7, in_groups: 3 }],
  dominated: 4,
  feasible: 2,
  taken_over: null,
  stages: [{ stage: 'evaluate', seconds: 3.1 }],
}

describe('a stored receipt', () => {
  it.each([
    ['of a whole run', receipt],
    ['of a run that took a list over', { ...receipt, taken_over: { catalogue_version: 'abc', words: 'two motors' } }],
  ])('%s is read as it was written', (_what, written) => {
    expect(readReceipt(JSON.stringify(written))).toEqual(written)
  })

  it.each([
    ['of an earlier release', JSON.stringify({ ...receipt, removed: undefined, bounded: [] })],
    ['without a field', JSON.stringify({ ...receipt, taken_over: undefined })],
    ['that is empty', '{}'],
    ['that is no JSON', '{"shards":'],
    ['that is nothing', 'null'],
  ])('%s is none', (_what, text) => {
    expect(readReceipt(text)).toBeNull()
  })
})
