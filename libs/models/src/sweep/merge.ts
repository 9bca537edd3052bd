// Merges what shards found. Commutative, associative and idempotent over distinct shards: retries and order change nothing.
import { LIMITS } from '../evaluation/limits.js'
import type { ShardFront } from './evaluate-shard.js'
import { Front } from './front.js'
import { NearMisses } from './near-misses.js'

/** One front from the fronts of distinct shards. */
export function mergeFronts(fronts: readonly ShardFront[], targetSpeed: number): ShardFront {
  const front = new Front()
  const near = new NearMisses(targetSpeed)
  const removed = new Array<number>(LIMITS.length).fill(0)
  let feasible = 0
  let evaluated = 0
  for (const shard of fronts) {
    for (const member of shard.members) front.offer(Float64Array.from(member.cells), member.raw, member.number)
    for (const miss of shard.nearest) near.offer(miss.limit, miss.excess, miss.speed, miss.number)
    shard.removed.forEach((count, limit) => {
      removed[limit] = (removed[limit] as number) + count
    })
    feasible += shard.feasible
    evaluated += shard.evaluated
  }
  return { members: front.members(), removed, feasible, evaluated, nearest: near.members() }
}
