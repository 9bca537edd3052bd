// The receipt of an invented sweep that found the invented answer: every combination that fits together is in one count.
import type { Receipt } from '@ductwright/contract/result'

export function receipt(changes: Partial<Receipt> = {}): Receipt {
  return {
    started: '2026-11-25T09:30:00.000Z',
    seconds: 3.2,
    threads: 2,
    shards: 8,
    evaluated: 120_000,
    boxes: 45_000,
    removed: [
      { rule: 'budget', words: 'budget', count: 18_721, in_groups: 700 },
      { rule: 'esc-current', words: 'speed controller current', count: 201_877, in_groups: 190_204 },
      { rule: 'speed-floor', words: 'speed floor', count: 3500, in_groups: 0 },
    ],
    dominated: 61_204,
    feasible: 24_910,
    taken_over: null,
    stages: [{ stage: 'evaluate', seconds: 3.1 }],
    ...changes,
  }
}

/** Of a sweep that took its list over from the answer before. */
export const takenOver = receipt({
  taken_over: { catalogue_version: '77e0c4b1'.repeat(8), words: 'what has one of 3 changed parts in it' },
})
