// The plan of a sweep: every fan × motor × nozzle that fits (a node) and every speed controller × timing × pack ×
// arrangement that fits (a unit), each with what depends on it alone, and the count of what does not fit, by reason.
// A combination is (node, unit, duty); see combination-number.ts.
import type { FanNode, Parts } from '../evaluation/evaluator.js'
import { fanNode } from '../evaluation/fan-node.js'
import { exitDiameter } from '../fan/annulus.js'
import { DE_HALLER_REFUSAL, standingDeHaller } from '../fan/diffusion.js'
import type { Fan } from '../fan/fan.js'
import { arrange, fitsBay, type Source } from '../pack/arrangement.js'
import type { SweepProblem } from './problem.js'
import { UnitBoxes } from './unit-boxes.js'
import { groupUnits, type UnitGroup } from './unit-groups.js'
import { treeWeights, unitCost } from './unit-tree.js'

/** Why parts do not go together, in the order of testing. */
export const MISFITS = [
  'fan-size',
  'nozzle-exit',
  'blade-stall',
  'motor-bore',
  'motor-shaft',
  'esc-cells',
  'connector',
  'battery-bay',
  'motor-cells',
] as const
export type Misfit = (typeof MISFITS)[number]

export interface PlanNode {
  readonly fan: number
  readonly motor: number
  readonly nozzle: number
  readonly state: FanNode
}

export interface PlanUnit {
  readonly esc: number
  /** Index in the speed controller's own list. */
  readonly timing: number
  readonly pack: number
  readonly arrangement: number
  readonly source: Source
}

export interface Plan {
  readonly nodes: readonly PlanNode[]
  readonly units: readonly PlanUnit[]
  readonly groups: readonly UnitGroup[]
  /** Boxes of all groups' trees. */
  readonly boxes: UnitBoxes
  /** Nodes in the order they are searched: neighbours far apart, so that every stretch of it is a fair sample. */
  readonly order: readonly number[]
  /** Units each node's motor can take the cells of. */
  readonly unitsOfNode: readonly number[]
  readonly raw: number
  readonly compatible: number
  /** Combinations removed by each misfit, in the order of `MISFITS`. */
  readonly misfits: readonly number[]
}

/** Shafts this much apart still go together, m. */
const SHAFT_TOLERANCE = 2e-5

export function planSweep(problem: SweepProblem): Plan {
  const { candidates } = problem
  const misfits = new Array<number>(MISFITS.length).fill(0)
  const duties = candidates.duties.length
  const rawUnits =
    candidates.escs.reduce((sum, esc) => sum + esc.timings.length, 0) *
    candidates.packs.length *
    candidates.arrangements.length
  const rawNodes = candidates.fans.length * candidates.motors.length * candidates.nozzleRatios.length

  const nodes = planNodes(
    problem,
    (fan) => fitsDuct(fan, problem),
    (misfit, count) => add(misfits, misfit, count * rawUnits * duties),
  )
  const units = planUnits(problem, (misfit, count) => add(misfits, misfit, count * nodes.length * duties))

  const unitsOfNode = countUnits(problem, nodes, units)
  const fitting = unitsOfNode.reduce((sum, count) => sum + count, 0)
  add(misfits, 'motor-cells', (nodes.length * units.length - fitting) * duties)
  const raw = rawNodes * rawUnits * duties
  if (!Number.isSafeInteger(raw)) throw new RangeError(`a sweep may have at most 2^53 combinations, got ${raw}`)
  const boxes = new UnitBoxes(2 * units.length)
  return {
    nodes,
    units,
    groups: groupUnits(units, candidates, treeWeights(problem), boxes),
    boxes,
    order: spreadOrder(nodes.length),
    unitsOfNode,
    raw,
    compatible: fitting * duties,
    misfits,
  }
}

/** The plan of what is left out for the size of its fan alone: the same units, and nodes of the other fans. */
export function planOtherFans(problem: SweepProblem, plan: Plan): Plan {
  const nodes = planNodes(
    problem,
    (fan) => !fitsDuct(fan, problem),
    () => {},
  )
  const unitsOfNode = countUnits(problem, nodes, plan.units)
  return { ...plan, nodes, unitsOfNode, order: spreadOrder(nodes.length) }
}

/** Units each node's motor can take the cells of. */
function countUnits({ candidates }: SweepProblem, nodes: readonly PlanNode[], units: readonly PlanUnit[]): number[] {
  const unitsByCells = new Map<number, number>()
  for (const unit of units) unitsByCells.set(unit.source.cells, (unitsByCells.get(unit.source.cells) ?? 0) + 1)
  return nodes.map((node) => {
    const limit = candidates.motors[node.motor]?.cellsMax ?? 0
    let count = 0
    for (const [cells, n] of unitsByCells) if (cells <= limit) count += n
    return count
  })
}

function fitsDuct({ tipDiameter }: Fan, { circumstances }: SweepProblem): boolean {
  const { fanDiameterMin, fanDiameterMax } = circumstances.airframe
  return tipDiameter >= fanDiameterMin && tipDiameter <= fanDiameterMax
}

/** 0…count − 1 by steps of about the golden section that share no factor with the count. */
function spreadOrder(count: number): number[] {
  let step = Math.max(1, Math.round(0.618034 * count))
  while (commonDivisor(step, count) > 1) step++
  return Array.from({ length: count }, (_, place) => (place * step) % count)
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b)
}

/** Parts of a node with a unit, priced and weighed. */
export function partsOf(problem: SweepProblem, node: PlanNode, unit: PlanUnit): Parts {
  const { candidates } = problem
  const pair = node.fan * candidates.motors.length + node.motor
  const esc = candidates.escs[unit.esc]
  const motor = candidates.motors[node.motor]
  if (esc === undefined || motor === undefined) throw new RangeError('a plan must be used with its own problem')
  return {
    node: node.state,
    motor,
    esc,
    timing: esc.timings[unit.timing] as number,
    source: unit.source,
    pairMass: candidates.pairMass[pair] as number,
    escMass: candidates.escMass[unit.esc] as number,
    cost: (candidates.pairCost[pair] as number) + unitCost(unit, candidates) + candidates.fixedCost,
  }
}

function planNodes(
  problem: SweepProblem,
  takes: (fan: Fan) => boolean,
  misfit: (reason: Misfit, count: number) => void,
): PlanNode[] {
  const { circumstances, candidates } = problem
  const { airframe } = circumstances
  const nodes: PlanNode[] = []
  candidates.fans.forEach((fan, fanIndex) => {
    if (!takes(fan)) {
      misfit('fan-size', candidates.motors.length * candidates.nozzleRatios.length)
      return
    }
    const states = candidates.nozzleRatios.map((ratio): FanNode | Misfit => {
      const exit = exitDiameter(fan, ratio)
      if (!(exit >= airframe.exitDiameterMin && exit <= airframe.exitDiameterMax)) return 'nozzle-exit'
      const state = fanNode(circumstances, fan, ratio)
      return standingDeHaller(state.standing.duct) < DE_HALLER_REFUSAL ? 'blade-stall' : state
    })
    candidates.motors.forEach((motor, motorIndex) => {
      const fits = motor.canDiameter <= fan.motorCanLimit + 1e-9
      const shaft = Math.abs(motor.shaftDiameter - fan.shaftBore) <= SHAFT_TOLERANCE
      states.forEach((state, nozzle) => {
        if (typeof state === 'string') misfit(state, 1)
        else if (!fits) misfit('motor-bore', 1)
        else if (!shaft) misfit('motor-shaft', 1)
        else nodes.push({ fan: fanIndex, motor: motorIndex, nozzle, state })
      })
    })
  })
  return nodes
}

function planUnits(problem: SweepProblem, misfit: (reason: Misfit, count: number) => void): PlanUnit[] {
  const { candidates, circumstances } = problem
  const { bayLength: length, bayWidth: width, bayHeight: height } = circumstances.airframe
  const sources = candidates.packs.map((pack) =>
    candidates.arrangements.map((arrangement) => ({
      source: arrange(pack, arrangement),
      fits: fitsBay(pack, arrangement, { length, width, height }),
    })),
  )
  const units: PlanUnit[] = []
  candidates.escs.forEach((esc, escIndex) => {
    esc.timings.forEach((_, timing) => {
      candidates.packs.forEach((pack, packIndex) => {
        const plugs = esc.connector === 'open' || esc.connector === pack.connector
        sources[packIndex]?.forEach(({ source, fits }, arrangement) => {
          if (source.cells < esc.cellsMin || source.cells > esc.cellsMax) misfit('esc-cells', 1)
          else if (!plugs) misfit('connector', 1)
          else if (!fits) misfit('battery-bay', 1)
          else units.push({ esc: escIndex, timing, pack: packIndex, arrangement, source })
        })
      })
    })
  })
  return units
}

function add(counts: number[], misfit: Misfit, count: number): void {
  const index = MISFITS.indexOf(misfit)
  counts[index] = (counts[index] ?? 0) + count
}
