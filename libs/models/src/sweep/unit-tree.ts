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

/** What a tree is halved along, each over a typical size of it. */
interface Features {
  readonly unit: number
  readonly values: readonly number[]
}

/** Grows the tree of some units (indices) of one cell count and timing into `boxes`; the place of its root. */
export function growTree(
  members: readonly number[],
  units: readonly PlanUnit[],
  candidates: Candidates,
  weights: TreeWeights,
  boxes: UnitBoxes,
): number {
  const addLeaf = (index: number): number => {
    const unit = units[index] as PlanUnit
    const esc = candidates.escs[unit.esc] as Esc
    const mass = candidates.escMass[unit.esc] as number
    return boxes.addLeaf(index, esc, unit.source, mass, esc.timings[unit.timing] as number, unitCost(unit, candidates))
  }
  const grow = (features: readonly Features[]): number => {
    if (features.length === 1) return addLeaf((features[0] as Features).unit)
    const axis = widestAxis(features)
    // Ties by unit, so that a tree does not depend on the order its units came in.
    const sorted = [...features].sort(
      (a, b) => (a.values[axis] as number) - (b.values[axis] as number) || a.unit - b.unit,
    )
    const half = sorted.length >> 1
    return boxes.addPair(grow(sorted.slice(0, half)), grow(sorted.slice(half)))
  }
  return grow(members.map((unit) => featuresOf(unit, units[unit] as PlanUnit, candidates, weights)))
}

/** Cost still to be paid of controller and packs. */
export function unitCost(unit: PlanUnit, candidates: Candidates): number {
  const packs = candidates.arrangements[unit.arrangement] === 'single' ? 0 : 1
  return (candidates.escCost[unit.esc] as number) + (candidates.packCost[2 * unit.pack + packs] as number)
}

function featuresOf(index: number, unit: PlanUnit, candidates: Candidates, weights: TreeWeights): Features {
  const { source } = unit
  const esc = candidates.escs[unit.esc] as Esc
  const resistance = source.cellResistance + source.leadResistance + esc.resistance
  // Logarithms, so that a width is a ratio whatever the unit.
  return {
    unit: index,
    values: [
      weights.resistance * Math.log(resistance),
      weights.mass * Math.log(source.mass + (candidates.escMass[unit.esc] as number)),
      weights.capacity * Math.log(source.capacity),
      weights.cost * Math.log(COST_SCALE + unitCost(unit, candidates)),
      weights.rating * Math.log(esc.currentLimit),
    ],
  }
}

/** Below this sum, costs differ little; in the catalogue's currency. Only the shape of the tree depends on it. */
const COST_SCALE = 50

function widestAxis(members: readonly Features[]): number {
  const axes = (members[0] as Features).values.length
  let widest = 0
  let width = -1
  for (let axis = 0; axis < axes; axis++) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (const { values } of members) {
      low = Math.min(low, values[axis] as number)
      high = Math.max(high, values[axis] as number)
    }
    if (high - low > width) {
      width = high - low
      widest = axis
    }
  }
  return widest
}
