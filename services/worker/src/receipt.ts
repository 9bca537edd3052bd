// The receipt of a sweep: how long its stages took and how each part of it was settled. Beside the answer and no part of it,
// since it differs from run to run and with the way the front was found.
import type { Receipt } from '@ductwright/contract/result'
import { LIMITS } from '@ductwright/models/evaluation/limits'
import { LIMIT_WORDS } from '@ductwright/pipeline/limit-words'
import type { ShardFront } from '@ductwright/pipeline/shards'

/** `takenOver` names the answer whose front was taken over; null where everything was searched. */
export function receiptOf(
  work: Pick<Receipt, 'started' | 'seconds' | 'threads' | 'stages'>,
  fronts: readonly ShardFront[],
  takenOver: Receipt['taken_over'] = null,
): Receipt {
  const sum = (of: (front: ShardFront) => number): number => fronts.reduce((total, front) => total + of(front), 0)
  const limits = LIMITS.map((rule, i) => ({
    rule,
    words: LIMIT_WORDS[rule],
    count: sum(({ removed }) => removed[i] ?? 0),
    in_groups: sum(({ bounded }) => bounded[i] ?? 0),
  }))
  return {
    ...work,
    shards: fronts.length,
    evaluated: sum(({ evaluated }) => evaluated),
    boxes: sum(({ boxes }) => boxes),
    removed: limits.filter(({ count }) => count > 0),
    dominated: sum(({ dominated }) => dominated),
    feasible: sum(({ feasible }) => feasible),
    taken_over: takenOver,
  }
}
