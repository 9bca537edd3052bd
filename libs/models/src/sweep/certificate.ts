// Why everything that is not in a front is not in it, so that it can be checked, and searched again only where it changed:
// boxes that tile the sweep, each with the limit that all of it breaks, the member that no setup in it betters (its
// witness), or the word that its setups were worked through one by one.
//
// A box put away as dominated names a member of the finished front, whatever member put it away: if that one left since, one
// that dominates it stayed, and dominance carries on.
import { LIMITS } from '../evaluation/limits.js'
import type { OpenBox } from './box-heap.js'
import type { Front } from './front.js'
import { doubled } from './growing-column.js'
import { DIMENSIONS } from './objectives.js'

/** Reason of a box whose setups were worked through; from 0 up to it, reasons are limits by index. */
export const WORKED_THROUGH = LIMITS.length

/** Reason of a box whose witness is in a place of the members; its own inverse. */
export function witnessReason(place: number): number {
  return -1 - place
}

/** One box a row; plain data. */
export interface Certificate {
  /** Node, box of units, and lowest and highest duty (indices of the plan's). */
  readonly nodes: Int32Array<ArrayBuffer>
  readonly boxes: Int32Array<ArrayBuffer>
  readonly lowest: Uint16Array<ArrayBuffer>
  readonly highest: Uint16Array<ArrayBuffer>
  readonly reasons: Int32Array<ArrayBuffer>
}

const FIRST_ROWS = 4096

/** Takes the rows down while a search runs. */
export class CertificateKeeper {
  length = 0
  #nodes = new Int32Array(FIRST_ROWS)
  #boxes = new Int32Array(FIRST_ROWS)
  #lowest = new Uint16Array(FIRST_ROWS)
  #highest = new Uint16Array(FIRST_ROWS)
  #reasons = new Int32Array(FIRST_ROWS)
  /** Compared values that nothing in a dominated box betters, to find its witness by when the front is finished. */
  #cells = new Float64Array(FIRST_ROWS * DIMENSIONS)
  #dominated = 0

  /** A box of which every setup breaks a limit, or that was worked through. */
  add(node: number, box: number, lowest: number, highest: number, reason: number): void {
    if (this.length === this.#nodes.length) this.#grow()
    const row = this.length++
    this.#nodes[row] = node
    this.#boxes[row] = box
    this.#lowest[row] = lowest
    this.#highest[row] = highest
    this.#reasons[row] = reason
  }

  addDominated({ node, box, lowest, highest, cells }: OpenBox): void {
    this.add(node, box, lowest, highest, witnessReason(0))
    const at = DIMENSIONS * this.#dominated++
    if (at + DIMENSIONS > this.#cells.length) this.#cells = doubled(this.#cells)
    this.#cells.set(cells, at)
  }

  /** The finished certificate; `placeOf`: the place of a member in the list of members, by its number. */
  seal(front: Front, placeOf: ReadonlyMap<number, number>): Certificate {
    const { length } = this
    const reasons = this.#reasons.slice(0, length)
    for (let row = 0, at = 0; row < length; row++) {
      if ((reasons[row] as number) >= 0) continue
      const place = placeOf.get(front.dominatorOf(this.#cells, at))
      if (place === undefined)
        throw new RangeError('a box was put away as dominated, but no member of the front does so')
      reasons[row] = witnessReason(place)
      at += DIMENSIONS
    }
    return {
      nodes: this.#nodes.slice(0, length),
      boxes: this.#boxes.slice(0, length),
      lowest: this.#lowest.slice(0, length),
      highest: this.#highest.slice(0, length),
      reasons,
    }
  }

  #grow(): void {
    this.#nodes = doubled(this.#nodes)
    this.#boxes = doubled(this.#boxes)
    this.#lowest = doubled(this.#lowest)
    this.#highest = doubled(this.#highest)
    this.#reasons = doubled(this.#reasons)
  }
}
