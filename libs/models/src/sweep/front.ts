// The Pareto set of a stream of setups over two to six compared values (less is better). A setup leaves when another is
// no worse in every value and better in one; of setups with equal values the tie rule keeps one. Which setups stay does
// not depend on the order of arrival, so fronts of shards merge by adding one to the other.
// A small front is scanned, a member that rejects moving forward. A larger one is asked in two steps: a table settles
// most setups in constant time, a tree the others. Both are kept current and built anew when the columns have filled up
// by a share of what they held.
import { FrontColumns } from './front-columns.js'
import { FrontTree } from './front-tree.js'
import { DIMENSIONS, type Objectives } from './objectives.js'
import { CLEAR, DOMINATED, RejectionTable, UNDECIDED } from './rejection-table.js'

/** Members that are scanned rather than looked up. */
const SCANNED = 64
/** Share of the members by which the columns fill up before table and tree are built anew. */
const REBUILD_SHARE = 0.7

/** A member: its number, unrounded objectives and compared values. */
export interface FrontMember {
  readonly number: number
  readonly raw: Objectives
  readonly cells: readonly number[]
}

export class Front {
  size = 0
  readonly #dimensions: number
  readonly #columns: FrontColumns
  readonly #table: RejectionTable
  readonly #tree: FrontTree
  /** With fewer than four values: those of the setup in hand, zeros behind them. */
  readonly #padded = new Float64Array(4)
  /** Whether table and tree are in use. */
  #lookedUp = false
  /** Slots in use at which the columns are closed up. */
  #rebuildAt = SCANNED

  constructor(dimensions = DIMENSIONS) {
    if (!Number.isInteger(dimensions) || dimensions < 2 || dimensions > 6)
      throw new RangeError(`dimensions must be a whole number from 2 to 6, got ${dimensions}`)
    this.#dimensions = dimensions
    const stride = Math.max(4, dimensions)
    this.#columns = new FrontColumns(stride)
    this.#table = new RejectionTable(dimensions, stride)
    this.#tree = new FrontTree(stride)
  }

  /**
   * Offers a setup; true when it stays. `cells` holds its compared values.
   * @throws RangeError naming the first compared value that is not finite
   */
  offer(cells: Float64Array, objectives: Objectives, number: number): boolean {
    const asked = this.#dimensions < 4 ? this.#pad(cells, 0) : cells
    if (!allFinite(asked, this.#columns.stride)) this.#refuse(cells)
    const verdict = this.#lookedUp ? this.#table.verdict(asked, 0) : UNDECIDED
    if (verdict === DOMINATED) return false
    const slot = verdict === CLEAR ? -1 : this.#noWorse(asked, 0)
    if (slot >= 0) return this.#columns.equals(slot, asked, 0) && this.#columns.contest(slot, asked, objectives, number)
    this.#removeDominated(asked)
    this.#admit(asked, objectives, number)
    return true
  }

  /** Whether a member is no worse in every compared value at `offset` and better in one. */
  dominates(cells: Float64Array, offset = 0): boolean {
    const asked = this.#dimensions < 4 ? this.#pad(cells, offset) : cells
    const from = this.#dimensions < 4 ? 0 : offset
    if (this.#lookedUp) {
      const verdict = this.#table.verdict(asked, from)
      if (verdict !== UNDECIDED) return verdict === DOMINATED
    }
    const slot = this.#noWorse(asked, from)
    return slot >= 0 && !this.#columns.equals(slot, asked, from)
  }

  /** Whether a member is no worse in every compared value at `offset`. */
  reaches(cells: Float64Array, offset = 0): boolean {
    const asked = this.#dimensions < 4 ? this.#pad(cells, offset) : cells
    return this.#noWorse(asked, this.#dimensions < 4 ? 0 : offset) >= 0
  }

  /** The number of a member that dominates the compared values at `offset`, −1 if none does. */
  dominatorOf(cells: Float64Array, offset = 0): number {
    const asked = this.#dimensions < 4 ? this.#pad(cells, offset) : cells
    const from = this.#dimensions < 4 ? 0 : offset
    const slot = this.#noWorse(asked, from)
    return slot < 0 || this.#columns.equals(slot, asked, from) ? -1 : (this.#columns.numbers[slot] as number)
  }

  /** Members in the order of their numbers. */
  members(): FrontMember[] {
    const { cells, numbers, stride, used } = this.#columns
    const members: FrontMember[] = []
    for (let slot = 0; slot < used; slot++) {
      const number = numbers[slot] as number
      if (Number.isNaN(number)) continue
      const o = slot * stride
      members.push({
        number,
        raw: { ...this.#columns.rawOf(slot) },
        cells: Array.from(cells.subarray(o, o + this.#dimensions)),
      })
    }
    return members.sort((a, b) => a.number - b.number)
  }

  /**
   * The slot of a member no worse in every value, −1 if none. A member with equal values is met only if none dominates
   * the setup, since that one would dominate the member.
   */
  #noWorse(cells: Float64Array, offset: number): number {
    if (this.#lookedUp) return this.#tree.noWorse(cells, offset)
    const { cells: held, stride, used } = this.#columns
    const a = cells[offset] as number
    const b = cells[offset + 1] as number
    const c = cells[offset + 2] as number
    const d = cells[offset + 3] as number
    for (let slot = 0, o = 0; slot < used; slot++, o += stride) {
      if ((held[o] as number) > a || (held[o + 1] as number) > b) continue
      if ((held[o + 2] as number) > c || (held[o + 3] as number) > d) continue
      if (stride > 4 && !restWithin(held, o, cells, offset, stride)) continue
      if (slot === 0) return 0
      // Half-way to the front of the scan.
      this.#columns.swap(slot, slot >> 1)
      return slot >> 1
    }
    return -1
  }

  #removeDominated(cells: Float64Array): void {
    const columns = this.#columns
    if (this.#lookedUp) {
      const left = this.#tree.takeDominated(cells)
      for (let i = 0; i < left; i++) columns.numbers[this.#tree.taken[i] as number] = Number.NaN
      this.size -= left
      return
    }
    const { stride } = columns
    for (let slot = columns.used - 1; slot >= 0; slot--) {
      if (!restWithin(cells, -4, columns.cells, slot * stride - 4, stride + 4)) continue
      columns.swap(slot, columns.used - 1)
      columns.used--
      this.size--
    }
  }

  #admit(cells: Float64Array, objectives: Objectives, number: number): void {
    const columns = this.#columns
    const slot = columns.append(cells, objectives, number)
    this.size++
    if (this.#lookedUp) {
      this.#table.enter(columns.cells, slot * columns.stride)
      this.#tree.insert(cells, slot)
    }
    if (columns.used > this.#rebuildAt) this.#rebuild()
  }

  #rebuild(): void {
    const columns = this.#columns
    const moved = columns.closeUp()
    this.#table.rebuild(columns.cells, columns.used)
    if (moved || !this.#lookedUp) this.#tree.rebuild(columns.cells, columns.used)
    this.#lookedUp = true
    this.#rebuildAt = Math.floor(columns.used * (1 + REBUILD_SHARE)) + SCANNED
  }

  #pad(cells: Float64Array, offset: number): Float64Array {
    for (let k = 0; k < this.#dimensions; k++) this.#padded[k] = cells[offset + k] as number
    return this.#padded
  }

  #refuse(cells: Float64Array): never {
    const index = cells.findIndex((value) => !Number.isFinite(value))
    throw new RangeError(`compared value ${index} must be finite, got ${cells[index]}`)
  }
}

/** A finite value times 0 is 0; one that is not gives no number. */
function allFinite(cells: Float64Array, count: number): boolean {
  let zero = (cells[0] as number) * 0 + (cells[1] as number) * 0 + (cells[2] as number) * 0 + (cells[3] as number) * 0
  for (let k = 4; k < count; k++) zero += (cells[k] as number) * 0
  return zero === 0
}

/** Whether values from the fifth on are no greater than the other's. */
function restWithin(values: Float64Array, v: number, limits: Float64Array, l: number, stride: number): boolean {
  for (let k = 4; k < stride; k++) if ((values[v + k] as number) > (limits[l + k] as number)) return false
  return true
}
