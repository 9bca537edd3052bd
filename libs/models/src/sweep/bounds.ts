// What no setup of a box can better: a node (fan, motor, nozzle) with all units between two extremes, at a range of duties.
// Each term of each objective and limit is bounded at its own corner and the terms are composed, because no one corner is
// best for all: speed at least resistance, losses and mass and the highest duty; currents, rotation, thrust on the mount and
// the speed that loads the structure at most resistance, losses and mass and the lowest duty; full-throttle and cruise
// current apart. What rises with what is stated beside each bound and tested on the real models (tests/sweep/bounds).
// At one cell count, timing and duty: more resistance, losses or mass never raise speed, thrust or blade speed; more
// resistance or losses never raise motor current, level above the speed of least drag; more mass or drag never lowers the
// current of level flight. With duty all of these rise, but bus current eases where it reaches 1.
import { STANDARD_GRAVITY } from '../constants.js'
import { CRUISE_STALL_FACTOR, LEAST_SPEED_FACTOR, SHORT_RATING_TIME } from '../evaluation/assumed-state.js'
import type { LimitJudge } from '../evaluation/limit-judge.js'
import { LIMIT_INDEX as AT, TIP_MACH_LIMIT } from '../evaluation/limits.js'
import { flightTime, meanCurrent } from '../flight/flight-time.js'
import { stallSpeed } from '../flight/take-off.js'
import type { Motor } from '../motor/motor.js'
import { emptyDemand, lacks, solveAtSpeed, solveDemand } from '../operating-point/at-speed.js'
import { inducedDragFactor, solveLevel } from '../operating-point/level.js'
import { emptyOperatingPoint } from '../operating-point/operating-point.js'
import { copyTrain, emptyPowerTrain } from '../operating-point/power-train.js'
import { solveStanding } from '../operating-point/standing.js'
import { allowedLoadFactor, allowedMountLoad } from '../structure/reserve.js'
import { speedLimits } from '../structure/speed-limits.js'
import { leastBusCurrent, levelStart, mostBallast } from './bound-terms.js'
import { BoxTrains } from './box-trains.js'
import { ComparedBound, type Resisting } from './compared-bound.js'
import type { PlanNode } from './plan.js'
import type { SweepProblem } from './problem.js'
import type { UnitBoxes } from './unit-boxes.js'

/** Wider than the solvers' tolerance: a bound this close to what it bounds proves nothing. */
const SLACK = 1e-9
/** More than any speed (m/s) or time (s): nothing is known. */
const NO_BOUND = 1e6

export class Bounds {
  /** Objectives that no setup of the box betters, once bounded. */
  speed = 0
  time = 0
  cost = 0
  margin = 0

  readonly #problem: SweepProblem
  readonly #boxes: UnitBoxes
  readonly #trains: BoxTrains
  /** What is allowed, and how far over it a setup may be and still be of use. */
  readonly #judge: Pick<LimitJudge, 'allowed' | 'nearShare'>
  readonly #allowedSpeed: number
  readonly #allowedMountLoad: number
  readonly #compared: ComparedBound
  readonly #resisting: Resisting
  /** Drag without the induced part over V², N·s²/m². */
  readonly #parasite: number
  readonly #cruising = emptyPowerTrain()
  readonly #point = emptyOperatingPoint()
  #node: PlanNode | null = null
  #motor: Motor | null = null
  #leastMass = 0
  #mostMass = 0
  #bendingShare = 0
  /** Induced drag at the least mass, times V². */
  #induced = 0
  #stall = 0
  /** Least thrust wanted, N, and what it and the least speed ask of the motor, once asked for. */
  #thrust = 0
  readonly #lifted = emptyDemand()
  readonly #floored = emptyDemand()
  #isDemanded = false
  #floorIsDemanded = false
  /** The duty that speed was bounded at last, 0 for none, and that bound. */
  #speedDuty = 0
  #speedAtDuty = NO_BOUND

  constructor(problem: SweepProblem, boxes: UnitBoxes, judge: Pick<LimitJudge, 'allowed' | 'nearShare'>) {
    const { circumstances } = problem
    const { airframe } = circumstances
    this.#problem = problem
    this.#boxes = boxes
    this.#trains = new BoxTrains(circumstances, boxes)
    this.#judge = judge
    const allowed = speedLimits(airframe, circumstances)
    this.#allowedSpeed = Math.min(Number.POSITIVE_INFINITY, ...allowed.map(({ speed }) => speed))
    this.#allowedMountLoad = allowedMountLoad(airframe.mountLoad)
    this.#parasite = 0.5 * circumstances.density * airframe.dragArea
    this.#compared = new ComparedBound(circumstances)
    this.#resisting = { parasite: this.#parasite, leastInduced: 0, mostInduced: 0, leastMass: 0, mostMass: 0 }
  }

  /** Takes a node and a box; the limit that all of it breaks at any duty, or −1. Cost and loads on the ground rise with mass. */
  take(node: PlanNode, box: number): number {
    const { circumstances, candidates } = this.#problem
    const { mass, airframe, limits, density, profile } = circumstances
    const pair = node.fan * candidates.motors.length + node.motor
    const pairMass = candidates.pairMass[pair] as number
    const bare = airframe.emptyMass + pairMass
    this.#trains.take(box)
    const { best, worst } = this.#trains
    const least = bare + best.escMass + best.source.mass
    this.speed = NO_BOUND
    this.#node = node
    this.#motor = candidates.motors[node.motor] as Motor
    this.cost = (candidates.pairCost[pair] as number) + (this.#boxes.costs[box] as number) + candidates.fixedCost
    if (this.cost > 0 && this.#over(AT.budget, this.cost, limits.budget)) return AT.budget
    if (this.#over(AT['take-off-mass'], least, mass.fixed ?? mass.limit)) return AT['take-off-mass']
    this.#leastMass = mass.fixed ?? least
    const heaviest = bare + worst.escMass + worst.source.mass + airframe.ballastLimit * this.#slack(AT.ballast)
    this.#mostMass = mass.fixed ?? Math.min(mass.limit * this.#slack(AT['take-off-mass']), heaviest)
    const weight = this.#leastMass * STANDARD_GRAVITY
    this.#stall = stallSpeed(weight, density, airframe.wingArea, airframe.liftCoefficientMax)
    if (this.#over(AT['stall-speed'], this.#stall, limits.stallSpeed)) return AT['stall-speed']
    this.#bendingShare = profile.loadFactor / allowedLoadFactor(airframe.rootMomentUltimate, weight, airframe.span)
    if (this.#over(AT['structural-margin'], this.#bendingShare, 1 - limits.margin)) return AT['structural-margin']
    this.#trains.fill(this.#motor)
    this.#isDemanded = false
    this.#speedDuty = 0
    this.#induced = inducedDragFactor(airframe, weight, density)
    if (this.#compared.isSteady) return -1
    // Whatever holds its mass or not: the most that a setup of the box weighs.
    this.#resist(mass.fixed ?? bare + worst.escMass + worst.source.mass + mostBallast(airframe, pairMass, best, worst))
    return -1
  }

  /** What a compared speed that is not the level one asks of the box as well. */
  #resist(mostMass: number): void {
    const { airframe, density } = this.#problem.circumstances
    const resisting = this.#resisting
    resisting.leastInduced = this.#induced
    resisting.mostInduced = inducedDragFactor(airframe, mostMass * STANDARD_GRAVITY, density)
    resisting.leastMass = this.#leastMass
    resisting.mostMass = mostMass
  }

  /** The limit on thrust or speed that the whole box lacks at a duty, and at every lower one; −1: none is proved. */
  lacking(duty: number): number {
    if (!this.#isDemanded) this.#demand()
    this.#trains.setBest(duty)
    if (this.#thrust > 0 && lacks(this.#lifted, this.#trains.bestFull)) return AT['thrust-to-weight']
    if (this.#floorIsDemanded && lacks(this.#floored, this.#trains.bestQuoted)) return AT['speed-floor']
    const { speedFloor } = this.#problem.circumstances.limits
    if (speedFloor <= 0 || !this.#compared.fallsShort) return -1
    return this.#under(AT['speed-floor'], this.#mostSpeed(duty), speedFloor) ? AT['speed-floor'] : -1
  }

  /** What the wanted thrust and the least speed ask of the motor: the same at every duty. */
  #demand(): void {
    const { density, limits } = this.#problem.circumstances
    const { duct } = (this.#node as PlanNode).state
    this.#isDemanded = true
    this.#thrust = (limits.thrustToWeight * this.#leastMass * STANDARD_GRAVITY) / this.#slack(AT['thrust-to-weight'])
    if (this.#thrust > 0) solveDemand(duct, density, 0, this.#thrust, this.#trains.bestFull, this.#lifted)
    const floor = limits.speedFloor / this.#slack(AT['speed-floor'])
    const speed = this.#compared.steadyFor(floor, this.#resisting)
    const [parasite, induced] = [this.#parasite, this.#induced]
    // Below the speed of least drag flying faster may be easier, so not holding the floor proves nothing there.
    this.#floorIsDemanded = speed > 0 && parasite * speed ** 4 >= induced
    if (!this.#floorIsDemanded) return
    const drag = parasite * speed * speed + induced / (speed * speed)
    solveDemand(duct, density, speed, drag, this.#trains.bestQuoted, this.#floored)
  }

  /** The rating that the whole box exceeds standing at a duty, and at every higher one; −1: none is proved. */
  exceeding(duty: number): number {
    const { state } = this.#node as PlanNode
    const { fan, radius } = state.duct
    const motor = this.#motor as Motor
    const { best } = this.#trains
    const { profile, soundSpeed, limits } = this.#problem.circumstances
    this.#trains.setWorst(duty)
    const point = this.#point
    if (solveStanding(state.standing, this.#trains.worstFull, point) !== 'ok') return -1
    const short = profile.passTime <= SHORT_RATING_TIME
    const shaftSpeed = point.bladeSpeed / radius
    const tipSpeed = 0.5 * shaftSpeed * fan.tipDiameter
    const power = point.current * (shaftSpeed / this.#trains.worstFull.speedConstant + point.current * motor.resistance)
    this.#trains.setBest(duty)
    const bus = leastBusCurrent(this.#trains.bestFull, point.current)
    if (this.#over(AT['motor-current'], point.current, short ? motor.currentLimit : motor.continuousCurrent))
      return AT['motor-current']
    if (this.#over(AT['motor-power'], power, short ? motor.powerLimit : motor.continuousPower)) return AT['motor-power']
    if (this.#over(AT['esc-current'], point.current, best.esc.currentLimit)) return AT['esc-current']
    if (this.#over(AT['pack-current'], bus, short ? best.source.currentLimit : best.source.continuousCurrent))
      return AT['pack-current']
    if (this.#over(AT['motor-speed'], shaftSpeed, motor.speedLimit)) return AT['motor-speed']
    if (this.#over(AT['esc-speed'], shaftSpeed * motor.polePairs, best.esc.electricalSpeedLimit)) return AT['esc-speed']
    if (this.#over(AT['tip-speed'], tipSpeed, fan.tipSpeedLimit)) return AT['tip-speed']
    if (this.#over(AT['tip-mach'], tipSpeed, soundSpeed * TIP_MACH_LIMIT)) return AT['tip-mach']
    const mount = point.thrust / this.#allowedMountLoad
    return this.#over(AT['structural-margin'], mount, 1 - limits.margin) ? AT['structural-margin'] : -1
  }

  /**
   * Fills in the speed that nothing up to a duty betters, with nothing known of time and margin yet; the limit that this
   * proves broken, or −1.
   */
  boundSpeed(highest: number): number {
    const { limits } = this.#problem.circumstances
    this.speed = this.#mostSpeed(highest)
    this.time = NO_BOUND
    this.margin = 1 - this.#bendingShare / (1 + SLACK)
    return this.#under(AT['speed-floor'], this.speed, limits.speedFloor) ? AT['speed-floor'] : -1
  }

  /** Fills in time and margin that nothing from a duty up betters; the limit that this proves broken, or −1. */
  boundRest(lowest: number): number {
    const { limits } = this.#problem.circumstances
    const share = this.#leastLoadShare(lowest)
    if (this.#over(AT['structural-margin'], share, 1 - limits.margin)) return AT['structural-margin']
    this.margin = 1 - share / (1 + SLACK)
    this.time = this.#mostTime(lowest)
    return this.#under(AT['flight-time'], this.time, limits.flightTime) ? AT['flight-time'] : -1
  }

  /** Compared speed that nothing up to a duty betters. */
  #mostSpeed(duty: number): number {
    if (duty !== this.#speedDuty) {
      this.#speedDuty = duty
      this.#speedAtDuty = this.#solveSpeed(duty)
    }
    return this.#speedAtDuty
  }

  #solveSpeed(duty: number): number {
    const { density } = this.#problem.circumstances
    const { state } = this.#node as PlanNode
    this.#trains.setBest(duty)
    const [parasite, induced] = [this.#parasite, this.#induced]
    const least = LEAST_SPEED_FACTOR * this.#stall
    const start = levelStart(state, this.#trains.bestQuoted)
    const outcome = solveLevel(
      state.duct,
      density,
      parasite,
      induced,
      this.#trains.bestQuoted,
      start,
      least,
      this.#point,
    )
    if (outcome !== 'ok') return NO_BOUND
    return this.#compared.most(state, this.#trains.bestQuoted, this.#point.speed, this.#resisting) * (1 + SLACK)
  }

  /** Loads fall with resistance, losses and mass but for bending, which is least at the least mass. */
  #leastLoadShare(duty: number): number {
    const { density } = this.#problem.circumstances
    const { state } = this.#node as PlanNode
    this.#trains.setWorst(duty)
    const point = this.#point
    const stands = solveStanding(state.standing, this.#trains.worstFull, point) === 'ok'
    const mount = stands ? point.thrust / this.#allowedMountLoad : 0
    const { airframe } = this.#problem.circumstances
    const parasite = this.#parasite
    const induced = inducedDragFactor(airframe, this.#mostMass * STANDARD_GRAVITY, density)
    const start = stands ? state.advanceRatio * point.bladeSpeed : this.#stall
    const flies = solveLevel(state.duct, density, parasite, induced, this.#trains.worstFull, start, 0, point) === 'ok'
    const pressure = flies ? (point.speed / this.#allowedSpeed) ** 2 : 0
    return Math.max(this.#bendingShare, mount, pressure)
  }

  /** Charge at its most over currents at their least: full throttle behind most resistance, cruise behind the least. */
  #mostTime(duty: number): number {
    const { density, profile } = this.#problem.circumstances
    const { state } = this.#node as PlanNode
    const { best } = this.#trains
    const point = this.#point
    const [parasite, induced] = [this.#parasite, this.#induced]
    const start = levelStart(state, this.#trains.worstQuoted)
    const flies = solveLevel(state.duct, density, parasite, induced, this.#trains.worstQuoted, start, 0, point) === 'ok'
    this.#trains.setBest(duty)
    // Below the speed of least drag being slower asks for more thrust: there the worst does not draw the least.
    const proved = flies && parasite * point.speed ** 4 >= induced
    const full = proved ? leastBusCurrent(this.#trains.bestQuoted, point.current) : 0
    const speed = Math.max(profile.cruiseSpeed, CRUISE_STALL_FACTOR * this.#stall)
    const drag = parasite * speed * speed + induced / (speed * speed)
    copyTrain(this.#trains.bestQuoted, this.#cruising)
    const cruises = solveAtSpeed(state.duct, density, speed, drag, this.#cruising, best.esc, point) === 'ok'
    const current = meanCurrent(full, cruises ? point.busCurrent : 0, profile.fullThrottleShare)
    return Math.min(NO_BOUND, flightTime(best.source.capacity, profile.reserve, current) * (1 + SLACK))
  }

  /** Above what is allowed by more than is of use; a NaN proves nothing. */
  #over(limit: number, used: number, rating: number): boolean {
    return used > rating * (this.#judge.allowed[limit] as number) * this.#slack(limit)
  }

  /** Short of what is wanted, which may be nothing. */
  #under(limit: number, most: number, wanted: number): boolean {
    return most < wanted / this.#slack(limit)
  }

  /** Factor over what is allowed that is still of use, wider than the solvers' tolerance. */
  #slack(limit: number): number {
    return (1 + (this.#judge.nearShare[limit] as number)) * (1 + SLACK)
  }
}
