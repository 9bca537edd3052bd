// Units of one cell count and timing as a tree of boxes (unit-boxes.ts), halved along the attribute that differs most in
// them; a leaf is a single unit.
import type { Esc } from '../esc/esc.js'
import type { PlanUnit } from './plan.js'
import { type Candidates, isNarrowed, type SweepProblem } from './problem.js'
import type { UnitBoxes } from './unit-boxes.js'

/** How much a ratio of each attribute counts when a box is halved. */
export interface TreeWeights {
  readonly resistance: number
  readonly mass: number
  readonly capacity: number
  readonly cost: number
  readonly rating: number
}

/** Where time and margin count up to what is wanted, resistance and the current rating put most boxes away. */
const NARROWED_WEIGHTS: TreeWeights = { resistance: 2, mass: 0.5, capacity: 0.5, cost: 0.5, rating: 2 }
/** Where all objectives count without end, all attributes do. */
const WHOLE_WEIGHTS: TreeWeights = { resistance: 1, mass: 1, capacity: 1, cost: 0.5, rating: 1 }

export function treeWeights(problem: SweepProblem): TreeWeights {
  return isNarrowed(problem) ? NARROWED_WEIGHTS : WHOLE_WEIGHTS
}

/** Grows the tree of some units (indices) of one cell count and timing into `boxes`; the place of its root. */
export function growTree(
  members: readonly number[],
  units: readonly PlanUnit[],
  candidates: Candidates,
  weights: TreeWeights,
  boxes: UnitBoxes,
): number {
  const features = featuresOf(members, units, candidates, weights)
  const order = Int32Array.from(members.keys())
  const addLeaf = (index: number): number => {
    const unit = units[index] as PlanUnit
    const esc = candidates.escs[unit.esc] as Esc
    const mass = candidates.escMass[unit.esc] as number
    return boxes.addLeaf(index, esc, unit.source, mass, esc.timings[unit.timing] as number, unitCost(unit, candidates))
  }
  const grow = (from: number, to: number): number => {
    if (to - from === 1) return addLeaf(members[order[from] as number] as number)
    const half = from + ((to - from) >> 1)
    halve(order, features[widestAxis(features, order, from, to)] as Float64Array, members, from, to, half)
    return boxes.addPair(grow(from, half), grow(half, to))
  }
  return grow(0, members.length)
}

/** Cost still to be paid of controller and packs. */
export function unitCost(unit: PlanUnit, candidates: Candidates): number {
  const packs = candidates.arrangements[unit.arrangement] === 'single' ? 0 : 1
  return (candidates.escCost[unit.esc] as number) + (candidates.packCost[2 * unit.pack + packs] as number)
}

/** What a tree is halved along, a column each; logarithms, so that a width is a ratio whatever the unit. */
function featuresOf(
  members: readonly number[],
  units: readonly PlanUnit[],
  candidates: Candidates,
  weights: TreeWeights,
): Float64Array[] {
  const columns = Object.keys(weights).map(() => new Float64Array(members.length))
  const [resistances, masses, capacities, costs, ratings] = columns as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  for (const [i, member] of members.entries()) {
    const unit = units[member] as PlanUnit
    const { source } = unit
    const esc = candidates.escs[unit.esc] as Esc
    const resistance = source.cellResistance + source.leadResistance + esc.resistance
    resistances[i] = weights.resistance * Math.log(resistance)
    masses[i] = weights.mass * Math.log(source.mass + (candidates.escMass[unit.esc] as number))
    capacities[i] = weights.capacity * Math.log(source.capacity)
    costs[i] = weights.cost * Math.log(COST_SCALE + unitCost(unit, candidates))
    ratings[i] = weights.rating * Math.log(esc.currentLimit)
  }
  return columns
}

/** Below this sum, costs differ little; in the catalogue's currency. Only the shape of the tree depends on it. */
const COST_SCALE = 50

/** The column that differs most in the places from `from` up to, not including, `to` of the order. */
function widestAxis(columns: readonly Float64Array[], order: Int32Array, from: number, to: number): number {
  let widest = 0
  let width = -1
  for (const [axis, values] of columns.entries()) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (let place = from; place < to; place++) {
      const value = values[order[place] as number] as number
      if (value < low) low = value
      if (value > high) high = value
    }
    if (high - low > width) {
      width = high - low
      widest = axis
    }
  }
  return widest
}

/**
 * Orders some places so far that those before `half` hold what sorting would put there, ties by unit, so that a tree does not
 * depend on the order its units came in.
 */
function halve(
  order: Int32Array,
  values: Float64Array,
  members: readonly number[],
  from: number,
  to: number,
  half: number,
): void {
  const before = (a: number, b: number): boolean => {
    const [first, second] = [values[a] as number, values[b] as number]
    return first < second || (first === second && (members[a] as number) < (members[b] as number))
  }
  let [low, high] = [from, to - 1]
  while (low < high) {
    const pivot = order[(low + high) >> 1] as number
    let [i, k] = [low, high]
    while (i <= k) {
      while (before(order[i] as number, pivot)) i++
      while (before(pivot, order[k] as number)) k--
      if (i > k) break
      const held = order[i] as number
      order[i++] = order[k] as number
      order[k--] = held
    }
    if (half <= k) high = k
    else if (half >= i) low = i
    else return
  }
}
