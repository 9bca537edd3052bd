// Standing full-chain operating point at a fixed duty: flight speed 0, so the flow coefficient is fixed and only the
// blade speed is unknown. The voltage residual falls with blade speed and is concave but for the small change of
// efficiency with it, so Newton from the lossless root converges without a bracket.
import { ETA_FLOOR, islandShare, pressureRise } from '../fan/characteristic.js'
import { type Ducted, flowCoefficient } from '../fan/duct-flow.js'
import { lossFactor, lossFactorSlope } from '../fan/efficiency-scaling.js'
import { ITERATION_LIMIT, type OperatingPoint, type SolveOutcome, VOLTAGE_TOLERANCE } from './operating-point.js'
import { busCurrent, busVoltage, busVoltageSlope, motorCurrent, type PowerTrain } from './power-train.js'

/** What the standing solve needs of fan and duct, computed once for all trains: flow and torque coefficients. */
export interface StandingDuct {
  readonly duct: Ducted
  readonly phi: number
  /** Efficiency over its peak at this flow. */
  readonly island: number
  /** Torque times efficiency over U², N·m·s²/m². */
  readonly torqueFactor: number
  /** Thrust over U², N·s²/m². */
  readonly thrustFactor: number
}

/** Prepares the standing state of a fan in its duct. */
export function standingDuct(duct: Ducted, density: number): StandingDuct {
  return ductAtFlow(duct, density, flowCoefficient(duct, 0))
}

/** The same for any state of fixed flow coefficient, such as the one in which thrust vanishes. */
export function ductAtFlow(duct: Ducted, density: number, phi: number): StandingDuct {
  const flow = density * duct.area
  return {
    duct,
    phi,
    island: islandShare(duct.fan, phi),
    torqueFactor: flow * duct.radius * pressureRise(duct.fan, phi) * phi,
    thrustFactor: (flow * phi * phi) / duct.nozzleRatio,
  }
}

/** Solves the standing state into `point`. */
export function solveStanding(standing: StandingDuct, train: PowerTrain, point: OperatingPoint): SolveOutcome {
  const { torqueFactor, island } = standing
  const { radius, fan, lossScale } = standing.duct
  const emfPerSpeed = 1 / (radius * train.speedConstant)
  const resistance = train.motorResistance + train.escResistance
  const a = train.speedConstant * torqueFactor
  const b = train.idleCurrentSlope / radius
  const listed = Math.max(ETA_FLOOR, fan.etaPeak * island)
  let u = startingBladeSpeed(train, resistance, a / listed, b, emfPerSpeed)
  let fed = 0
  let exhausted = false
  for (let i = 1; i <= ITERATION_LIMIT; i++) {
    const factor = lossFactor(lossScale, u)
    let eta = (1 - (1 - fan.etaPeak) * factor) * island
    let etaSlope = (fan.etaPeak - 1) * lossFactorSlope(lossScale, u, factor) * island
    if (eta <= ETA_FLOOR) {
      eta = ETA_FLOOR
      etaSlope = 0
    }
    const torque = (torqueFactor * u * u) / eta
    const current = motorCurrent(train, torque, u / radius)
    const voltage = busVoltage(train, current)
    exhausted = !(voltage > 0)
    if (exhausted) {
      // Asked too much: come down towards the speeds that the source can feed.
      u = fed > 0 ? 0.5 * (fed + u) : 0.8 * u
      continue
    }
    fed = u
    const available = train.duty * voltage
    const residual = available - current * resistance - u * emfPerSpeed
    if (Math.abs(residual) <= VOLTAGE_TOLERANCE * available) {
      point.speed = 0
      point.bladeSpeed = u
      point.axialSpeed = standing.phi * u
      point.thrust = standing.thrustFactor * u * u
      point.torque = torque
      point.efficiency = eta
      point.current = current
      point.busVoltage = voltage
      point.busCurrent = busCurrent(train, current, voltage)
      point.duty = train.duty
      point.iterations = i
      point.residual = residual / available
      return 'ok'
    }
    const currentSlope = ((a * u) / eta) * (2 - (u * etaSlope) / eta) + b
    const slope = (train.duty * busVoltageSlope(train, current, voltage) - resistance) * currentSlope - emfPerSpeed
    u -= residual / slope
    if (!(u > 0)) return 'not-converged'
  }
  return exhausted ? 'source-exhausted' : 'not-converged'
}

/** Root of the residual when the controller draws nothing of its own: above the true one, and close. */
function startingBladeSpeed(train: PowerTrain, resistance: number, a: number, b: number, emfPerSpeed: number): number {
  const r = resistance + train.duty * train.sourceResistance * train.duty
  const linear = emfPerSpeed + r * b
  const drive = train.duty * train.openVoltage - r * train.idleCurrent
  return (Math.sqrt(linear * linear + 4 * r * a * Math.max(drive, 0)) - linear) / (2 * r * a)
}
