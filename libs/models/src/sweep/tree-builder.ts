// The nodes of a front's k-d tree as flat columns, and how they are built: members gathered in one list are halved at
// the median of the value that spreads widest, measured by the spread of the whole front, until a leaf takes them.
import { doubled } from './front-columns.js'

/** Members a leaf holds; built with no more than two thirds of it, which leaves room to grow. */
const BUCKET = 15
const FILL = 10
const ROOT = 1

export class TreeBuilder {
  readonly bucket = BUCKET
  readonly #stride: number
  /** Least and greatest values of each node's members; they only widen until the node is built anew. */
  low: Float64Array<ArrayBuffer>
  high: Float64Array<ArrayBuffer>
  /** Left child, the right one follows it; 0 for a leaf. */
  child = new Int32Array(16)
  #parent = new Int32Array(16)
  /** Members below each node. */
  counts = new Int32Array(16)
  #axis = new Int32Array(16)
  #split = new Float64Array(16)
  /** Values and slots of the members of each leaf, in places `node × bucket` and on. */
  held: Float64Array<ArrayBuffer>
  slots = new Int32Array(16 * BUCKET)
  #nodes = ROOT + 1
  /** Pairs of nodes given back. */
  readonly #spare: number[] = []
  #gathered = 0
  #gatheredCells: Float64Array<ArrayBuffer>
  #gatheredSlots = new Int32Array(64)
  #order = new Int32Array(64)
  #keys = new Float64Array(64)

  constructor(stride: number) {
    this.#stride = stride
    this.low = new Float64Array(stride * 16)
    this.high = new Float64Array(stride * 16)
    this.held = new Float64Array(stride * 16 * BUCKET)
    this.#gatheredCells = new Float64Array(stride * 64)
  }

  clear(): void {
    this.#nodes = ROOT + 1
    this.#spare.length = 0
    this.#gathered = 0
  }

  /** Adds a member to the list that `build` takes. */
  gather(cells: Float64Array, offset: number, slot: number): void {
    if (this.#gathered === this.#order.length) {
      this.#gatheredCells = doubled(this.#gatheredCells)
      this.#gatheredSlots = doubled(this.#gatheredSlots)
      this.#order = doubled(this.#order)
      this.#keys = doubled(this.#keys)
    }
    const i = this.#gathered++
    for (let k = 0; k < this.#stride; k++) this.#gatheredCells[i * this.#stride + k] = cells[offset + k] as number
    this.#gatheredSlots[i] = slot
    this.#order[i] = i
  }

  /** Makes `node` hold what was gathered. */
  build(node: number): void {
    this.#buildFrom(node, 0, this.#gathered)
    this.#gathered = 0
  }

  /** The leaf where a newcomer belongs; counts it in and widens the corners on the way. */
  descend(from: number, cells: Float64Array): number {
    for (let node = from; ; ) {
      this.#widen(node, cells, 0)
      this.counts[node] = (this.counts[node] as number) + 1
      const left = this.child[node] as number
      if (left === 0) return node
      node = (cells[this.#axis[node] as number] as number) < (this.#split[node] as number) ? left : left + 1
    }
  }

  put(leaf: number, place: number, cells: Float64Array, offset: number, slot: number): void {
    const i = leaf * BUCKET + place
    for (let k = 0; k < this.#stride; k++) this.held[i * this.#stride + k] = cells[offset + k] as number
    this.slots[i] = slot
  }

  /** Takes a member out of a leaf; the last one takes its place. */
  takeOut(leaf: number, i: number): void {
    const last = leaf * BUCKET + (this.counts[leaf] as number) - 1
    this.put(leaf, i - leaf * BUCKET, this.held, last * this.#stride, this.slots[last] as number)
    for (let node = leaf; node >= ROOT; node = this.#parent[node] as number)
      this.counts[node] = (this.counts[node] as number) - 1
  }

  /** Builds anew the highest lopsided node above a full leaf, or the leaf, with the newcomer it has counted in. */
  rebuildAround(leaf: number, cells: Float64Array, slot: number): void {
    let lopsided = leaf
    for (let node = leaf; node > ROOT; node = this.#parent[node] as number) {
      const above = this.#parent[node] as number
      if ((this.counts[node] as number) > 0.7 * (this.counts[above] as number) + BUCKET) lopsided = above
    }
    this.counts[leaf] = (this.counts[leaf] as number) - 1
    this.#release(lopsided)
    this.gather(cells, 0, slot)
    this.build(lopsided)
  }

  /** Gathers the members below a node and gives its nodes back. */
  #release(node: number): void {
    const left = this.child[node] as number
    if (left > 0) {
      this.#release(left)
      this.#release(left + 1)
      this.#spare.push(left)
      return
    }
    for (let i = node * BUCKET, end = i + (this.counts[node] as number); i < end; i++)
      this.gather(this.held, i * this.#stride, this.slots[i] as number)
  }

  #buildFrom(node: number, from: number, to: number): void {
    const stride = this.#stride
    this.low.fill(Number.POSITIVE_INFINITY, node * stride, (node + 1) * stride)
    this.high.fill(Number.NEGATIVE_INFINITY, node * stride, (node + 1) * stride)
    for (let i = from; i < to; i++) this.#widen(node, this.#gatheredCells, (this.#order[i] as number) * stride)
    this.counts[node] = to - from
    this.child[node] = 0
    if (to - from <= FILL) {
      for (let i = from; i < to; i++) {
        const g = this.#order[i] as number
        this.put(node, i - from, this.#gatheredCells, g * stride, this.#gatheredSlots[g] as number)
      }
      return
    }
    const axis = this.#widest(node)
    const middle = (from + to) >> 1
    for (let i = from; i < to; i++) {
      const g = this.#order[i] as number
      this.#keys[g] = this.#gatheredCells[g * stride + axis] as number
    }
    this.#select(from, to - 1, middle)
    this.#axis[node] = axis
    this.#split[node] = this.#keys[this.#order[middle] as number] as number
    const left = this.#pair(node)
    this.child[node] = left
    this.#buildFrom(left, from, middle)
    this.#buildFrom(left + 1, middle, to)
  }

  #widen(node: number, cells: Float64Array, offset: number): void {
    const low = this.low
    const high = this.high
    for (let k = offset, n = node * this.#stride, end = n + this.#stride; n < end; k++, n++) {
      const value = cells[k] as number
      if (value < (low[n] as number)) low[n] = value
      if (value > (high[n] as number)) high[n] = value
    }
  }

  #widest(node: number): number {
    let widest = 0
    let most = -1
    for (let k = 0; k < this.#stride; k++) {
      const whole = this.#spread(ROOT, k)
      const share = whole > 0 ? this.#spread(node, k) / whole : 0
      if (share > most) {
        most = share
        widest = k
      }
    }
    return widest
  }

  #spread(node: number, k: number): number {
    // Halves, since the difference of two great values could overflow.
    return (this.high[node * this.#stride + k] as number) / 2 - (this.low[node * this.#stride + k] as number) / 2
  }

  /** Orders the list from `low` to `high` so far that place `middle` holds what sorting by key would put there. */
  #select(low: number, high: number, middle: number): void {
    const order = this.#order
    const keys = this.#keys
    while (low < high) {
      const pivot = keys[order[(low + high) >> 1] as number] as number
      let i = low
      let k = high
      while (i <= k) {
        while ((keys[order[i] as number] as number) < pivot) i++
        while ((keys[order[k] as number] as number) > pivot) k--
        if (i > k) break
        const held = order[i] as number
        order[i++] = order[k] as number
        order[k--] = held
      }
      if (middle <= k) high = k
      else if (middle >= i) low = i
      else return
    }
  }

  /** Two neighbouring nodes below `parent`. */
  #pair(parent: number): number {
    let left = this.#spare.pop()
    if (left === undefined) {
      left = this.#nodes
      this.#nodes += 2
      while (this.#nodes > this.child.length) this.#grow()
    }
    this.#parent[left] = parent
    this.#parent[left + 1] = parent
    return left
  }

  #grow(): void {
    this.low = doubled(this.low)
    this.high = doubled(this.high)
    this.child = doubled(this.child)
    this.#parent = doubled(this.#parent)
    this.counts = doubled(this.counts)
    this.#axis = doubled(this.#axis)
    this.#split = doubled(this.#split)
    this.held = doubled(this.held)
    this.slots = doubled(this.slots)
  }
}
