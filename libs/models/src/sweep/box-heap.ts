// Boxes still to be looked into, the most promising first. Kept as flat columns; equal keys come out in the order they went
// in, so that a search does the same every time.
import { DIMENSIONS } from './objectives.js'

/** One box: a node, a unit box and a range of duties (indices), with the compared values that nothing in it betters. */
export interface OpenBox {
  node: number
  box: number
  lowest: number
  highest: number
  readonly cells: Float64Array
}

export function emptyOpenBox(): OpenBox {
  return { node: 0, box: 0, lowest: 0, highest: 0, cells: new Float64Array(DIMENSIONS) }
}

/** Integers kept of each box: node, box, duties. */
const FIELDS = 4

export class BoxHeap {
  #size = 0
  #order = 0
  /** Heap of slots, and per slot its key, its order of arrival, its integers and its cells. */
  #heap = new Int32Array(1024)
  #keys = new Float64Array(1024)
  #orders = new Float64Array(1024)
  #fields = new Int32Array(1024 * FIELDS)
  #cells = new Float64Array(1024 * DIMENSIONS)
  readonly #free: number[] = []

  get size(): number {
    return this.#size
  }

  /** Keeps a copy of the box under a key; the least key comes out first. */
  push(key: number, box: OpenBox): void {
    if (this.#size === this.#heap.length) this.#grow()
    const slot = this.#free.pop() ?? this.#size
    this.#keys[slot] = key
    this.#orders[slot] = this.#order++
    const f = slot * FIELDS
    this.#fields[f] = box.node
    this.#fields[f + 1] = box.box
    this.#fields[f + 2] = box.lowest
    this.#fields[f + 3] = box.highest
    this.#cells.set(box.cells, slot * DIMENSIONS)
    this.#up(this.#size++, slot)
  }

  /** Moves the first box into `box`; false when there is none. */
  pop(box: OpenBox): boolean {
    if (this.#size === 0) return false
    const slot = this.#heap[0] as number
    const f = slot * FIELDS
    box.node = this.#fields[f] as number
    box.box = this.#fields[f + 1] as number
    box.lowest = this.#fields[f + 2] as number
    box.highest = this.#fields[f + 3] as number
    const c = slot * DIMENSIONS
    for (let i = 0; i < DIMENSIONS; i++) box.cells[i] = this.#cells[c + i] as number
    this.#free.push(slot)
    this.#size--
    if (this.#size > 0) this.#down(this.#heap[this.#size] as number)
    return true
  }

  #before(a: number, b: number): boolean {
    const difference = (this.#keys[a] as number) - (this.#keys[b] as number)
    return difference < 0 || (difference === 0 && (this.#orders[a] as number) < (this.#orders[b] as number))
  }

  #up(start: number, slot: number): void {
    let place = start
    while (place > 0) {
      const parent = (place - 1) >> 1
      const above = this.#heap[parent] as number
      if (!this.#before(slot, above)) break
      this.#heap[place] = above
      place = parent
    }
    this.#heap[place] = slot
  }

  #down(slot: number): void {
    let place = 0
    for (;;) {
      let child = 2 * place + 1
      if (child >= this.#size) break
      if (child + 1 < this.#size && this.#before(this.#heap[child + 1] as number, this.#heap[child] as number)) child++
      const below = this.#heap[child] as number
      if (!this.#before(below, slot)) break
      this.#heap[place] = below
      place = child
    }
    this.#heap[place] = slot
  }

  #grow(): void {
    const length = this.#heap.length * 2
    this.#heap = grownIntegers(this.#heap, length)
    this.#keys = grownNumbers(this.#keys, length)
    this.#orders = grownNumbers(this.#orders, length)
    this.#fields = grownIntegers(this.#fields, length * FIELDS)
    this.#cells = grownNumbers(this.#cells, length * DIMENSIONS)
  }
}

function grownIntegers(column: Int32Array, length: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(length)
  larger.set(column)
  return larger
}

function grownNumbers(column: Float64Array, length: number): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(length)
  larger.set(column)
  return larger
}
