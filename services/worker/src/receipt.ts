// The receipt of a sweep: how long its stages took and how each part of it was settled. Beside the answer and no part of it,
// since it differs from run to run.
import type { Receipt } from '@ductwright/contract/result'
import { LIMITS } from '@ductwright/models/evaluation/limits'
import { LIMIT_WORDS } from '@ductwright/pipeline/limit-words'
import type { ShardFront } from '@ductwright/pipeline/shards'

export function receiptOf(
  work: Pick<Receipt, 'started' | 'seconds' | 'threads' | 'stages'>,
  fronts: readonly ShardFront[],
): Receipt {
  const sum = (of: (front: ShardFront) => number): number => fronts.reduce((total, front) => total + of(front), 0)
  const limits = LIMITS.map((rule, i) => ({
    rule,
    words: LIMIT_WORDS[rule],
    count: sum(({ bounded }) => bounded[i] ?? 0),
  }))
  const beaten = {
    rule: 'beaten',
    words: 'a listed setup is no worse in anything',
    count: sum(({ dominated }) => dominated),
  }
  return {
    ...work,
    shards: fronts.length,
    evaluated: sum(({ evaluated }) => evaluated),
    boxes: sum(({ boxes }) => boxes),
    bounded: [...limits, beaten].filter(({ count }) => count > 0),
  }
}
