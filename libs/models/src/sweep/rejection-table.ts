// Answers most questions to a front in constant time. Three compared values are cut into bins; each cell of the table
// holds the least fourth value among members that are no worse in the three than anything in the cell. A setup whose
// fourth value is greater than that is dominated: no worse in three, better in one. A member is entered from the first
// bin in which it is no worse (`binFrom`), which is its own bin or the next; so the cell one further along every axis
// has seen every member no worse than the setup, and if its least is greater than the fourth value, there is none.
// Members that leave stay in the table: whatever dominates them dominates what they do.
import { QuantileAxis } from './quantile-axis.js'

type Axes = [QuantileAxis, QuantileAxis, QuantileAxis, QuantileAxis]

export const DOMINATED = 1
export const CLEAR = -1
export const UNDECIDED = 0

export class RejectionTable {
  /** With a fifth value nothing here shows that a setup is dominated, only that it is not. */
  readonly #decides: boolean
  readonly #stride: number
  #least = new Float64Array(0)
  /** Cells from one bin to the next of the first and the second axis. */
  #plane = 0
  #row = 0
  #first = new QuantileAxis(0)
  #second = new QuantileAxis(1)
  #third = new QuantileAxis(2)
  /** The axis whose value is compared in the cells. */
  #compared = new QuantileAxis(3)

  constructor(dimensions: number, stride: number) {
    this.#decides = dimensions <= 4
    this.#stride = stride
  }

  /** Fits bins to `count` members and enters them. */
  rebuild(cells: Float64Array, count: number): void {
    const bins = count < 2500 ? 32 : count < 40_000 ? 64 : 128
    const axes = [this.#first, this.#second, this.#third, this.#compared]
    for (const axis of axes) axis.count(cells, this.#stride, count)
    // The value that tells members apart best is compared, which blurs nothing.
    axes.sort((a, b) => a.occupied - b.occupied || a.value - b.value)
    ;[this.#first, this.#second, this.#third, this.#compared] = axes as Axes
    // What an axis with few levels leaves over goes to the next. A setup in the last bin still looks one bin further.
    const planes = 2 + this.#first.placeEdges(bins - 2)
    const rows = 2 + this.#second.placeEdges(Math.floor(Math.sqrt(bins ** 3 / planes)) - 2)
    this.#row = 2 + this.#third.placeEdges(Math.floor(bins ** 3 / planes / rows) - 2)
    this.#plane = rows * this.#row
    if (this.#least.length !== planes * this.#plane) this.#least = new Float64Array(planes * this.#plane)
    this.#least.fill(Number.POSITIVE_INFINITY)
    this.#enterAll(cells, count)
  }

  /** Enters a member. Least values only fall along an axis, so the first that is no greater ends a run of them. */
  enter(cells: Float64Array, offset: number): void {
    const least = this.#least
    const plane = this.#plane
    const row = this.#row
    const value = cells[offset + this.#compared.value] as number
    const c = this.#third.binFrom(cells[offset + this.#third.value] as number)
    const start = this.#second.binFrom(cells[offset + this.#second.value] as number) * row + c
    const from = this.#first.binFrom(cells[offset + this.#first.value] as number) * plane
    for (let i = from; i < least.length && (least[i + start] as number) > value; i += plane)
      for (let k = i + start; k < i + plane && (least[k] as number) > value; k += row)
        for (let m = k; m < k + row - c && (least[m] as number) > value; m++) least[m] = value
  }

  /** DOMINATED by a member in every case, CLEAR when no member is no worse, else UNDECIDED. */
  verdict(cells: Float64Array, offset: number): number {
    const least = this.#least
    const plane = this.#plane
    const row = this.#row
    const a = this.#first.bin(cells[offset + this.#first.value] as number)
    const b = this.#second.bin(cells[offset + this.#second.value] as number)
    const c = this.#third.bin(cells[offset + this.#third.value] as number)
    const value = cells[offset + this.#compared.value] as number
    const k = a * plane + b * row + c
    if ((least[k] as number) < value && this.#decides) return DOMINATED
    return (least[k + plane + row + 1] as number) > value ? CLEAR : UNDECIDED
  }

  /** Enters each member in its own cell, then carries least values along each axis: quicker than one by one. */
  #enterAll(cells: Float64Array, count: number): void {
    const least = this.#least
    for (let o = 0; o < count * this.#stride; o += this.#stride) {
      const a = this.#first.binFrom(cells[o + this.#first.value] as number)
      const b = this.#second.binFrom(cells[o + this.#second.value] as number)
      const c = this.#third.binFrom(cells[o + this.#third.value] as number)
      const k = a * this.#plane + b * this.#row + c
      const value = cells[o + this.#compared.value] as number
      if (value < (least[k] as number)) least[k] = value
    }
    this.#carry(1, this.#row)
    this.#carry(this.#row, this.#plane)
    this.#carry(this.#plane, least.length)
  }

  /** Carries least values along one axis: on by `step`, within stretches of `length`. */
  #carry(step: number, length: number): void {
    const least = this.#least
    for (let from = 0; from < least.length; from += length)
      for (let k = from + step; k < from + length; k++) {
        const before = least[k - step] as number
        if (before < (least[k] as number)) least[k] = before
      }
  }
}
