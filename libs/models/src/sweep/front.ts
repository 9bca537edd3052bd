// The Pareto set of a stream of setups over compared values (less is better). A setup leaves when another is no worse
// in every value and better in one; of setups with equal values the tie rule keeps one. Which setups stay does not
// depend on the order of arrival, so fronts of shards merge by adding one to the other.
// Kept as flat columns; a member that rejects moves towards the front of the scan, so most setups meet it at once.
import { DIMENSIONS, type Objectives, tieOrder } from './objectives.js'

export class Front {
  size = 0
  #cells = new Float64Array(DIMENSIONS * 64)
  /** Unrounded speed, time, cost, margin of each member. */
  #raw = new Float64Array(DIMENSIONS * 64)
  #numbers = new Float64Array(64)
  readonly #held: Objectives = { speed: 0, time: 0, cost: 0, margin: 0 }

  /** Offers a setup; true when it stays. `cells` holds its compared values. */
  offer(cells: Float64Array, objectives: Objectives, number: number): boolean {
    const c0 = cells[0] as number
    const c1 = cells[1] as number
    const c2 = cells[2] as number
    const c3 = cells[3] as number
    const held = this.#cells
    for (let i = 0, o = 0; i < this.size; i++, o += DIMENSIONS) {
      const d0 = (held[o] as number) - c0
      const d1 = (held[o + 1] as number) - c1
      const d2 = (held[o + 2] as number) - c2
      const d3 = (held[o + 3] as number) - c3
      if (d0 <= 0 && d1 <= 0 && d2 <= 0 && d3 <= 0) {
        if (d0 === 0 && d1 === 0 && d2 === 0 && d3 === 0) return this.#contest(i, objectives, number)
        this.#promote(i)
        return false
      }
    }
    this.#removeDominated(c0, c1, c2, c3)
    this.#append(cells, objectives, number)
    return true
  }

  /** Members in the order of their numbers. */
  members(): { readonly number: number; readonly raw: Objectives; readonly cells: readonly number[] }[] {
    const members = []
    for (let i = 0; i < this.size; i++) {
      const o = i * DIMENSIONS
      members.push({
        number: this.#numbers[i] as number,
        raw: { ...this.#rawOf(i) },
        cells: Array.from(this.#cells.subarray(o, o + DIMENSIONS)),
      })
    }
    return members.sort((a, b) => a.number - b.number)
  }

  /** Equal values: the tie rule decides who stays. */
  #contest(index: number, objectives: Objectives, number: number): boolean {
    if (tieOrder(objectives, number, this.#rawOf(index), this.#numbers[index] as number) >= 0) return false
    this.#write(index, objectives, number)
    return true
  }

  #rawOf(index: number): Objectives {
    const o = index * DIMENSIONS
    const held = this.#held
    held.speed = this.#raw[o] as number
    held.time = this.#raw[o + 1] as number
    held.cost = this.#raw[o + 2] as number
    held.margin = this.#raw[o + 3] as number
    return held
  }

  #write(index: number, objectives: Objectives, number: number): void {
    const o = index * DIMENSIONS
    this.#raw[o] = objectives.speed
    this.#raw[o + 1] = objectives.time
    this.#raw[o + 2] = objectives.cost
    this.#raw[o + 3] = objectives.margin
    this.#numbers[index] = number
  }

  #append(cells: Float64Array, objectives: Objectives, number: number): void {
    if (this.size === this.#numbers.length) {
      this.#cells = grown(this.#cells)
      this.#raw = grown(this.#raw)
      this.#numbers = grown(this.#numbers)
    }
    this.#cells.set(cells, this.size * DIMENSIONS)
    this.#write(this.size, objectives, number)
    this.size++
  }

  #removeDominated(c0: number, c1: number, c2: number, c3: number): void {
    let kept = 0
    for (let i = 0; i < this.size; i++) {
      const o = i * DIMENSIONS
      const held = this.#cells
      const out =
        c0 <= (held[o] as number) &&
        c1 <= (held[o + 1] as number) &&
        c2 <= (held[o + 2] as number) &&
        c3 <= (held[o + 3] as number)
      if (out) continue
      if (kept !== i) this.#move(i, kept)
      kept++
    }
    this.size = kept
  }

  #move(from: number, to: number): void {
    const f = from * DIMENSIONS
    this.#cells.copyWithin(to * DIMENSIONS, f, f + DIMENSIONS)
    this.#raw.copyWithin(to * DIMENSIONS, f, f + DIMENSIONS)
    this.#numbers[to] = this.#numbers[from] as number
  }

  /** Swaps a member that rejects half-way to the front of the scan. */
  #promote(index: number): void {
    const to = index >> 1
    if (to === index) return
    const a = index * DIMENSIONS
    const b = to * DIMENSIONS
    for (let k = 0; k < DIMENSIONS; k++) {
      swap(this.#cells, a + k, b + k)
      swap(this.#raw, a + k, b + k)
    }
    swap(this.#numbers, index, to)
  }
}

function swap(column: Float64Array, i: number, k: number): void {
  const held = column[i] as number
  column[i] = column[k] as number
  column[k] = held
}

function grown(column: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(column.length * 2)
  larger.set(column)
  return larger
}
