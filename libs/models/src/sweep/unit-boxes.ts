// Boxes of units as flat columns: of each box what it holds, and a row of the best and a row of the worst that any of its
// units has of each attribute, each taken from whichever has it. Two units that need not exist, between which all of the box
// lie: what the best cannot do, none can; what even the worst does too much of, all do. Rows and not objects, since a search
// reads some hundred thousand of them and most of its time would go into fetching numbers from all over the memory.
import type { Esc } from '../esc/esc.js'
import type { Source } from '../pack/arrangement.js'
import { type Extreme, NO_BETTER, NO_WORSE, RISING, ROW, type Sides } from './unit-columns.js'

/** Places in a box's two rows where the greater of two values is kept: best where more is better, worst elsewhere. */
const GREATER = Uint8Array.from([...RISING, ...RISING.map((rises) => !rises)], Number)

export class UnitBoxes {
  /** Boxes so far. */
  length = 0
  /** How many units a box holds, the only one of a leaf or −1, and its halves or −1. */
  readonly counts: Int32Array
  readonly units: Int32Array
  readonly lefts: Int32Array
  readonly rights: Int32Array
  /** rad */
  readonly timings: Float64Array
  /** Least cost of controller and packs. */
  readonly costs: Float64Array
  /** Best row and worst row of each box. */
  readonly #rows: Float64Array

  /**
   * @param most boxes there will be at most: twice the units
   * @param rows extremes that are worked out already
   */
  constructor(most: number, rows: Float64Array = new Float64Array(2 * ROW * most)) {
    this.counts = new Int32Array(most)
    this.units = new Int32Array(most)
    this.lefts = new Int32Array(most)
    this.rights = new Int32Array(most)
    this.timings = new Float64Array(most)
    this.costs = new Float64Array(most)
    this.#rows = rows
  }

  /** The same boxes with room for some more. */
  withRoom(more: number): UnitBoxes {
    const boxes = new UnitBoxes(this.length + more)
    boxes.length = this.length
    for (const column of ['counts', 'units', 'lefts', 'rights', 'timings', 'costs'] as const)
      boxes[column].set(this[column].subarray(0, this.length))
    boxes.#rows.set(this.#rows.subarray(0, 2 * ROW * this.length))
    return boxes
  }

  /** Adds a box of one unit; its place. */
  addLeaf(unit: number, esc: Esc, source: Source, escMass: number, timing: number, cost: number): number {
    const box = this.#add(1, unit, -1, -1, timing, cost)
    const at = 2 * ROW * box
    this.#write(at, esc, source, escMass)
    this.#rows.copyWithin(at + ROW, at, at + ROW)
    return box
  }

  /** Adds the box of two boxes; its place. */
  addPair(left: number, right: number): number {
    const { counts, costs } = this
    const count = (counts[left] as number) + (counts[right] as number)
    const cost = Math.min(costs[left] as number, costs[right] as number)
    const box = this.#add(count, -1, left, right, this.timings[left] as number, cost)
    const rows = this.#rows
    const at = 2 * ROW * box
    const first = 2 * ROW * left
    const second = 2 * ROW * right
    for (let place = 0; place < 2 * ROW; place++) {
      const a = rows[first + place] as number
      const b = rows[second + place] as number
      rows[at + place] = GREATER[place] === 1 ? Math.max(a, b) : Math.min(a, b)
    }
    return box
  }

  /**
   * Adds a tree like another, which takes the boxes from `from` to its root: of the same parts at another timing, which none of
   * its columns knows. `unitOf`: units of the new tree by those of the other. The place of its root.
   */
  addLike(from: number, root: number, unitOf: Int32Array, timing: number): number {
    const { length, units, lefts, rights } = this
    const shift = length - from
    const end = root + shift + 1
    for (let box = length; box < end; box++) {
      const isLeaf = (units[box - shift] as number) >= 0
      units[box] = isLeaf ? (unitOf[units[box - shift] as number] as number) : -1
      lefts[box] = isLeaf ? -1 : (lefts[box - shift] as number) + shift
      rights[box] = isLeaf ? -1 : (rights[box - shift] as number) + shift
    }
    this.counts.copyWithin(length, from, root + 1)
    this.costs.copyWithin(length, from, root + 1)
    this.timings.fill(timing, length, end)
    this.#rows.copyWithin(2 * ROW * length, 2 * ROW * from, 2 * ROW * (root + 1))
    this.length = end
    return end - 1
  }

  #add(count: number, unit: number, left: number, right: number, timing: number, cost: number): number {
    const box = this.length++
    this.counts[box] = count
    this.units[box] = unit
    this.lefts[box] = left
    this.rights[box] = right
    this.timings[box] = timing
    this.costs[box] = cost
    return box
  }

  /**
   * The same boxes with the units that are left, in their new numbers (−1: gone). `cores`: the smallest box that holds all
   * that is left of each, −1 where nothing is; both halves of every core hold something. Extremes stay as wide as they were,
   * which bounds what is left as well.
   */
  keeping(unitOf: Int32Array): { readonly boxes: UnitBoxes; readonly cores: Int32Array } {
    const { length, counts, lefts, rights } = this
    const boxes = new UnitBoxes(length, this.#rows)
    boxes.length = length
    boxes.timings.set(this.timings.subarray(0, length))
    boxes.costs.set(this.costs.subarray(0, length))
    boxes.units.fill(-1)
    boxes.lefts.fill(-1)
    boxes.rights.fill(-1)
    const cores = new Int32Array(length)
    for (let box = 0; box < length; box++) {
      if (counts[box] === 1) {
        boxes.units[box] = unitOf[this.units[box] as number] as number
        boxes.counts[box] = (boxes.units[box] as number) < 0 ? 0 : 1
        cores[box] = (boxes.units[box] as number) < 0 ? -1 : box
        continue
      }
      const left = cores[lefts[box] as number] as number
      const right = cores[rights[box] as number] as number
      cores[box] = left < 0 ? right : right < 0 ? left : box
      if (cores[box] !== box) continue
      boxes.lefts[box] = left
      boxes.rights[box] = right
      boxes.counts[box] = (boxes.counts[left] as number) + (boxes.counts[right] as number)
    }
    return { boxes, cores }
  }

  /** Whether all units between the extremes of a box of `others` keep to some sides of one of these. */
  encloses(box: number, others: UnitBoxes, other: number, sides: Sides): boolean {
    return this.#keepsTo(box, others, 2 * ROW * other, 2 * ROW * other + ROW, sides)
  }

  /** Whether some unit between them might. */
  meets(box: number, others: UnitBoxes, other: number, sides: Sides): boolean {
    return this.#keepsTo(box, others, 2 * ROW * other + ROW, 2 * ROW * other, sides)
  }

  /** Whether the row at `best` is no better than the best of a box, and the one at `worst` no worse than its worst. */
  #keepsTo(box: number, others: UnitBoxes, best: number, worst: number, sides: Sides): boolean {
    const [rows, otherRows, at] = [this.#rows, others.#rows, 2 * ROW * box]
    for (let column = 0; column < ROW; column++) {
      const sign = RISING[column] === true ? -1 : 1
      const side = sides[column] as number
      const better = sign * ((rows[at + column] as number) - (otherRows[best + column] as number)) > 0
      const worse = sign * ((otherRows[worst + column] as number) - (rows[at + ROW + column] as number)) > 0
      if ((better && (side & NO_BETTER) !== 0) || (worse && (side & NO_WORSE) !== 0)) return false
    }
    return true
  }

  readBest(box: number, into: Extreme): void {
    this.#read(2 * ROW * box, into)
  }

  readWorst(box: number, into: Extreme): void {
    this.#read(2 * ROW * box + ROW, into)
  }

  /** Written out column by column, and read like that: that is what makes it quick. */
  #write(at: number, esc: Esc, source: Source, escMass: number): void {
    const rows = this.#rows
    rows[at] = esc.resistance
    rows[at + 1] = esc.resistanceTemperatureCoefficient
    rows[at + 2] = esc.quiescentPower
    rows[at + 3] = esc.proportionalLoss
    rows[at + 4] = esc.switchingTime
    rows[at + 5] = esc.switchingFrequency
    rows[at + 6] = esc.freewheelDrop
    rows[at + 7] = esc.deadTimeDrop
    rows[at + 8] = esc.freewheelResistanceShare
    rows[at + 9] = esc.currentLimit
    rows[at + 10] = esc.electricalSpeedLimit
    rows[at + 11] = source.cells
    rows[at + 12] = source.cellVoltageShift
    rows[at + 13] = source.cellResistance
    rows[at + 14] = source.leadResistance
    rows[at + 15] = source.mass
    rows[at + 16] = source.capacity
    rows[at + 17] = source.currentLimit
    rows[at + 18] = source.continuousCurrent
    rows[at + 19] = escMass
  }

  #read(at: number, into: Extreme): void {
    const rows = this.#rows
    const { esc, source } = into
    esc.resistance = rows[at] as number
    esc.resistanceTemperatureCoefficient = rows[at + 1] as number
    esc.quiescentPower = rows[at + 2] as number
    esc.proportionalLoss = rows[at + 3] as number
    esc.switchingTime = rows[at + 4] as number
    esc.switchingFrequency = rows[at + 5] as number
    esc.freewheelDrop = rows[at + 6] as number
    esc.deadTimeDrop = rows[at + 7] as number
    esc.freewheelResistanceShare = rows[at + 8] as number
    esc.currentLimit = rows[at + 9] as number
    esc.electricalSpeedLimit = rows[at + 10] as number
    source.cells = rows[at + 11] as number
    source.cellVoltageShift = rows[at + 12] as number
    source.cellResistance = rows[at + 13] as number
    source.leadResistance = rows[at + 14] as number
    source.mass = rows[at + 15] as number
    source.capacity = rows[at + 16] as number
    source.currentLimit = rows[at + 17] as number
    source.continuousCurrent = rows[at + 18] as number
    into.escMass = rows[at + 19] as number
  }
}
