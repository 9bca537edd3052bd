// Units of one cell count and timing as a tree of boxes. Every box knows the best and the worst that any of its units has
// of each attribute, each taken from whichever has it: two units that need not exist, between which all of them lie. What
// the best cannot do, none can; what even the worst does too much of, all do.
// Boxes are halved along the attribute that differs most in them; a leaf is a single unit.
import type { Esc } from '../esc/esc.js'
import type { Source } from '../pack/arrangement.js'
import type { PlanUnit } from './plan.js'
import type { Candidates } from './problem.js'

/** What of a controller and a source the bounds depend on. */
export type ExtremeEsc = Pick<
  Esc,
  | 'resistance'
  | 'resistanceTemperatureCoefficient'
  | 'quiescentPower'
  | 'proportionalLoss'
  | 'switchingTime'
  | 'switchingFrequency'
  | 'freewheelDrop'
  | 'deadTimeDrop'
  | 'freewheelResistanceShare'
  | 'currentLimit'
  | 'electricalSpeedLimit'
>
export type ExtremeSource = Omit<Source, 'heatCapacity' | 'temperatureLimit'>

/** One extreme of a box: parts that stand for all its units. */
export interface Extreme {
  readonly esc: ExtremeEsc
  readonly source: ExtremeSource
  readonly escMass: number
}

export interface UnitBox {
  /** Place in the plan's list of boxes. */
  readonly id: number
  /** How many units, and the only one (index of the plan's units) or −1. */
  readonly count: number
  readonly unit: number
  /** rad */
  readonly timing: number
  readonly left: UnitBox | null
  readonly right: UnitBox | null
  /** Least resistance, losses and mass, highest ratings and charge; and the reverse. */
  readonly best: Extreme
  readonly worst: Extreme
  /** Least cost of controller and packs. */
  readonly cost: number
}

/** How much a ratio of each attribute counts when a box is halved. */
export interface TreeWeights {
  readonly resistance: number
  readonly mass: number
  readonly capacity: number
  readonly cost: number
  readonly rating: number
}

/** Where time and margin count up to what is wanted, resistance and the current rating put most boxes away. */
export const NARROWED_WEIGHTS: TreeWeights = { resistance: 2, mass: 0.5, capacity: 0.5, cost: 0.5, rating: 2 }
/** Where all objectives count without end, all attributes do. */
export const WHOLE_WEIGHTS: TreeWeights = { resistance: 1, mass: 1, capacity: 1, cost: 0.5, rating: 1 }

/** What a tree is halved along, each over a typical size of it. */
interface Features {
  readonly unit: number
  readonly values: readonly number[]
}

/** Grows the tree of some units (indices) of one cell count and timing; boxes are appended to `boxes` in order of their ids. */
export function growTree(
  members: readonly number[],
  units: readonly PlanUnit[],
  candidates: Candidates,
  timing: number,
  weights: TreeWeights,
  boxes: UnitBox[],
): UnitBox {
  const all = members.map((unit) => featuresOf(unit, units[unit] as PlanUnit, candidates, weights))
  return grow(all, units, candidates, timing, boxes)
}

function grow(
  members: readonly Features[],
  units: readonly PlanUnit[],
  candidates: Candidates,
  timing: number,
  boxes: UnitBox[],
): UnitBox {
  const [first] = members as [Features]
  if (members.length === 1) return leaf(first.unit, units[first.unit] as PlanUnit, candidates, timing, boxes)
  const axis = widestAxis(members)
  // Ties by unit, so that a tree does not depend on the order its units came in.
  const sorted = [...members].sort((a, b) => (a.values[axis] as number) - (b.values[axis] as number) || a.unit - b.unit)
  const half = sorted.length >> 1
  const left = grow(sorted.slice(0, half), units, candidates, timing, boxes)
  const right = grow(sorted.slice(half), units, candidates, timing, boxes)
  return append(boxes, {
    count: members.length,
    unit: -1,
    timing,
    left,
    right,
    best: extreme(left.best, right.best, Math.min, Math.max),
    worst: extreme(left.worst, right.worst, Math.max, Math.min),
    cost: Math.min(left.cost, right.cost),
  })
}

function leaf(unit: number, planned: PlanUnit, candidates: Candidates, timing: number, boxes: UnitBox[]): UnitBox {
  const esc = candidates.escs[planned.esc]
  if (esc === undefined) throw new RangeError('a plan must be used with its own problem')
  const only = {
    esc: extremeEsc(esc, esc, Math.min, Math.max),
    source: extremeSource(planned.source, planned.source, Math.min, Math.max),
    escMass: candidates.escMass[planned.esc] as number,
  }
  const cost = unitCost(planned, candidates)
  return append(boxes, { count: 1, unit, timing, left: null, right: null, best: only, worst: only, cost })
}

function append(boxes: UnitBox[], box: Omit<UnitBox, 'id'>): UnitBox {
  const whole = { id: boxes.length, ...box }
  boxes.push(whole)
  return whole
}

/** Cost still to be paid of controller and packs. */
export function unitCost(unit: PlanUnit, candidates: Candidates): number {
  const packs = candidates.arrangements[unit.arrangement] === 'single' ? 0 : 1
  return (candidates.escCost[unit.esc] as number) + (candidates.packCost[2 * unit.pack + packs] as number)
}

type Choose = (a: number, b: number) => number

/** Written out field by field: objects of one shape are what makes the bounds quick. */
function extreme(a: Extreme, b: Extreme, least: Choose, most: Choose): Extreme {
  return {
    esc: extremeEsc(a.esc, b.esc, least, most),
    source: extremeSource(a.source, b.source, least, most),
    escMass: least(a.escMass, b.escMass),
  }
}

function extremeEsc(a: ExtremeEsc, b: ExtremeEsc, least: Choose, most: Choose): ExtremeEsc {
  return {
    resistance: least(a.resistance, b.resistance),
    resistanceTemperatureCoefficient: least(a.resistanceTemperatureCoefficient, b.resistanceTemperatureCoefficient),
    quiescentPower: least(a.quiescentPower, b.quiescentPower),
    proportionalLoss: least(a.proportionalLoss, b.proportionalLoss),
    switchingTime: least(a.switchingTime, b.switchingTime),
    switchingFrequency: least(a.switchingFrequency, b.switchingFrequency),
    freewheelDrop: least(a.freewheelDrop, b.freewheelDrop),
    deadTimeDrop: least(a.deadTimeDrop, b.deadTimeDrop),
    freewheelResistanceShare: least(a.freewheelResistanceShare, b.freewheelResistanceShare),
    currentLimit: most(a.currentLimit, b.currentLimit),
    electricalSpeedLimit: most(a.electricalSpeedLimit, b.electricalSpeedLimit),
  }
}

function extremeSource(a: ExtremeSource, b: ExtremeSource, least: Choose, most: Choose): ExtremeSource {
  return {
    cells: a.cells,
    cellVoltageShift: a.cellVoltageShift,
    cellResistance: least(a.cellResistance, b.cellResistance),
    leadResistance: least(a.leadResistance, b.leadResistance),
    mass: least(a.mass, b.mass),
    capacity: most(a.capacity, b.capacity),
    currentLimit: most(a.currentLimit, b.currentLimit),
    continuousCurrent: most(a.continuousCurrent, b.continuousCurrent),
  }
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
