// The chain at a given speed and thrust: what blade speed, current and duty it takes. Flow and shaft are closed form;
// only the duty is found by iteration, since sag and part-throttle losses depend on it (a contraction of about 0.03).
import { efficiencyAt, pressureRise } from '../fan/characteristic.js'
import { axialSpeedForThrust, bladeSpeedForFlow, type Ducted } from '../fan/duct-flow.js'
import { ITERATION_LIMIT, type OperatingPoint, type SolveOutcome, VOLTAGE_TOLERANCE } from './operating-point.js'
import {
  busCurrent,
  busVoltage,
  busVoltageAtPower,
  motorCurrent,
  type PowerTrain,
  type SwitchingEsc,
  setDuty,
} from './power-train.js'

/**
 * Finds the duty that holds a thrust (N) at a speed (m/s); `train` is left at that duty.
 * 'source-exhausted' when the pack cannot deliver it; a duty above 1 is returned as found: the caller judges it.
 */
export function solveAtSpeed(
  duct: Ducted,
  density: number,
  speed: number,
  thrust: number,
  train: PowerTrain,
  esc: SwitchingEsc,
  point: OperatingPoint,
): SolveOutcome {
  const { axial, u, eta, torque, current, backEmf } = demandAt(duct, density, speed, thrust, train)
  let duty = Math.min(1, (backEmf + current * train.motorResistance) / train.openVoltage)
  for (let i = 1; i <= ITERATION_LIMIT; i++) {
    setDuty(train, esc, Math.min(duty, 1))
    train.duty = duty
    const needed = backEmf + current * (train.motorResistance + train.escResistance)
    const voltage = busVoltageAtPower(train, current, needed * current)
    if (!(voltage > 0)) return 'source-exhausted'
    const residual = duty * voltage - needed
    if (Math.abs(residual) <= VOLTAGE_TOLERANCE * needed) {
      point.speed = speed
      point.bladeSpeed = u
      point.axialSpeed = axial
      point.thrust = thrust
      point.torque = torque
      point.efficiency = eta
      point.current = current
      point.busVoltage = voltage
      point.busCurrent = busCurrent(train, current, voltage)
      point.duty = duty
      point.iterations = i
      point.residual = residual / needed
      return 'ok'
    }
    duty = needed / voltage
  }
  // Sag eats up whatever more duty asks for: no duty holds this.
  return train.duty > 1 ? 'source-exhausted' : 'not-converged'
}

/**
 * Whether the train's own duty gives less than a thrust (N) at a speed (m/s), and every lower duty as well: the voltage
 * that is there against the voltage that is needed, in closed form. A bus pulled below half its open voltage proves
 * nothing about lower duties, since there less duty may give more; then the answer is no.
 */
export function lacks(duct: Ducted, density: number, speed: number, thrust: number, train: PowerTrain): boolean {
  const { current, backEmf } = demandAt(duct, density, speed, thrust, train)
  const needed = backEmf + current * (train.motorResistance + train.escResistance)
  const voltage = busVoltage(train, current)
  return train.duty * voltage < needed && voltage >= 0.5 * train.openVoltage
}

/** What a thrust at a speed asks of fan and motor: flow, blade speed, efficiency, torque, current, back-EMF. */
function demandAt(duct: Ducted, density: number, speed: number, thrust: number, train: PowerTrain) {
  const axial = axialSpeedForThrust(duct, density, speed, thrust)
  const u = bladeSpeedForFlow(duct, axial, speed)
  const phi = axial / u
  const eta = efficiencyAt(duct.fan, duct.lossScale, phi, u)
  const torque = (density * duct.area * duct.radius * axial * u * pressureRise(duct.fan, phi)) / eta
  const current = motorCurrent(train, torque, u / duct.radius)
  return { axial, u, eta, torque, current, backEmf: u / (duct.radius * train.speedConstant) }
}
