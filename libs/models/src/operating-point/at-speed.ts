// The chain at a given speed and thrust: what blade speed, current and duty it takes. Flow and shaft are closed form;
// only the duty is found by iteration, since sag and part-throttle losses depend on it (a contraction of about 0.03).
// Also the thrust a fixed duty gives at a given speed (for a run that has not reached equilibrium).

import type { Esc } from '../esc/esc.js'
import { freewheelVoltage, rippleShare, switchingShare } from '../esc/esc-losses.js'
import { pressureRise, stageEfficiency } from '../fan/characteristic.js'
import { axialSpeedForThrust, bladeSpeedForFlow, type Ducted, flowCoefficient } from '../fan/duct-flow.js'
import { ITERATION_LIMIT, type OperatingPoint, type SolveOutcome, VOLTAGE_TOLERANCE } from './operating-point.js'
import { busCurrent, busVoltage, motorCurrent, type PowerTrain } from './power-train.js'

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
  esc: Esc,
  point: OperatingPoint,
): SolveOutcome {
  const { axial, u, eta, torque, current, needed } = demandAt(duct, density, speed, thrust, train)
  let duty = needed / train.openVoltage
  for (let i = 1; i <= ITERATION_LIMIT; i++) {
    const capped = Math.min(duty, 1)
    train.duty = duty
    train.switching = switchingShare(esc, capped)
    train.ripple = rippleShare(capped)
    train.freewheel = freewheelVoltage(esc, capped)
    const voltage = busVoltage(train, current)
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
  return 'not-converged'
}

/**
 * Whether the train's own duty gives less than a thrust (N) at a speed (m/s), and every lower duty as well: the voltage
 * that is there against the voltage that is needed, in closed form. A bus pulled below half its open voltage proves
 * nothing about lower duties, since there less duty may give more; then the answer is no.
 */
export function lacks(duct: Ducted, density: number, speed: number, thrust: number, train: PowerTrain): boolean {
  const { current, needed } = demandAt(duct, density, speed, thrust, train)
  const voltage = busVoltage(train, current)
  return train.duty * voltage < needed && voltage >= 0.5 * train.openVoltage
}

/**
 * Thrust at a fixed duty and a given speed, N; NaN when the source is exhausted. The blade speed that balances the
 * voltage is bracketed by the standing and the zero-thrust ones and found by bisection; a sweep needs it only when it
 * compares what one run reaches.
 */
export function thrustAtSpeed(duct: Ducted, density: number, speed: number, train: PowerTrain): number {
  const residual = (u: number): number => {
    const phi = flowCoefficient(duct, speed / u)
    const torque =
      (density * duct.area * duct.radius * u * u * phi * pressureRise(duct.fan, phi)) / stageEfficiency(duct.fan, phi)
    const current = motorCurrent(train, torque, u / duct.radius)
    const voltage = busVoltage(train, current)
    if (!(voltage > 0)) return -1
    return (
      train.duty * voltage -
      current * (train.motorResistance + train.escResistance) -
      u / (duct.radius * train.speedConstant)
    )
  }
  let low = 1e-3
  let high = train.duty * train.openVoltage * duct.radius * train.speedConstant
  for (let i = 0; i < 100; i++) {
    const middle = 0.5 * (low + high)
    if (residual(middle) > 0) low = middle
    else high = middle
  }
  const u = 0.5 * (low + high)
  const phi = flowCoefficient(duct, speed / u)
  return density * duct.area * u * u * phi * (phi / duct.nozzleRatio - speed / u)
}

/** What a thrust at a speed asks of fan and motor: flow, blade speed, efficiency, torque, current, and voltage with drops. */
function demandAt(duct: Ducted, density: number, speed: number, thrust: number, train: PowerTrain) {
  const axial = axialSpeedForThrust(duct, density, speed, thrust)
  const u = bladeSpeedForFlow(duct, axial, speed)
  const phi = axial / u
  const eta = stageEfficiency(duct.fan, phi)
  const torque = (density * duct.area * duct.radius * axial * u * pressureRise(duct.fan, phi)) / eta
  const current = motorCurrent(train, torque, u / duct.radius)
  const needed = current * (train.motorResistance + train.escResistance) + u / (duct.radius * train.speedConstant)
  return { axial, u, eta, torque, current, needed }
}
