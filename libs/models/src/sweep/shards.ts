// Shards: stretches of the plan's search order with about equal work, so that they can run anywhere and be merged in any
// order. How many there are must not depend on the machine: what is put away, and so what is counted, differs with them.
import type { Plan } from './plan.js'

/** Places from `from` up to, not including, `to` of the plan's order; `work` in combinations without their duties. */
export interface ShardRange {
  readonly from: number
  readonly to: number
  readonly work: number
}

/**
 * Splits a plan into at most `count` shards of about equal work; an empty plan is one empty shard.
 * @throws RangeError when `count` is not a whole number above 0
 */
export function splitPlan(plan: Plan, count: number): ShardRange[] {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`shards must be a whole number above 0, got ${count}`)
  const total = plan.unitsOfNode.reduce((sum, units) => sum + units, 0)
  const ranges: ShardRange[] = []
  let from = 0
  let work = 0
  let done = 0
  plan.order.forEach((node, place) => {
    const units = plan.unitsOfNode[node] as number
    work += units
    done += units
    const last = place === plan.nodes.length - 1
    if (last || done >= (total * (ranges.length + 1)) / count) {
      ranges.push({ from, to: place + 1, work })
      from = place + 1
      work = 0
    }
  })
  return ranges.length > 0 ? ranges : [{ from: 0, to: 0, work: 0 }]
}
