// Units with the same cell count and timing, and a unit that is as good as the best of them in everything that thrust
// and speed depend on: least resistance, losses and mass, each taken from whichever has it. Speed and thrust fall with
// each of these, so what even that unit cannot reach, none of the group can.
import type { Esc } from '../esc/esc.js'
import type { Source } from '../pack/arrangement.js'
import type { PlanUnit } from './plan.js'
import type { Candidates } from './problem.js'

export interface UnitGroup {
  readonly cells: number
  /** rad */
  readonly timing: number
  /** Indices of the plan's units. */
  readonly units: readonly number[]
  readonly bestEsc: Esc
  readonly bestSource: Source
  /** Least mass of a speed controller with its receiver supply, kg. */
  readonly leastEscMass: number
}

/** Groups the units of a plan, in the order of their first members. */
export function groupUnits(units: readonly PlanUnit[], candidates: Candidates): UnitGroup[] {
  const groups = new Map<string, number[]>()
  units.forEach((unit, index) => {
    const key = `${unit.source.cells} ${candidates.escs[unit.esc]?.timings[unit.timing]}`
    const members = groups.get(key)
    if (members === undefined) groups.set(key, [index])
    else members.push(index)
  })
  return [...groups.values()].map((members) => groupOf(members, units, candidates))
}

function groupOf(members: readonly number[], units: readonly PlanUnit[], candidates: Candidates): UnitGroup {
  const chosen = members.map((index) => units[index] as PlanUnit)
  const escs = chosen.map((unit) => candidates.escs[unit.esc] as Esc)
  const [first] = chosen as [PlanUnit]
  const [esc] = escs as [Esc]
  return {
    cells: first.source.cells,
    timing: esc.timings[first.timing] as number,
    units: members,
    bestEsc: {
      ...esc,
      resistance: least(escs, (one) => one.resistance),
      resistanceTemperatureCoefficient: least(escs, (one) => one.resistanceTemperatureCoefficient),
      quiescentPower: least(escs, (one) => one.quiescentPower),
      proportionalLoss: least(escs, (one) => one.proportionalLoss),
      switchingTime: least(escs, (one) => one.switchingTime),
      switchingFrequency: least(escs, (one) => one.switchingFrequency),
      freewheelDrop: least(escs, (one) => one.freewheelDrop),
    },
    bestSource: {
      ...first.source,
      cellResistance: least(chosen, ({ source }) => source.cellResistance),
      leadResistance: least(chosen, ({ source }) => source.leadResistance),
      mass: least(chosen, ({ source }) => source.mass),
    },
    leastEscMass: least(chosen, (unit) => candidates.escMass[unit.esc] as number),
  }
}

function least<Entry>(entries: readonly Entry[], of: (entry: Entry) => number): number {
  return entries.reduce((smallest, entry) => Math.min(smallest, of(entry)), Number.POSITIVE_INFINITY)
}
