// Boxes of units as flat columns: of each box what it holds, and a row of the best and a row of the worst that any of its
// units has of each attribute, each taken from whichever has it. Two units that need not exist, between which all of the box
// lie: what the best cannot do, none can; what even the worst does too much of, all do. Rows and not objects, since a search
// reads some hundred thousand of them and most of its time would go into fetching numbers from all over the memory.
import type { Esc } from '../esc/esc.js'
import type { Source } from '../pack/arrangement.js'

/** What of a controller the bounds depend on, in the order of a row. */
const ESC_COLUMNS = [
  'resistance',
  'resistanceTemperatureCoefficient',
  'quiescentPower',
  'proportionalLoss',
  'switchingTime',
  'switchingFrequency',
  'freewheelDrop',
  'deadTimeDrop',
  'freewheelResistanceShare',
  'currentLimit',
  'electricalSpeedLimit',
] as const
/** What of a source, behind it; the mass of the controller ends a row. All units of a tree have the same cells. */
const SOURCE_COLUMNS = [
  'cells',
  'cellVoltageShift',
  'cellResistance',
  'leadResistance',
  'mass',
  'capacity',
  'currentLimit',
  'continuousCurrent',
] as const
/** Of these the most is best; of all else the least. */
const MORE_IS_BETTER = ['currentLimit', 'electricalSpeedLimit', 'capacity', 'continuousCurrent']

const ROW = ESC_COLUMNS.length + SOURCE_COLUMNS.length + 1
const RISING = [...ESC_COLUMNS, ...SOURCE_COLUMNS, 'controllerMass'].map((column) => MORE_IS_BETTER.includes(column))

type Writable<Part> = { -readonly [Key in keyof Part]: Part[Key] }

/** One extreme of a box, to be read into; SI. */
export interface Extreme {
  readonly esc: Writable<Pick<Esc, (typeof ESC_COLUMNS)[number]>>
  readonly source: Writable<Pick<Source, (typeof SOURCE_COLUMNS)[number]>>
  escMass: number
}

export function emptyExtreme(): Extreme {
  return {
    esc: {
      resistance: Number.NaN,
      resistanceTemperatureCoefficient: Number.NaN,
      quiescentPower: Number.NaN,
      proportionalLoss: Number.NaN,
      switchingTime: Number.NaN,
      switchingFrequency: Number.NaN,
      freewheelDrop: Number.NaN,
      deadTimeDrop: Number.NaN,
      freewheelResistanceShare: Number.NaN,
      currentLimit: Number.NaN,
      electricalSpeedLimit: Number.NaN,
    },
    source: {
      cells: Number.NaN,
      cellVoltageShift: Number.NaN,
      cellResistance: Number.NaN,
      leadResistance: Number.NaN,
      mass: Number.NaN,
      capacity: Number.NaN,
      currentLimit: Number.NaN,
      continuousCurrent: Number.NaN,
    },
    escMass: Number.NaN,
  }
}

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

  /** @param most boxes there will be at most: twice the units */
  constructor(most: number) {
    this.counts = new Int32Array(most)
    this.units = new Int32Array(most)
    this.lefts = new Int32Array(most)
    this.rights = new Int32Array(most)
    this.timings = new Float64Array(most)
    this.costs = new Float64Array(most)
    this.#rows = new Float64Array(2 * ROW * most)
  }

  /** Adds a box of one unit; its place. */
  addLeaf(unit: number, esc: Esc, source: Source, escMass: number, timing: number, cost: number): number {
    const box = this.#add(1, unit, -1, -1, timing, cost)
    const row = [
      ...ESC_COLUMNS.map((column) => esc[column]),
      ...SOURCE_COLUMNS.map((column) => source[column]),
      escMass,
    ]
    this.#rows.set(row, 2 * ROW * box)
    this.#rows.set(row, 2 * ROW * box + ROW)
    return box
  }

  /** Adds the box of two boxes; its place. */
  addPair(left: number, right: number): number {
    const { counts, costs } = this
    const count = (counts[left] as number) + (counts[right] as number)
    const cost = Math.min(costs[left] as number, costs[right] as number)
    const box = this.#add(count, -1, left, right, this.timings[left] as number, cost)
    for (let column = 0; column < ROW; column++) {
      const best = RISING[column] === true ? Math.max : Math.min
      const worst = RISING[column] === true ? Math.min : Math.max
      this.#join(box, left, right, column, best)
      this.#join(box, left, right, ROW + column, worst)
    }
    return box
  }

  #join(box: number, left: number, right: number, place: number, choose: (a: number, b: number) => number): void {
    const rows = this.#rows
    const [a, b] = [rows[2 * ROW * left + place] as number, rows[2 * ROW * right + place] as number]
    rows[2 * ROW * box + place] = choose(a, b)
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

  readBest(box: number, into: Extreme): void {
    this.#read(2 * ROW * box, into)
  }

  readWorst(box: number, into: Extreme): void {
    this.#read(2 * ROW * box + ROW, into)
  }

  /** Written out column by column: that is what makes it quick. */
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
