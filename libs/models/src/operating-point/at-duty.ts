// The chain at a fixed duty and a given flight speed, standing, climbing, in a dive or on the way to top speed: the blade
// speed at which the motor voltage that is there equals the one that is needed. The residual falls as blade speed rises,
// so the root is bracketed and found by regula falsi with the Illinois halving, which never leaves the bracket.
import { efficiencyAt, pressureRise } from '../fan/characteristic.js'
import { type Ducted, flowCoefficient } from '../fan/duct-flow.js'
import { type OperatingPoint, type SolveOutcome, VOLTAGE_TOLERANCE } from './operating-point.js'
import { busCurrent, busVoltage, motorCurrent, type PowerTrain } from './power-train.js'

/** Steps before the solver gives up; eight are usual. */
const STEP_LIMIT = 100
/** Least and greatest blade speed of the bracket over the one without load. */
const BRACKET = [1e-3, 2] as const

/** Solves the state at a flight speed (m/s) into `point`. Thrust may be negative: the fan then brakes. */
export function solveAtDuty(
  duct: Ducted,
  density: number,
  speed: number,
  train: PowerTrain,
  point: OperatingPoint,
): SolveOutcome {
  const unloaded = train.duty * train.openVoltage * duct.radius * train.speedConstant
  let low = BRACKET[0] * unloaded
  let high = BRACKET[1] * unloaded
  let atLow = residualAt(duct, density, speed, train, low, point)
  let atHigh = residualAt(duct, density, speed, train, high, point)
  // Nothing is delivered at the upper end: the source gives out before the motor gets there.
  if (Number.isNaN(atHigh)) atHigh = -train.openVoltage
  if (!(atLow > 0 && atHigh < 0)) return 'not-converged'
  let kept = 0
  for (let i = 1; i <= STEP_LIMIT; i++) {
    const u = (low * atHigh - high * atLow) / (atHigh - atLow)
    const residual = residualAt(duct, density, speed, train, u, point)
    if (Math.abs(residual) <= VOLTAGE_TOLERANCE * train.openVoltage || high - low <= 1e-14 * high) {
      point.iterations = i
      point.residual = residual / train.openVoltage
      return 'ok'
    }
    if (residual > 0) {
      low = u
      atLow = residual
      if (kept > 0) atHigh *= 0.5
      kept = 1
    } else {
      high = u
      atHigh = Number.isNaN(residual) ? -train.openVoltage : residual
      if (kept < 0) atLow *= 0.5
      kept = -1
    }
  }
  return 'not-converged'
}

/** Motor voltage that is there minus the one needed at a blade speed, V; fills in the point. NaN: more than the source gives. */
function residualAt(
  duct: Ducted,
  density: number,
  speed: number,
  train: PowerTrain,
  u: number,
  point: OperatingPoint,
): number {
  const phi = flowCoefficient(duct, speed / u)
  const eta = efficiencyAt(duct.fan, duct.lossScale, phi, u)
  const torque = (density * duct.area * duct.radius * u * u * phi * pressureRise(duct.fan, phi)) / eta
  const shaftSpeed = u / duct.radius
  const current = motorCurrent(train, torque, shaftSpeed)
  const voltage = busVoltage(train, current)
  point.speed = speed
  point.bladeSpeed = u
  point.axialSpeed = phi * u
  point.thrust = density * duct.area * phi * u * ((phi * u) / duct.nozzleRatio - speed)
  point.torque = torque
  point.efficiency = eta
  point.current = current
  point.busVoltage = voltage
  point.busCurrent = busCurrent(train, current, voltage)
  point.duty = train.duty
  return (
    train.duty * voltage - current * (train.motorResistance + train.escResistance) - shaftSpeed / train.speedConstant
  )
}
