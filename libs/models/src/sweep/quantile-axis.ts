// One compared value cut into bins that hold about as many members each. A bin is an exact rank, the number of edges no
// greater than the value: even cells find the neighbourhood, and inside a cell, which has one edge at most, values are
// compared. The cell of a value never falls when the value rises, whatever rounding does, so edges of lower cells are
// less and edges of higher cells greater. Edges are values of members: with no more levels than bins nothing is blurred.

const CELLS = 1024

export class QuantileAxis {
  /** Which compared value it cuts. */
  readonly value: number
  /** Cells that hold a member: how finely the value tells members apart. */
  occupied = 0
  #members = 0
  #low = 0
  #scale = 0
  /** Edges in the cells before a cell. */
  readonly #before = new Int32Array(CELLS)
  /** The edge in a cell, infinite when it has none. */
  readonly #edge = new Float64Array(CELLS)
  readonly #counts = new Int32Array(CELLS)

  constructor(value: number) {
    this.value = value
  }

  /** Number of edges no greater than `value`. */
  bin(value: number): number {
    const cell = this.#cell(value)
    return (this.#before[cell] as number) + (value >= (this.#edge[cell] as number) ? 1 : 0)
  }

  /** The first bin in which every value is `value` or more: its own when it is the edge. */
  binFrom(value: number): number {
    const cell = this.#cell(value)
    return (this.#before[cell] as number) + (value > (this.#edge[cell] as number) ? 2 : 1)
  }

  /** Counts members by their values, a member every `stride` of `cells`. */
  count(cells: Float64Array, stride: number, count: number): void {
    const offset = this.value
    const end = offset + count * stride
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (let o = offset; o < end; o += stride) {
      low = Math.min(low, cells[o] as number)
      high = Math.max(high, cells[o] as number)
    }
    this.#low = low
    this.#scale = high > low ? CELLS / (high - low) : 0
    this.#members = count
    this.#fillCells(cells, offset, stride, end)
  }

  /**
   * Keeps the least value of a cell as an edge where a bin's share of the members is full, and everywhere once edges
   * suffice for all cells left; how many, at most `edges`.
   */
  placeEdges(edges: number): number {
    let membersLeft = this.#members
    let cellsLeft = this.occupied
    let placed = 0
    let waiting = Number.POSITIVE_INFINITY
    for (let cell = 0; cell < CELLS; cell++) {
      this.#before[cell] = placed
      const here = this.#counts[cell] as number
      if (here === 0) continue
      const edgesLeft = edges - placed
      if (edgesLeft > 0 && (cellsLeft <= edgesLeft || waiting * edgesLeft >= membersLeft)) {
        placed++
        waiting = 0
      } else this.#edge[cell] = Number.POSITIVE_INFINITY
      waiting += here
      membersLeft -= here
      cellsLeft--
    }
    return placed
  }

  #cell(value: number): number {
    const place = (value - this.#low) * this.#scale
    // Not a number, from a range that overflows, counts as the first cell like every other value then.
    return place > 0 ? (place < CELLS ? place | 0 : CELLS - 1) : 0
  }

  /** Members and least value of each cell. */
  #fillCells(cells: Float64Array, offset: number, stride: number, end: number): void {
    this.#counts.fill(0)
    this.#edge.fill(Number.POSITIVE_INFINITY)
    this.occupied = 0
    for (let o = offset; o < end; o += stride) {
      const value = cells[o] as number
      const cell = this.#cell(value)
      if (this.#counts[cell] === 0) this.occupied++
      this.#counts[cell] = (this.#counts[cell] as number) + 1
      this.#edge[cell] = Math.min(this.#edge[cell] as number, value)
    }
  }
}
