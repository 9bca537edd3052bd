// Merges what shards found. Commutative, associative and idempotent over distinct shards: retries and order change nothing.
import { LIMITS } from '../evaluation/limits.js'
import type { ShardFront } from './evaluate-shard.js'
import { Front } from './front.js'

/** One front from the fronts of distinct shards. */
export function mergeFronts(fronts: readonly ShardFront[]): ShardFront {
  const front = new Front()
  const removed = new Array<number>(LIMITS.length).fill(0)
  const bounded = new Array<number>(LIMITS.length).fill(0)
  let [dominated, feasible, evaluated, boxes] = [0, 0, 0, 0]
  for (const shard of fronts) {
    for (const member of shard.members) front.offer(Float64Array.from(member.cells), member.raw, member.number)
    addTo(removed, shard.removed)
    addTo(bounded, shard.bounded)
    dominated += shard.dominated
    feasible += shard.feasible
    evaluated += shard.evaluated
    boxes += shard.boxes
  }
  return { members: front.members(), removed, bounded, dominated, feasible, evaluated, boxes }
}

function addTo(sums: number[], counts: readonly number[]): void {
  counts.forEach((count, i) => {
    sums[i] = (sums[i] as number) + count
  })
}
