// Merges what shards found. Commutative, associative and idempotent over distinct shards: retries and order change nothing.
import { LIMITS } from '../evaluation/limits.js'
import type { ShardFront } from './evaluate-shard.js'
import { Front } from './front.js'

/** One front from the fronts of distinct shards. */
export function mergeFronts(fronts: readonly ShardFront[]): ShardFront {
  const front = new Front()
  const removed = new Array<number>(LIMITS.length).fill(0)
  let [dominated, feasible, evaluated, boxes] = [0, 0, 0, 0]
  for (const shard of fronts) {
    for (const member of shard.members) front.offer(Float64Array.from(member.cells), member.raw, member.number)
    shard.removed.forEach((count, limit) => {
      removed[limit] = (removed[limit] as number) + count
    })
    dominated += shard.dominated
    feasible += shard.feasible
    evaluated += shard.evaluated
    boxes += shard.boxes
  }
  return { members: front.members(), removed, dominated, feasible, evaluated, boxes }
}
