// What is still so of a sweep after its catalogue changed: nodes and units whose parts are deeply equal and weigh the same
// stand, all others are gone or new. A combination of a standing node and a standing unit works out as before to the last
// bit, but for the cost of its node, which may have risen or fallen.
// Candidates come sorted by id, and nodes and units count through them part by part. So of two that stand the one with the
// lower number before has the lower number after: the tie rule, which ends with numbers, decides between them as before.
import type { Plan, PlanNode, PlanUnit } from './plan.js'
import type { Candidates, SweepProblem } from './problem.js'
import { unitCost } from './unit-tree.js'

export interface Sweep {
  readonly problem: SweepProblem
  readonly plan: Plan
}

export interface SweepChange {
  /** New place of each old node and unit whose parts have the same ids, −1 where there is none. */
  readonly nodeHeirs: Int32Array
  readonly unitHeirs: Int32Array
  /** The same, but −1 as well where a part or a mass is another, and for units also where the cost is. */
  readonly nodes: Int32Array
  readonly units: Int32Array
  /** Cost of each standing node against before: −1 less, 0 the same, 1 more. */
  readonly nodeCosts: Int8Array
  /** Places of what is new or stands no more. */
  readonly newNodes: readonly number[]
  readonly newUnits: readonly number[]
}

/** Lists that a combination takes one of each from; the rest of a question is the same or all must be searched. */
const LISTS = ['fans', 'motors', 'escs', 'packs'] as const
const SETTINGS = ['arrangements', 'nozzleRatios', 'duties', 'fixedCost'] as const

/** Why two sweeps ask too different a question for anything to be taken over, null when they do not. */
export function unlikeness(before: SweepProblem, after: SweepProblem): string | null {
  if (!isSame(before.circumstances, after.circumstances)) return 'the circumstances are others'
  if (!isSame(before.comparison, after.comparison)) return 'something else is compared'
  for (const setting of SETTINGS)
    if (!isSame(before.candidates[setting], after.candidates[setting])) return `${setting} are others`
  for (const list of LISTS)
    for (const { candidates } of [before, after])
      if (!candidates[list].every(({ id }, i, all) => i === 0 || (all[i - 1] as { id: string }).id < id))
        return `${list} are not sorted by id`
  return null
}

/** Compares two sweeps that `unlikeness` has nothing to say of. */
export function sweepChange(before: Sweep, after: Sweep): SweepChange {
  const [was, is] = [before.problem.candidates, after.problem.candidates]
  const [fans, motors] = [new PartMap(was.fans, is.fans), new PartMap(was.motors, is.motors)]
  const [escs, packs] = [new PartMap(was.escs, is.escs), new PartMap(was.packs, is.packs)]
  const { motors: ofMotors, packs: ofPacks, arrangements, nozzleRatios } = is
  const timings = Math.max(0, ...[...was.escs, ...is.escs].map(({ timings }) => timings.length))
  const nodeKey = (fan: number, motor: number, nozzle: number) =>
    (fan * ofMotors.length + motor) * nozzleRatios.length + nozzle
  const unitKey = (esc: number, timing: number, pack: number, arrangement: number) =>
    ((esc * timings + timing) * ofPacks.length + pack) * arrangements.length + arrangement
  const nodeHeirs = heirsOf(
    before.plan.nodes.map(({ fan, motor, nozzle }) => {
      const [fanHeir, motorHeir] = [fans.heirOf(fan), motors.heirOf(motor)]
      return fanHeir < 0 || motorHeir < 0 ? -1 : nodeKey(fanHeir, motorHeir, nozzle)
    }),
    after.plan.nodes.map(({ fan, motor, nozzle }) => nodeKey(fan, motor, nozzle)),
  )
  const unitHeirs = heirsOf(
    before.plan.units.map(({ esc, timing, pack, arrangement }) => {
      const [escHeir, packHeir] = [escs.heirOf(esc), packs.heirOf(pack)]
      return escHeir < 0 || packHeir < 0 ? -1 : unitKey(escHeir, timing, packHeir, arrangement)
    }),
    after.plan.units.map(({ esc, timing, pack, arrangement }) => unitKey(esc, timing, pack, arrangement)),
  )
  const nodeCosts = new Int8Array(nodeHeirs.length)
  const nodes = standing(nodeHeirs, (node, heir) => {
    const [old, now] = [before.plan.nodes[node] as PlanNode, after.plan.nodes[heir] as PlanNode]
    const [oldPair, pair] = [pairOf(old, was), pairOf(now, is)]
    nodeCosts[node] = Math.sign((is.pairCost[pair] as number) - (was.pairCost[oldPair] as number))
    return fans.stands(old.fan) && motors.stands(old.motor) && was.pairMass[oldPair] === is.pairMass[pair]
  })
  const units = standing(unitHeirs, (unit, heir) => {
    const [old, now] = [before.plan.units[unit] as PlanUnit, after.plan.units[heir] as PlanUnit]
    if (!(escs.stands(old.esc) && packs.stands(old.pack))) return false
    return was.escMass[old.esc] === is.escMass[now.esc] && unitCost(old, was) === unitCost(now, is)
  })
  return {
    nodeHeirs,
    unitHeirs,
    nodes,
    units,
    nodeCosts,
    newNodes: missing(nodes, after.plan.nodes.length),
    newUnits: missing(units, after.plan.units.length),
  }
}

/** The heirs that stand. */
function standing(heirs: Int32Array, stands: (place: number, heir: number) => boolean): Int32Array {
  return heirs.map((heir, place) => (heir >= 0 && stands(place, heir) ? heir : -1))
}

function pairOf({ fan, motor }: PlanNode, candidates: Candidates): number {
  return fan * candidates.motors.length + motor
}

/** Where the parts of a list are in another, by id, and whether they are the same there. */
class PartMap {
  readonly #heirs: readonly number[]
  readonly #stands: readonly boolean[]

  constructor(was: readonly { readonly id: string }[], is: readonly { readonly id: string }[]) {
    const places = new Map(is.map(({ id }, place) => [id, place]))
    const heirs = was.map(({ id }) => places.get(id) ?? -1)
    this.#heirs = heirs
    this.#stands = was.map((part, i) => isSame(part, is[heirs[i] as number]))
  }

  /** −1: gone */
  heirOf(part: number): number {
    return this.#heirs[part] as number
  }

  stands(part: number): boolean {
    return this.#stands[part] as boolean
  }
}

/** Place of each key among others; both lists ascend, but for keys of what has a part that is gone (−1), which have none. */
function heirsOf(keys: readonly number[], others: readonly number[]): Int32Array {
  const heirs = new Int32Array(keys.length).fill(-1)
  let place = 0
  for (let i = 0; i < keys.length; i++) {
    const key = keys[i] as number
    if (key < 0) continue
    while (place < others.length && (others[place] as number) < key) place++
    if (others[place] === key) heirs[i] = place
  }
  return heirs
}

/** Places below `count` that nothing in a map leads to. */
function missing(map: Int32Array, count: number): number[] {
  const met = new Uint8Array(count)
  for (let i = 0; i < map.length; i++) if ((map[i] as number) >= 0) met[map[i] as number] = 1
  const places: number[] = []
  for (let place = 0; place < count; place++) if (met[place] === 0) places.push(place)
  return places
}

/** Deeply equal plain data; infinities are equal to themselves, which JSON does not know. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false
  const [keys, others] = [Object.keys(a), Object.keys(b)]
  return (
    keys.length === others.length &&
    keys.every((key) => Object.hasOwn(b, key) && isSame(a[key as keyof typeof a], b[key as keyof typeof b]))
  )
}
