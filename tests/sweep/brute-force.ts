// The answer of a sweep worked out a second way: every part with every other, fit rules, prices and masses written from
// the catalogue anew, every figure from the thorough evaluator, and the front by comparing every pair.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import { arrange } from '@ductwright/models/pack/arrangement'
import type { Pack } from '@ductwright/models/pack/pack'
import type { Prepared } from '@ductwright/pipeline/prepare'

export interface BruteSetup {
  readonly key: string
  readonly cost: number
  readonly bought: readonly string[]
  readonly cells: readonly number[]
  readonly tie: readonly number[]
  readonly ids: readonly string[]
}

export interface BruteAnswer {
  readonly raw: number
  readonly compatible: number
  readonly feasible: number
  readonly front: readonly BruteSetup[]
}

type Owned = ReadonlyMap<string, number>

export function bruteForce(prepared: Prepared, owned: Owned = new Map()): BruteAnswer {
  const { catalogue, problem, request } = prepared
  const { circumstances } = problem
  const { airframe } = circumstances
  const counts = { raw: 0, compatible: 0, feasible: 0 }
  const found: BruteSetup[] = []
  const wanted = catalogue.treatments.filter(({ kind }) => request.treatments.includes(kind))
  const work = wanted.reduce((sum, { price }) => sum + Math.round(100 * price), 0) / 100
  for (const fan of catalogue.fans)
    for (const motor of catalogue.motors)
      for (const ratio of request.sweep.nozzleRatios)
        for (const esc of catalogue.escs)
          for (const timing of esc.part.timings)
            for (const pack of catalogue.packs)
              for (const arrangement of request.sweep.arrangements)
                for (const duty of request.sweep.duties) {
                  counts.raw++
                  const packs = arrangement === 'single' ? 1 : 2
                  const cells = pack.part.cells * (arrangement === 'series' ? 2 : 1)
                  const node = fanNode(circumstances, fan.part, ratio)
                  const plugs = esc.part.connector === 'open' || esc.part.connector === pack.part.connector
                  const fits =
                    fanFits(fan.part, ratio, airframe) &&
                    standingDeceleration(node) >= 0.69 &&
                    motorFits(fan.part, motor.part) &&
                    cells >= esc.part.cellsMin &&
                    cells <= Math.min(esc.part.cellsMax, motor.part.cellsMax) &&
                    plugs &&
                    packsFit(pack.part, packs, airframe)
                  if (!fits) continue
                  counts.compatible++
                  const shopping = shoppingOf(
                    catalogue,
                    owned,
                    fan.part.id,
                    motor.part.id,
                    esc.part.id,
                    pack.part.id,
                    packs,
                  )
                  const set = catalogue.sets.find(
                    (each) => each.fanId === fan.part.id && each.motorId === motor.part.id,
                  )
                  const supply = esc.part.receiverSupplyCurrent > 0 ? 0 : catalogue.receiverSupply.mass
                  const parts = {
                    node,
                    motor: motor.part,
                    esc: esc.part,
                    timing,
                    source: arrange(pack.part, arrangement),
                    pairMass: set?.mass ?? fan.part.mass + motor.part.mass,
                    escMass: esc.part.mass + supply,
                    cost: shopping.cost + work,
                  }
                  const detail = setupDetail(circumstances, parts, duty)
                  if ('refused' in detail || detail.limits.some(({ used, allowed }) => !(used <= allowed))) continue
                  counts.feasible++
                  const degrees = Number(((timing * 180) / Math.PI).toPrecision(6))
                  const ids = [fan.part.id, motor.part.id, esc.part.id, pack.part.id]
                  const key = [...ids, degrees, arrangement, ratio, duty].join(' ')
                  found.push({
                    key,
                    ids,
                    bought: [...shopping.bought, ...wanted.map(({ kind }) => kind)].sort(),
                    cost: parts.cost,
                    ...compared(detail, prepared),
                  })
                }
  const front = found.filter((setup) => !found.some((other) => beats(other, setup)))
  return { ...counts, front }
}

function fanFits(fan: Fan, ratio: number, airframe: Prepared['problem']['circumstances']['airframe']): boolean {
  const exit = Math.sqrt(ratio * (fan.tipDiameter ** 2 - fan.hubDiameter ** 2))
  const size = fan.tipDiameter >= airframe.fanDiameterMin && fan.tipDiameter <= airframe.fanDiameterMax
  return size && exit >= airframe.exitDiameterMin && exit <= airframe.exitDiameterMax
}

function motorFits(fan: Fan, motor: Motor): boolean {
  return motor.canDiameter <= fan.motorCanLimit + 1e-9 && Math.abs(motor.shaftDiameter - fan.shaftBore) <= 2e-5
}

/** Relative speed behind the rotor over that before it, standing: the velocity triangle at the mean radius. */
function standingDeceleration({ standing }: ReturnType<typeof fanNode>): number {
  const { phi, duct } = standing
  const { fan } = duct
  const efficiency = Math.max(0.2, fan.etaPeak * (1 - fan.kappa * ((phi - fan.phiPeak) / fan.phiPeak) ** 2))
  const work = (fan.psi0 - fan.psi1 * phi) / efficiency
  return Math.hypot(phi, 1 - work) / Math.hypot(phi, 1)
}

/** Two packs end to end, side by side or on top of each other; each lying on either side. */
function packsFit(pack: Pack, count: number, airframe: Prepared['problem']['circumstances']['airframe']): boolean {
  const stacks =
    count === 1
      ? [[1, 1, 1]]
      : [
          [2, 1, 1],
          [1, 2, 1],
          [1, 1, 2],
        ]
  return stacks.some(([l = 1, w = 1, h = 1]) => {
    const [length, width, height] = [l * pack.length, w * pack.width, h * pack.height]
    const flat = width <= airframe.bayWidth && height <= airframe.bayHeight
    const onEdge = height <= airframe.bayWidth && width <= airframe.bayHeight
    return length <= airframe.bayLength && (flat || onEdge)
  })
}

/** What must be paid, in whole cents, and the ids bought. */
function shoppingOf(
  catalogue: Catalogue,
  owned: Owned,
  fanId: string,
  motorId: string,
  escId: string,
  packId: string,
  packs: number,
): { cost: number; bought: string[] } {
  const priceOf = (list: readonly { readonly part: { readonly id: string }; readonly price: number }[], id: string) =>
    Math.round(100 * (list.find(({ part }) => part.id === id)?.price ?? Number.NaN))
  const missing = (id: string, need = 1) => Math.max(0, need - (owned.get(id) ?? 0))
  const apart = [
    ...(missing(fanId) > 0 ? [{ id: fanId, cents: priceOf(catalogue.fans, fanId) }] : []),
    ...(missing(motorId) > 0 ? [{ id: motorId, cents: priceOf(catalogue.motors, motorId) }] : []),
  ]
  const set = catalogue.sets.find((each) => each.fanId === fanId && each.motorId === motorId)
  const apartCents = apart.reduce((total, { cents }) => total + cents, 0)
  const withSet = set !== undefined && Math.round(100 * set.price) < apartCents
  const lines = withSet ? [{ id: set.id, cents: Math.round(100 * set.price) }] : apart
  if (missing(escId) > 0) lines.push({ id: escId, cents: priceOf(catalogue.escs, escId) })
  const esc = catalogue.escs.find(({ part }) => part.id === escId)
  const supply = catalogue.receiverSupply
  if (esc?.part.receiverSupplyCurrent === 0 && missing(supply.id) > 0) {
    lines.push({ id: supply.id, cents: Math.round(100 * supply.price) })
  }
  const need = missing(packId, packs)
  if (need > 0) lines.push({ id: packId, cents: need * priceOf(catalogue.packs, packId) })
  return { cost: lines.reduce((total, { cents }) => total + cents, 0) / 100, bought: lines.map(({ id }) => id).sort() }
}

/** Rounded and capped values, less is better; and the unrounded ones in the order of the tie rule. */
function compared(detail: SetupDetail, prepared: Prepared): Pick<BruteSetup, 'cells' | 'tie'> {
  const { resolution, wholeFront } = prepared.request.sweep
  const { wanted, target } = prepared.request
  const time = wholeFront ? detail.flightTime : Math.min(detail.flightTime, wanted.flightTime)
  const margin = wholeFront ? detail.margin : Math.min(detail.margin, wanted.margin)
  const round = (value: number, step: number) => (step > 0 ? Math.round(value / step) : value)
  // In steps from what is wanted; short of it by however little is a step short of it.
  const from = (value: number, step: number, goal: number | null) => {
    if (step <= 0 || goal === null) return round(value, step)
    return value >= goal ? round(value - goal, step) : Math.min(-1, round(value - goal, step))
  }
  return {
    cells: [
      -from(detail.speed, resolution.speed, target.speed),
      -from(time, resolution.time, wholeFront ? null : wanted.flightTime),
      round(detail.cost, resolution.cost),
      -from(margin, resolution.margin, wholeFront ? null : wanted.margin),
    ],
    tie: [detail.cost, -detail.speed, -detail.flightTime, -detail.margin],
  }
}

function beats(a: BruteSetup, b: BruteSetup): boolean {
  if (a === b || a.cells.some((cell, i) => cell > (b.cells[i] as number))) return false
  if (a.cells.some((cell, i) => cell < (b.cells[i] as number))) return true
  const difference = a.tie.map((value, i) => value - (b.tie[i] as number)).find((each) => each !== 0)
  // Setups equal in every unrounded value would both stay; these catalogues have none.
  return difference !== undefined && difference < 0
}
