// A k-d tree over the members of a front. Each node keeps the least and the greatest of its members' compared values:
// a node whose least are not all within those of a setup holds nothing that dominates it, one whose greatest are not all
// beyond holds nothing that it dominates. Splits only place members; answers rest on corners, so ties at a split do no
// harm. Members are held in leaves by value; a leaf that overflows is built anew together with the highest node above it
// that has become lopsided, which keeps the tree shallow in any order of arrival.
import { doubled } from './front-columns.js'
import { TreeBuilder } from './tree-builder.js'

const ROOT = 1

export class FrontTree {
  readonly #stride: number
  /** Slots of the members that the last call of `takeDominated` took out. */
  taken = new Int32Array(64)
  readonly #nodes: TreeBuilder
  #stack = new Int32Array(64)

  constructor(stride: number) {
    this.#stride = stride
    this.#nodes = new TreeBuilder(stride)
  }

  /** Holds the first `count` members of the columns and no others. */
  rebuild(cells: Float64Array, count: number): void {
    this.#nodes.clear()
    for (let slot = 0; slot < count; slot++) this.#nodes.gather(cells, slot * this.#stride, slot)
    this.#nodes.build(ROOT)
    this.#roomForWalks()
  }

  /** The slot of a member no worse in every value than the one asked about, −1 if there is none. */
  noWorse(cells: Float64Array, offset: number): number {
    const { low, child, counts, held, slots, bucket } = this.#nodes
    const stride = this.#stride
    const stack = this.#stack
    const a = cells[offset] as number
    const b = cells[offset + 1] as number
    const c = cells[offset + 2] as number
    const d = cells[offset + 3] as number
    let top = 0
    stack[top++] = ROOT
    while (top > 0) {
      const node = stack[--top] as number
      const n = node * stride
      if (!((low[n] as number) <= a && (low[n + 1] as number) <= b)) continue
      if (!((low[n + 2] as number) <= c && (low[n + 3] as number) <= d)) continue
      const left = child[node] as number
      if (left > 0) {
        stack[top++] = left + 1
        stack[top++] = left
        continue
      }
      const from = node * bucket
      for (let i = from, end = from + (counts[node] as number); i < end; i++) {
        const o = i * stride
        if (!((held[o] as number) <= a && (held[o + 1] as number) <= b)) continue
        if (!((held[o + 2] as number) <= c && (held[o + 3] as number) <= d)) continue
        if (stride === 4 || allWithin(held, o + 4, cells, offset + 4, stride - 4)) return slots[i] as number
      }
    }
    return -1
  }

  /** Takes out every member that is no better in any value; how many, their slots in `taken`. */
  takeDominated(cells: Float64Array): number {
    const { high, child, counts, held, slots, bucket } = this.#nodes
    const stride = this.#stride
    const stack = this.#stack
    let found = 0
    let top = 0
    stack[top++] = ROOT
    while (top > 0) {
      const node = stack[--top] as number
      if (!allWithin(cells, 0, high, node * stride, stride)) continue
      const left = child[node] as number
      if (left > 0) {
        stack[top++] = left + 1
        stack[top++] = left
        continue
      }
      for (let i = node * bucket + (counts[node] as number) - 1; i >= node * bucket; i--) {
        if (!allWithin(cells, 0, held, i * stride, stride)) continue
        if (found === this.taken.length) this.taken = doubled(this.taken)
        this.taken[found++] = slots[i] as number
        this.#nodes.takeOut(node, i)
      }
    }
    return found
  }

  insert(cells: Float64Array, slot: number): void {
    const nodes = this.#nodes
    const leaf = nodes.descend(ROOT, cells)
    if ((nodes.counts[leaf] as number) <= nodes.bucket) {
      nodes.put(leaf, (nodes.counts[leaf] as number) - 1, cells, 0, slot)
      return
    }
    nodes.rebuildAround(leaf, cells, slot)
    this.#roomForWalks()
  }

  /** A walk never has more nodes waiting than there are. */
  #roomForWalks(): void {
    while (this.#stack.length < this.#nodes.child.length) this.#stack = doubled(this.#stack)
  }
}

/** Whether each of `count` values is no greater than the other's. */
function allWithin(values: Float64Array, v: number, limits: Float64Array, l: number, count: number): boolean {
  for (let k = 0; k < count; k++) if (!((values[v + k] as number) <= (limits[l + k] as number))) return false
  return true
}
