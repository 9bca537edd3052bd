// One setup explained: every operating point with its balances, loads, temperatures and limits, what top speed responds
// to, and the speed of the last pass. The same evaluator as the sweep's, told to be thorough.
import { packWindow } from '../airframe/balance.js'
import { ceilingAdvanceRatio } from '../fan/duct-flow.js'
import { stallSpeeds } from '../flight/stall.js'
import { emptyOperatingPoint, type OperatingPoint } from '../operating-point/operating-point.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import { ductAtFlow, solveStanding } from '../operating-point/standing.js'
import { chargeResistanceFactor, resistanceFactor } from '../pack/cell-resistance.js'
import { openCircuitVoltage } from '../pack/open-circuit-voltage.js'
import { tightestTurn } from '../structure/loads.js'
import { allowedLoadFactor, type MarginCriterion } from '../structure/reserve.js'
import { type SpeedLimit, speedMargin } from '../structure/speed-limits.js'
import type { Circumstances } from '../sweep/problem.js'
import { WARM_PACK_TEMPERATURE } from './assumed-state.js'
import { Evaluator, type Parts } from './evaluator.js'
import { HEADROOM_LIMITS, LIMIT_INDEX, LIMITS, type Limit } from './limits.js'
import { type PointDetail, pointDetail } from './point-detail.js'
import { type LevelFlight, type TopSpeedResponse, topSpeedResponse, topSpeedWith } from './sensitivity.js'

export interface SetupDetail {
  readonly mass: number
  readonly ballast: number
  readonly packStation: number
  /** Where the packs' centre may sit; null: it takes more ballast than the airframe does. */
  readonly packWindow: readonly [from: number, to: number] | null
  /** In series, over all packs. */
  readonly cells: number
  readonly stallSpeed: number
  readonly stallSpeedFlaps: number
  readonly liftOffSpeed: number
  readonly landingSpeed: number
  readonly thrustToWeight: number
  /** m; null for a launched airframe */
  readonly takeOffRoll: number | null
  readonly standing: PointDetail
  readonly topFull: PointDetail
  readonly top: PointDetail
  /** At the landing reserve; null when the pack no longer carries level flight at this duty. */
  readonly topLast: PointDetail | null
  readonly cruise: PointDetail
  readonly entrySpeed: number
  readonly inRunSpeed: number
  /** Bottom of the dive before the run, at the quoted charge. */
  readonly diveSpeed: number
  /** Fastest with a full pack, level or out of the dive. */
  readonly fastest: number
  /** True air speeds the structure allows, by criterion. */
  readonly speedLimits: readonly SpeedLimit[]
  /** Tightest level turn at top speed that the wing allows, m; Infinity when it cannot even carry 1. */
  readonly turnRadius: number
  /** Speed at which the efflux is no faster than the aircraft, at this throttle and the quoted charge. */
  readonly effluxCeiling: number
  readonly flightTime: number
  readonly meanCurrent: number
  /** Charge of the wanted flight or of what the pack gives, whichever is less, A·s. */
  readonly chargeUsed: number
  /** K */
  readonly temperatures: {
    readonly winding: number
    readonly case: number
    readonly esc: number
    readonly pack: number
  }
  readonly margin: number
  readonly marginBinds: MarginCriterion
  readonly margins: readonly { readonly criterion: MarginCriterion; readonly margin: number }[]
  /** Least share of a current, rotation or temperature rating left. */
  readonly headroom: number
  readonly limits: readonly { readonly limit: Limit; readonly used: number; readonly allowed: number }[]
  readonly response: TopSpeedResponse
  /** Level top speed at the quoted charge, ready to be solved again with something changed. */
  readonly level: LevelFlight
  /** The air it flies in: kg/m³, Pa·s. */
  readonly air: { readonly density: number; readonly viscosity: number }
  readonly cost: number
  /** The speed that is compared. */
  readonly speed: number
}

/** Why a setup has no detail: the limit behind which nothing can be worked out. */
export interface NoDetail {
  readonly refused: Limit
}

/** Works one setup through, limits broken or not. */
export function setupDetail(circumstances: Circumstances, parts: Parts, duty: number): SetupDetail | NoDetail {
  const evaluator = new Evaluator(circumstances, { thorough: true })
  if (!evaluator.assemble(parts) || !evaluator.evaluate(duty)) {
    return { refused: LIMITS[evaluator.limits.stopper] as Limit }
  }
  const { profile, airTemperature, soundSpeed, airframe } = circumstances
  const detail = (point: OperatingPoint, train: PowerTrain): PointDetail =>
    pointDetail(point, train, parts.node.duct, soundSpeed, point.speed > 0 ? evaluator.drag(point.speed) : 0)
  const margins = marginsOf(evaluator)
  const level = levelFlight(evaluator, parts, circumstances)
  const stalls = stallSpeeds(airframe, evaluator.weight, circumstances.density)
  const carried = allowedLoadFactor(airframe.rootMomentUltimate, evaluator.weight, airframe.span)
  const binds = margins.reduce((least, next) => (next.margin < least.margin ? next : least))
  return {
    mass: evaluator.mass,
    ballast: evaluator.balance.ballast,
    packStation: evaluator.balance.packStation,
    packWindow: packWindow(airframe, evaluator.balance, evaluator.mass, parts.source.mass),
    cells: parts.source.cells,
    stallSpeed: evaluator.stall,
    stallSpeedFlaps: stalls.flaps,
    liftOffSpeed: stalls.liftOff,
    landingSpeed: stalls.landing,
    thrustToWeight: evaluator.stand.thrust / evaluator.weight,
    takeOffRoll: airframe.launch === 'wheels' ? evaluator.roll : null,
    standing: detail(evaluator.stand, evaluator.full),
    topFull: detail(evaluator.topFull, evaluator.full),
    top: detail(evaluator.top, evaluator.quoted),
    topLast: lastPass(evaluator, parts, circumstances),
    cruise: detail(evaluator.cruise, evaluator.cruising),
    entrySpeed: evaluator.entrySpeed,
    inRunSpeed: evaluator.inRunSpeed,
    diveSpeed: evaluator.diveSpeed,
    fastest: evaluator.fastest,
    speedLimits: evaluator.speedLimits,
    turnRadius: carried >= 1 ? tightestTurn(evaluator.top.speed, carried) : Number.POSITIVE_INFINITY,
    effluxCeiling: effluxCeiling(evaluator, parts, circumstances),
    flightTime: evaluator.time,
    meanCurrent: evaluator.meanCurrent,
    chargeUsed: evaluator.meanCurrent * Math.min(profile.flightTime, evaluator.time),
    temperatures: {
      winding: airTemperature + evaluator.windingPeaks.inner,
      case: airTemperature + evaluator.windingPeaks.outer,
      esc: airTemperature + evaluator.escPeaks.inner,
      pack: evaluator.packTemperature,
    },
    margin: evaluator.margin,
    marginBinds: binds.criterion,
    margins,
    headroom: 1 - Math.max(...HEADROOM_LIMITS.map((limit) => evaluator.limits.used[LIMIT_INDEX[limit]] as number)),
    limits: LIMITS.map((limit, i) => ({
      limit,
      used: evaluator.limits.used[i] as number,
      allowed: evaluator.limits.allowed[i] as number,
    })),
    response: topSpeedResponse(level),
    level,
    air: { density: circumstances.density, viscosity: circumstances.viscosity },
    cost: evaluator.cost,
    speed: evaluator.speed,
  }
}

/**
 * Highest duty in [from, 1] at which no limit is broken, to 1e-4, and the limit that stops a higher one; null when `from`
 * itself breaks one. Limits tighten with duty above a feasible one, so bisection finds the edge next to `from`.
 */
export function highestDuty(
  circumstances: Circumstances,
  parts: Parts,
  from: number,
): { readonly duty: number; readonly stopper: Limit | null } | null {
  const evaluator = new Evaluator(circumstances)
  const stopper = (duty: number): Limit | null => {
    const held = evaluator.assemble(parts) && evaluator.evaluate(duty)
    return held && evaluator.limits.broken < 0 ? null : (LIMITS[evaluator.limits.broken] as Limit)
  }
  if (stopper(from) !== null) return null
  let blocked = stopper(1)
  if (blocked === null) return { duty: 1, stopper: null }
  let low = from
  let high = 1
  while (high - low > 1e-4) {
    const middle = 0.5 * (low + high)
    const limit = stopper(middle)
    if (limit === null) low = middle
    else {
      high = middle
      blocked = limit
    }
  }
  return { duty: low, stopper: blocked }
}

/**
 * Lowest duty at which the compared speed reaches a target, to 1e-4; null when full throttle does not reach it.
 * Speed rises with duty.
 */
export function dutyForSpeed(circumstances: Circumstances, parts: Parts, target: number): number | null {
  const evaluator = new Evaluator(circumstances, { thorough: true })
  const reaches = (duty: number): boolean =>
    evaluator.assemble(parts) && evaluator.evaluate(duty) && evaluator.speed >= target
  if (!reaches(1)) return null
  let low = 0.2
  let high = 1
  while (high - low > 1e-4) {
    const middle = 0.5 * (low + high)
    if (reaches(middle)) high = middle
    else low = middle
  }
  return high
}

/** The setup at level top speed, at the quoted charge. */
function levelFlight(evaluator: Evaluator, parts: Parts, circumstances: Circumstances): LevelFlight {
  return {
    duct: parts.node.duct,
    density: circumstances.density,
    parasite: evaluator.parasite,
    induced: evaluator.induced,
    train: evaluator.quoted,
    leastSpeed: evaluator.stall,
    top: evaluator.top,
  }
}

/** Where thrust vanishes the flow coefficient is known, so only the blade speed is left to be found. */
function effluxCeiling(evaluator: Evaluator, parts: Parts, { density }: Circumstances): number {
  const { duct } = parts.node
  const j = ceilingAdvanceRatio(duct)
  const point = emptyOperatingPoint()
  const outcome = solveStanding(ductAtFlow(duct, density, duct.nozzleRatio * j), evaluator.quoted, point)
  return outcome === 'ok' ? j * point.bladeSpeed : Number.NaN
}

/** Every criterion that the airframe has, in the order of testing. */
function marginsOf(evaluator: Evaluator): { readonly criterion: MarginCriterion; readonly margin: number }[] {
  return [
    ...evaluator.speedLimits.map(({ criterion, speed }) => ({
      criterion,
      margin: speedMargin(evaluator.fastest, speed),
    })),
    { criterion: 'wing-bending', margin: 1 - evaluator.bendingShare },
    { criterion: 'fan-mount', margin: 1 - evaluator.mountShare },
  ]
}

function lastPass(evaluator: Evaluator, parts: Parts, circumstances: Circumstances): PointDetail | null {
  const { source } = parts
  const { reserve } = circumstances.profile
  const cells = source.cellResistance * resistanceFactor(WARM_PACK_TEMPERATURE) * chargeResistanceFactor(reserve)
  const train = {
    ...evaluator.quoted,
    openVoltage: source.cells * (openCircuitVoltage(reserve) + source.cellVoltageShift),
    sourceResistance: cells + source.leadResistance,
  }
  const point = topSpeedWith({ ...levelFlight(evaluator, parts, circumstances), train }, {})
  if (point === null) return null
  return pointDetail(point, train, parts.node.duct, circumstances.soundSpeed, evaluator.drag(point.speed))
}
