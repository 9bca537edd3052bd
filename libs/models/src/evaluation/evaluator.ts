// One combination worked through every model, stage by stage: price, weigh, stand, top speed with a full warm pack, top
// speed at the quoted charge, cruise, heat. One evaluator is refilled for each combination; the solvers allocate
// nothing. The same code explains a setup (thorough) and rejects a million: see limit-judge.ts for when it ends early.
import type { Airframe } from '../airframe/airframe.js'
import { type Balance, solveBalance } from '../airframe/balance.js'
import { STANDARD_GRAVITY } from '../constants.js'
import type { Esc } from '../esc/esc.js'
import { type Ducted, flowCoefficient } from '../fan/duct-flow.js'
import { diveSpeed } from '../flight/dive.js'
import { flightTime, meanCurrent } from '../flight/flight-time.js'
import { runSpeed } from '../flight/run-speed.js'
import { groundRoll, LIFT_OFF_FACTOR, MEAN_FORCE_SPEED, stallSpeed } from '../flight/take-off.js'
import type { Motor } from '../motor/motor.js'
import { solveAtDuty } from '../operating-point/at-duty.js'
import { solveAtSpeed } from '../operating-point/at-speed.js'
import { inducedDragFactor, solveLevel } from '../operating-point/level.js'
import { emptyOperatingPoint, type OperatingPoint, type SolveOutcome } from '../operating-point/operating-point.js'
import { copyTrain, emptyPowerTrain, type PowerTrain, setDuty } from '../operating-point/power-train.js'
import { type StandingDuct, solveStanding } from '../operating-point/standing.js'
import type { Source } from '../pack/arrangement.js'
import { pullUpLoadFactor, turnLoadFactor } from '../structure/loads.js'
import { allowedLoadFactor, allowedMountLoad } from '../structure/reserve.js'
import { type SpeedLimit, speedLimits } from '../structure/speed-limits.js'
import type { Circumstances } from '../sweep/problem.js'
import type { Peaks } from '../thermal/two-node.js'
import { CRUISE_STALL_FACTOR, LEAST_SPEED_FACTOR, SHORT_RATING_TIME } from './assumed-state.js'
import { ElectricalState } from './electrical-state.js'
import { escPeaks, flightCycle, motorPeaks, packTemperature } from './flight-heat.js'
import { LimitJudge } from './limit-judge.js'
import { LIMIT_INDEX as AT, TIP_MACH_LIMIT } from './limits.js'

/** Fan in an airframe's duct with all that depends on these alone. */
export interface FanNode {
  readonly duct: Ducted
  readonly standing: StandingDuct
  /** Advance ratio at top speed without induced drag. */
  readonly advanceRatio: number
}

/** The parts of one combination. */
export interface Parts {
  readonly node: FanNode
  readonly motor: Motor
  readonly esc: Esc
  readonly timing: number
  readonly source: Source
  /** Fan with motor, speed controller with receiver supply, kg. */
  readonly pairMass: number
  readonly escMass: number
  /** Cost still to be paid. */
  readonly cost: number
}

/** `thorough`: go on past broken limits. */
export interface EvaluatorOptions {
  readonly thorough: boolean
}

/** Share of the steady speed at which the law of a dive is anchored at most. */
export const EXCESS_SPEED_SHARE = 0.9

export class Evaluator {
  readonly limits: LimitJudge

  mass = 0
  weight = 0
  /** Drag law: ½·ρ·CdA in N·s²/m² and induced drag times V² in N·m²/s². */
  parasite = 0
  induced = 0
  stall = 0
  readonly balance: Balance = { packStation: 0, ballast: 0 }
  roll = 0
  /** Loads as shares of the design loads. */
  pressureShare = 0
  bendingShare = 0
  mountShare = 0
  readonly stand = emptyOperatingPoint()
  readonly topFull = emptyOperatingPoint()
  readonly top = emptyOperatingPoint()
  readonly cruise = emptyOperatingPoint()
  /** On the way to top speed. */
  readonly running = emptyOperatingPoint()
  readonly full: PowerTrain = emptyPowerTrain()
  readonly quoted: PowerTrain = emptyPowerTrain()
  readonly cruising: PowerTrain = emptyPowerTrain()
  /** Fastest that a full pack makes it fly, level or at the bottom of the dive, m/s. */
  fastest = 0
  /** At the quoted charge: entry into the dive or the run, bottom of the dive, end of the run, m/s. */
  entrySpeed = 0
  diveSpeed = 0
  inRunSpeed = 0
  meanCurrent = 0
  readonly windingPeaks: Peaks = { inner: 0, outer: 0 }
  readonly escPeaks: Peaks = { inner: 0, outer: 0 }
  packTemperature = 0

  /** Objectives of the last combination. */
  speed = 0
  time = 0
  cost = 0
  margin = 0

  readonly #c: Circumstances
  readonly #airframe: Airframe
  readonly #thorough: boolean
  /** True air speeds that the structure allows, in this air. */
  readonly speedLimits: readonly SpeedLimit[]
  /** The least of them, m/s; thrust the mount carries, N. */
  readonly #allowedSpeed: number
  readonly #allowedMountLoad: number
  readonly #turns: boolean
  readonly #electrical: ElectricalState
  #parts: Parts | null = null

  constructor(circumstances: Circumstances, options: EvaluatorOptions = { thorough: false }) {
    this.#c = circumstances
    this.#airframe = circumstances.airframe
    this.#thorough = options.thorough
    this.#electrical = new ElectricalState(circumstances)
    this.speedLimits = speedLimits(circumstances.airframe, circumstances)
    this.#allowedSpeed = Math.min(Number.POSITIVE_INFINITY, ...this.speedLimits.map(({ speed }) => speed))
    this.#allowedMountLoad = allowedMountLoad(circumstances.airframe.mountLoad)
    const { turnRadius, pullUpRadius } = circumstances.profile
    this.#turns = Math.min(turnRadius, pullUpRadius) < Number.POSITIVE_INFINITY
    this.limits = new LimitJudge(circumstances.limits.headroom, options.thorough)
  }

  /** Takes the parts, prices and weighs them; false when a limit ends it for every duty. */
  assemble(parts: Parts): boolean {
    this.#parts = parts
    this.limits.clear()
    this.cost = parts.cost
    if (!this.#price() || !this.#weigh(parts)) return false
    this.#electrical.fill(parts.motor, parts.timing, parts.esc, parts.source, this.full, this.quoted)
    return true
  }

  /** Works the assembled parts through at a duty; false when a limit ended it. */
  evaluate(duty: number): boolean {
    const parts = this.#assembled()
    this.#setDuty(parts, duty)
    return (
      this.#standStill(parts) &&
      this.#flyFull(parts) &&
      this.#flyQuoted(parts) &&
      this.#flyCruise(parts) &&
      this.#heat(parts)
    )
  }

  /** Drag at the mass of the assembled parts, N. */
  drag(speed: number): number {
    return this.parasite * speed * speed + this.induced / (speed * speed)
  }

  #assembled(): Parts {
    if (this.#parts === null) throw new RangeError('parts must be assembled before a duty is evaluated')
    return this.#parts
  }

  #price(): boolean {
    return this.cost <= 0 || this.limits.judge(AT.budget, this.cost / this.#c.limits.budget)
  }

  #weigh(parts: Parts): boolean {
    const { mass, limits, density, profile } = this.#c
    const { limits: judge, balance } = this
    const airframe = this.#airframe
    solveBalance(airframe, airframe.emptyMass, parts.pairMass, parts.escMass, parts.source.mass, balance)
    const closure = airframe.emptyMass + parts.pairMass + parts.escMass + parts.source.mass + balance.ballast
    this.#setMass(mass.fixed ?? closure)
    if (!judge.judge(AT['take-off-mass'], closure / (mass.fixed ?? mass.limit))) return false
    if (!judge.judge(AT.ballast, balance.ballast > 0 ? balance.ballast / airframe.ballastLimit : 0)) return false
    this.stall = stallSpeed(this.weight, density, airframe.wingArea, airframe.liftCoefficientMax)
    if (!judge.judge(AT['stall-speed'], this.stall / limits.stallSpeed)) return false
    return this.#judgeBending(profile.loadFactor)
  }

  /** Mass and the drag law that follows from it. */
  #setMass(mass: number): void {
    const { density, airframe } = this.#c
    this.mass = mass
    this.weight = mass * STANDARD_GRAVITY
    this.parasite = 0.5 * density * airframe.dragArea
    this.induced = inducedDragFactor(airframe, this.weight, density)
  }

  #judgeBending(loadFactor: number): boolean {
    const { rootMomentUltimate, span } = this.#airframe
    this.bendingShare = loadFactor / allowedLoadFactor(rootMomentUltimate, this.weight, span)
    return this.#judgeMargin(this.bendingShare)
  }

  #judgeMargin(share: number): boolean {
    return this.limits.judge(AT['structural-margin'], share / (1 - this.#c.limits.margin))
  }

  #setDuty(parts: Parts, duty: number): void {
    setDuty(this.full, parts.esc, duty)
    setDuty(this.quoted, parts.esc, duty)
  }

  #standStill(parts: Parts): boolean {
    const outcome = solveStanding(parts.node.standing, this.full, this.stand)
    if (outcome !== 'ok') return this.#refuse(outcome)
    if (!this.#judgeRatings(parts, this.stand)) return false
    const { airframe, limits } = this.#c
    const wanted = limits.thrustToWeight * this.weight
    if (!this.limits.judge(AT['thrust-to-weight'], wanted / this.stand.thrust)) return false
    if (airframe.launch === 'wheels' && !this.#takeOff(parts)) return false
    this.mountShare = this.stand.thrust / this.#allowedMountLoad
    return this.#judgeMargin(this.mountShare)
  }

  /** Ground roll with the thrust left at the mean-force speed, at the standing blade speed. */
  #takeOff(parts: Parts): boolean {
    const { airframe, density, rollingFriction, runway } = this.#c
    const { duct } = parts.node.standing
    const speed = MEAN_FORCE_SPEED * LIFT_OFF_FACTOR * this.stall
    const u = this.stand.bladeSpeed
    const phi = flowCoefficient(duct, speed / u)
    const thrust = density * duct.area * u * u * phi * (phi / duct.nozzleRatio - speed / u)
    const wing = { area: airframe.wingArea, span: airframe.span, oswald: airframe.oswald, dragArea: airframe.dragArea }
    this.roll = groundRoll(this.weight, density, this.stall, thrust, rollingFriction, wing)
    return this.limits.judge(AT['take-off-roll'], this.roll / runway)
  }

  #flyFull(parts: Parts): boolean {
    const outcome = this.#solveTop(parts, this.full, parts.node.advanceRatio * this.stand.bladeSpeed, this.topFull)
    if (outcome !== 'ok') return this.#refuse(outcome)
    if (!this.#judgeRatings(parts, this.topFull)) return false
    const { run, profile } = this.#c
    const { speed } = this.topFull
    const dives = run.entryHeight > 0 || run.entrySpeedShare > 1
    this.fastest = dives ? Math.max(speed, this.#dive(parts, this.full, speed)) : speed
    this.pressureShare = (this.fastest / this.#allowedSpeed) ** 2
    if (!this.#judgeMargin(this.pressureShare)) return false
    if (this.#turns) {
      const { turnRadius, pullUpRadius, loadFactor } = profile
      const turn = turnRadius < Number.POSITIVE_INFINITY ? turnLoadFactor(speed, turnRadius) : 1
      const pullUp = pullUpRadius < Number.POSITIVE_INFINITY ? pullUpLoadFactor(this.fastest, pullUpRadius) : 1
      if (!this.#judgeBending(Math.max(loadFactor, turn, pullUp))) return false
    }
    this.margin = 1 - Math.max(this.pressureShare, this.bendingShare, this.mountShare)
    return true
  }

  #flyQuoted(parts: Parts): boolean {
    const outcome = this.#solveTop(parts, this.quoted, this.topFull.speed, this.top)
    if (outcome !== 'ok') return this.#refuse(outcome)
    const { speedBasis } = this.#c
    if (speedBasis !== 'steady' || this.#thorough) this.#fillRun(parts)
    this.speed = speedBasis === 'steady' ? this.top.speed : speedBasis === 'dive' ? this.diveSpeed : this.inRunSpeed
    const { speedFloor } = this.#c.limits
    return speedFloor <= 0 || this.limits.judge(AT['speed-floor'], speedFloor / this.speed)
  }

  /** Entry, bottom of the dive and end of the run, at the quoted charge. */
  #fillRun(parts: Parts): void {
    const { run } = this.#c
    const steady = this.top.speed
    this.diveSpeed = this.#dive(parts, this.quoted, steady)
    this.entrySpeed = run.entrySpeedShare * steady
    const excess = this.#excess(parts, this.quoted, this.diveSpeed)
    this.inRunSpeed = runSpeed(steady, this.diveSpeed, excess, this.mass, run.length)
  }

  /** Speed at the bottom of the dive that the run is entered from, m/s; the entry speed without a dive. */
  #dive(parts: Parts, train: PowerTrain, steady: number): number {
    const { entrySpeedShare, entryHeight: height, diveAngle: angle } = this.#c.run
    const entry = entrySpeedShare * steady
    if (height === 0) return entry
    // At the steady speed itself nothing can be told of how thrust and drag change with it.
    const excessSpeed = Math.min(entry, EXCESS_SPEED_SHARE * steady)
    const excess = this.#excess(parts, train, excessSpeed)
    return diveSpeed({ steady, entry, excess, excessSpeed, weight: this.weight, mass: this.mass, height, angle })
  }

  /** Thrust less drag at a speed and full throttle, N. */
  #excess(parts: Parts, train: PowerTrain, speed: number): number {
    const outcome = solveAtDuty(parts.node.duct, this.#c.density, speed, train, this.running)
    return outcome === 'ok' ? this.running.thrust - this.drag(speed) : Number.NaN
  }

  #flyCruise(parts: Parts): boolean {
    const { profile, density, limits } = this.#c
    const speed = Math.max(profile.cruiseSpeed, CRUISE_STALL_FACTOR * this.stall)
    copyTrain(this.quoted, this.cruising)
    const { duct } = parts.node
    const outcome = solveAtSpeed(duct, density, speed, this.drag(speed), this.cruising, parts.esc, this.cruise)
    if (outcome !== 'ok') return this.#refuse(outcome)
    if (!this.limits.judge(AT.cruise, this.cruise.duty / this.quoted.duty)) return false
    this.meanCurrent = meanCurrent(this.top.busCurrent, this.cruise.busCurrent, profile.fullThrottleShare)
    this.time = flightTime(parts.source.capacity, profile.reserve, this.meanCurrent)
    return limits.flightTime <= 0 || this.limits.judge(AT['flight-time'], limits.flightTime / this.time)
  }

  #heat(parts: Parts): boolean {
    const { profile, airTemperature: air } = this.#c
    const { motor, esc, source, node } = parts
    if (!this.limits.judge(AT['cell-voltage'], this.#lastPassSag(source) / this.#electrical.allowedSag)) return false
    const cycle = flightCycle(profile.flightTime, profile.fullThrottleShare, profile.passTime)
    const hot = { point: this.top, train: this.quoted }
    const cool = { point: this.cruise, train: this.cruising }
    motorPeaks(motor, node.duct.radius, air, cycle, hot, cool, this.windingPeaks)
    const windingShare = this.windingPeaks.inner / (motor.windingTemperatureLimit - air)
    if (!this.limits.judge(AT['winding-temperature'], windingShare)) return false
    const magnetShare = this.windingPeaks.outer / (motor.magnetTemperatureLimit - air)
    if (!this.limits.judge(AT['magnet-temperature'], magnetShare)) return false
    escPeaks(esc, air, cycle, hot, cool, this.escPeaks)
    const escShare = this.escPeaks.inner / (esc.boardTemperatureLimit - air)
    if (!this.limits.judge(AT['esc-temperature'], escShare)) return false
    const cells = source.cellResistance * this.#electrical.quotedCells
    this.packTemperature = packTemperature(source, cells, air, cycle, this.top.busCurrent, this.cruise.busCurrent)
    return this.limits.judge(AT['pack-temperature'], (this.packTemperature - air) / (source.temperatureLimit - air))
  }

  /** Voltage that a cell loses on the last pass, V; at the current of the quoted charge, which is a little more. */
  #lastPassSag(source: Source): number {
    return (
      (this.top.busCurrent * source.cellResistance * this.#electrical.reserveCells) / source.cells -
      source.cellVoltageShift
    )
  }

  /** Currents, power and rotation at one of the points with a full pack. */
  #judgeRatings(parts: Parts, point: OperatingPoint): boolean {
    const { motor, esc, source, node } = parts
    const { limits: judge, full } = this
    const short = this.#c.profile.passTime <= SHORT_RATING_TIME
    const packLimit = short ? source.currentLimit : source.continuousCurrent
    const motorLimit = short ? motor.currentLimit : motor.continuousCurrent
    const motorPowerLimit = short ? motor.powerLimit : motor.continuousPower
    const motorPower = point.current * (full.duty * point.busVoltage - point.current * full.escResistance)
    const shaftSpeed = point.bladeSpeed / node.duct.radius
    const tipSpeed = 0.5 * shaftSpeed * node.duct.fan.tipDiameter
    return (
      judge.judge(AT['motor-current'], point.current / motorLimit) &&
      judge.judge(AT['motor-power'], motorPower / motorPowerLimit) &&
      judge.judge(AT['esc-current'], point.current / esc.currentLimit) &&
      judge.judge(AT['pack-current'], point.busCurrent / packLimit) &&
      judge.judge(AT['motor-speed'], shaftSpeed / motor.speedLimit) &&
      judge.judge(AT['esc-speed'], (shaftSpeed * motor.polePairs) / esc.electricalSpeedLimit) &&
      judge.judge(AT['tip-speed'], tipSpeed / node.duct.fan.tipSpeedLimit) &&
      judge.judge(AT['tip-mach'], tipSpeed / (this.#c.soundSpeed * TIP_MACH_LIMIT))
    )
  }

  #solveTop(parts: Parts, train: PowerTrain, start: number, point: OperatingPoint): SolveOutcome {
    const least = LEAST_SPEED_FACTOR * this.stall
    const { duct } = parts.node
    return solveLevel(duct, this.#c.density, this.parasite, this.induced, train, start, least, point)
  }

  #refuse(outcome: SolveOutcome): false {
    if (outcome === 'source-exhausted') return this.limits.fail('pack-power')
    return this.limits.fail(outcome === 'no-level-flight' ? 'level-flight' : 'convergence')
  }
}
