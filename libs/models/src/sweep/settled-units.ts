// Which new units need no search with a node that stood before: those that keep to a box which the certificate puts away
// there. The proof of such a row asks nothing of a unit but its cell count, its timing and attributes on the sides of the
// box that it looks at (proof-sides.ts), whether or not a unit of just these existed, and where it speaks of cost, that it
// costs no less than the least of the box. So it holds for every new unit of which that is so.
import type { DutyBox } from './box-search.js'
import type { Plan } from './plan.js'
import { BEATEN_SIDES, isCostly, LIMIT_SIDES } from './proof-sides.js'
import type { UnitBoxes } from './unit-boxes.js'
import type { Sides } from './unit-columns.js'
import type { UnitGroup } from './unit-groups.js'

/** A box takes the place of all that is open in it from this share on. Any gives the same front. */
const OPEN_SHARE = 0.5

export class SettledUnits {
  readonly #old: UnitBoxes
  readonly #grown: UnitBoxes
  readonly #duties: number
  /** Root of the new units with the cells and timing of each old box, −1 where there are none. */
  readonly #roots: Int32Array
  /** By sides and old box: the largest new boxes of which the same proof holds. */
  readonly #inside = new Map<Sides, Map<number, readonly number[]>>()
  /** The node, plus 1, in which a new box was last settled at a duty, or anything under it at any. */
  readonly #settled: Int32Array
  readonly #touched: Int32Array
  readonly #parents: Int32Array
  readonly #open: Int32Array

  /** @param grown boxes of the new units alone, and their groups */
  constructor(before: Plan, grown: UnitBoxes, groups: readonly UnitGroup[], duties: number) {
    this.#old = before.boxes
    this.#grown = grown
    this.#duties = duties
    this.#settled = new Int32Array(grown.length * duties)
    this.#touched = new Int32Array(grown.length)
    this.#open = new Int32Array(grown.length)
    this.#parents = new Int32Array(grown.length).fill(-1)
    for (let box = 0; box < grown.length; box++) {
      if ((grown.lefts[box] as number) < 0) continue
      this.#parents[grown.lefts[box] as number] = box
      this.#parents[grown.rights[box] as number] = box
    }
    this.#roots = new Int32Array(before.boxes.length)
    let from = 0
    // A tree is appended as a whole, its root last.
    for (const { cells, timing, root } of before.groups) {
      const same = groups.find((group) => group.cells === cells && group.timing === timing)
      this.#roots.fill(same?.root ?? -1, from, root + 1)
      from = root + 1
    }
  }

  /** Whether there are new units like those of an old box. */
  concern(box: number): boolean {
    return (this.#roots[box] as number) >= 0
  }

  /** Takes down for a node why nothing in an old box that they concern is of use at some duties. */
  settle(node: number, box: number, lowest: number, highest: number, reason: number): void {
    for (const inner of this.#insideOf(box, reason)) {
      this.#settled.fill(node + 1, inner * this.#duties + lowest, inner * this.#duties + highest + 1)
      for (let above = inner; above >= 0 && this.#touched[above] !== node + 1; above = this.#parents[above] as number)
        this.#touched[above] = node + 1
    }
  }

  /** Appends boxes that hold all of the tree under `box` that is not settled with a node, and perhaps some that is. */
  collect(node: number, box: number, into: DutyBox[]): void {
    this.#count(node, box, 0, this.#duties - 1)
    this.#collect(node, box, 0, this.#duties - 1, into)
  }

  /** How many units under a box are not settled at some of the duties; noted for each box that was looked into. */
  #count(node: number, box: number, from: number, to: number): number {
    const lowest = this.#lowest(node, box, from, to)
    const left = this.#grown.lefts[box] as number
    const right = this.#grown.rights[box] as number
    let open = 0
    if (lowest > to) open = 0
    else if (left < 0 || this.#touched[box] !== node + 1) open = this.#grown.counts[box] as number
    else {
      const highest = this.#highest(node, box, lowest, to)
      open = this.#count(node, left, lowest, highest) + this.#count(node, right, lowest, highest)
    }
    this.#open[box] = open
    return open
  }

  /** One box for all that is open in it, unless that is little of it. */
  #collect(node: number, box: number, from: number, to: number, into: DutyBox[]): void {
    const open = this.#open[box] as number
    if (open === 0) return
    const lowest = this.#lowest(node, box, from, to)
    const highest = this.#highest(node, box, lowest, to)
    if (open >= OPEN_SHARE * (this.#grown.counts[box] as number)) into.push({ node, box, lowest, highest })
    else {
      this.#collect(node, this.#grown.lefts[box] as number, lowest, highest, into)
      this.#collect(node, this.#grown.rights[box] as number, lowest, highest, into)
    }
  }

  /** The lowest duty of some at which a box is not settled with a node, past `to` where it is at all. */
  #lowest(node: number, box: number, from: number, to: number): number {
    let duty = from
    while (duty <= to && this.#settled[box * this.#duties + duty] === node + 1) duty++
    return duty
  }

  /** The highest, no lower than `from`. */
  #highest(node: number, box: number, from: number, to: number): number {
    let duty = to
    while (duty > from && this.#settled[box * this.#duties + duty] === node + 1) duty--
    return duty
  }

  #insideOf(box: number, reason: number): readonly number[] {
    const sides = reason < 0 ? BEATEN_SIDES : (LIMIT_SIDES[reason] as Sides)
    let known = this.#inside.get(sides)
    if (known === undefined) {
      known = new Map()
      this.#inside.set(sides, known)
    }
    let inside = known.get(box)
    if (inside === undefined) {
      const found: number[] = []
      this.#find(box, this.#roots[box] as number, sides, isCostly(reason), found)
      known.set(box, found)
      inside = found
    }
    return inside
  }

  #find(box: number, inner: number, sides: Sides, costly: boolean, into: number[]): void {
    const [old, grown] = [this.#old, this.#grown]
    if (!old.meets(box, grown, inner, sides)) return
    const dearEnough = !costly || (old.costs[box] as number) <= (grown.costs[inner] as number)
    if (dearEnough && old.encloses(box, grown, inner, sides)) into.push(inner)
    else if ((grown.lefts[inner] as number) >= 0) {
      this.#find(box, grown.lefts[inner] as number, sides, costly, into)
      this.#find(box, grown.rights[inner] as number, sides, costly, into)
    }
  }
}
