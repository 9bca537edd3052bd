// Members of a front as flat columns: compared values, unrounded objectives, number. Columns grow by doubling, so nothing
// is allocated per setup. Compared values are padded with zeros to at least four, which changes no comparison and lets
// every reader unroll the first four.
import { type Objectives, tieOrder } from './objectives.js'

/** Doubled, with its values at the start. */
export function doubled<T extends Float64Array<ArrayBuffer> | Int32Array<ArrayBuffer>>(column: T): T {
  const larger = new (column.constructor as new (length: number) => T)(column.length * 2)
  larger.set(column)
  return larger
}

export class FrontColumns {
  /** Values from one member to the next. */
  readonly stride: number
  /** Slots in use, of members and of those that have left since the columns were last closed up. */
  used = 0
  cells: Float64Array<ArrayBuffer>
  /** NaN where the member has left. */
  numbers = new Float64Array(64)
  /** Unrounded speed, time, cost, margin of each member. */
  #raw = new Float64Array(4 * 64)
  readonly #held: Objectives = { speed: 0, time: 0, cost: 0, margin: 0 }

  constructor(stride: number) {
    this.stride = stride
    this.cells = new Float64Array(stride * 64)
  }

  /** The slot of the new member. */
  append(cells: Float64Array, objectives: Objectives, number: number): number {
    if (this.used === this.numbers.length) {
      this.cells = doubled(this.cells)
      this.#raw = doubled(this.#raw)
      this.numbers = doubled(this.numbers)
    }
    const slot = this.used++
    this.#write(slot, cells, objectives, number)
    return slot
  }

  /** Of two with equal compared values the tie rule keeps one; true when it is the newcomer. */
  contest(slot: number, cells: Float64Array, objectives: Objectives, number: number): boolean {
    if (tieOrder(objectives, number, this.rawOf(slot), this.numbers[slot] as number) >= 0) return false
    // Equal values are not the same in every sense: 0 and −0.
    this.#write(slot, cells, objectives, number)
    return true
  }

  /** One object for all slots: copy what is to last. */
  rawOf(slot: number): Objectives {
    const o = slot * 4
    const held = this.#held
    held.speed = this.#raw[o] as number
    held.time = this.#raw[o + 1] as number
    held.cost = this.#raw[o + 2] as number
    held.margin = this.#raw[o + 3] as number
    return held
  }

  /** Whether a member has exactly these compared values. */
  equals(slot: number, cells: Float64Array, offset: number): boolean {
    const o = slot * this.stride
    for (let k = 0; k < this.stride; k++) if (this.cells[o + k] !== cells[offset + k]) return false
    return true
  }

  swap(a: number, b: number): void {
    swapValues(this.cells, a, b, this.stride)
    swapValues(this.#raw, a, b, 4)
    swapValues(this.numbers, a, b, 1)
  }

  /** Puts members in the slots of those that have left; true when slots have changed. */
  closeUp(): boolean {
    let kept = 0
    for (let slot = 0; slot < this.used; slot++) {
      if (Number.isNaN(this.numbers[slot])) continue
      if (kept !== slot) this.swap(slot, kept)
      kept++
    }
    const moved = kept < this.used
    this.used = kept
    return moved
  }

  #write(slot: number, cells: Float64Array, objectives: Objectives, number: number): void {
    for (let k = 0, c = slot * this.stride; k < this.stride; k++, c++) this.cells[c] = cells[k] as number
    const o = slot * 4
    this.#raw[o] = objectives.speed
    this.#raw[o + 1] = objectives.time
    this.#raw[o + 2] = objectives.cost
    this.#raw[o + 3] = objectives.margin
    this.numbers[slot] = number
  }
}

function swapValues(column: Float64Array, a: number, b: number, stride: number): void {
  for (let i = a * stride, k = b * stride, end = i + stride; i < end; i++, k++) {
    const held = column[i] as number
    column[i] = column[k] as number
    column[k] = held
  }
}
