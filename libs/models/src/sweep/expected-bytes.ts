// About how much memory a thread takes for a sweep, told before it begins. Fitted by hand to the largest resident sets of
// processes with one and with two threads on seven questions of the benchmark: within a factor of 1.5 of each.
import type { Plan } from './plan.js'

/** A thread with the code and nothing to do. */
const THREAD = 45e6
/** A node's state; a unit's source, its boxes and the garbage of making them. */
const NODE = 2000
const UNIT = 950
/** What waits to be looked into, over all boxes there will be. */
const BOX = 5

/** Bytes of a thread that searches a plan of which it bounds about so many boxes. */
export function expectedBytes(plan: Plan, boxes: number): number {
  return THREAD + NODE * plan.nodes.length + UNIT * plan.units.length + BOX * boxes
}
