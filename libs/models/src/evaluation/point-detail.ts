// Every quantity of one operating point, worked out from what the solvers found, with the power followed from the pack
// to the air so that the balance can be checked.
import type { Ducted } from '../fan/duct-flow.js'
import { froudeEfficiency } from '../fan/momentum.js'
import type { OperatingPoint } from '../operating-point/operating-point.js'
import type { PowerTrain } from '../operating-point/power-train.js'

/** SI throughout; losses and powers in W. */
export interface PointDetail {
  readonly speed: number
  readonly duty: number
  readonly shaftSpeed: number
  readonly tipMach: number
  readonly advanceRatio: number
  readonly flowCoefficient: number
  readonly efflux: number
  readonly thrust: number
  readonly drag: number
  readonly motorCurrent: number
  readonly packCurrent: number
  readonly packVoltage: number
  readonly motorVoltage: number
  readonly packPower: number
  readonly shaftPower: number
  readonly motorLoss: number
  readonly escLoss: number
  readonly fanEfficiency: number
  readonly motorEfficiency: number
  /** Thrust power over shaft power. */
  readonly propulsiveEfficiency: number
  readonly froudeEfficiency: number
  /** Largest relative error of the voltage, force and power balances. */
  readonly residual: number
}

/**
 * Detail of a solved point.
 * @param drag N at the point's speed; standing points have none and are not checked against it
 */
export function pointDetail(
  point: OperatingPoint,
  train: PowerTrain,
  duct: Ducted,
  soundSpeed: number,
  drag: number,
): PointDetail {
  const { current, busVoltage, busCurrent } = point
  const shaftSpeed = point.bladeSpeed / duct.radius
  const efflux = point.axialSpeed / duct.nozzleRatio
  const idle = train.idleCurrent + train.idleCurrentSlope * shaftSpeed
  const shaftPower = point.torque * shaftSpeed
  const packPower = busVoltage * busCurrent
  const motorVoltage = point.duty * busVoltage - current * train.escResistance
  const motorLoss =
    current * current * train.motorResistance +
    (idle * shaftSpeed) / train.speedConstant +
    train.ripple * busVoltage * current
  const escLoss =
    train.quiescentPower +
    train.proportionalLoss * packPower +
    (train.switching * busVoltage + train.freewheel) * current +
    current * current * train.escResistance
  const forceResidual = point.speed > 0 ? Math.abs(point.thrust - drag) / point.thrust : 0
  const powerResidual = Math.abs(packPower - shaftPower - motorLoss - escLoss) / packPower
  return {
    speed: point.speed,
    duty: point.duty,
    shaftSpeed,
    tipMach: (0.5 * shaftSpeed * duct.fan.tipDiameter) / soundSpeed,
    advanceRatio: point.speed / point.bladeSpeed,
    flowCoefficient: point.axialSpeed / point.bladeSpeed,
    efflux,
    thrust: point.thrust,
    drag,
    motorCurrent: current,
    packCurrent: busCurrent,
    packVoltage: busVoltage,
    motorVoltage,
    packPower,
    shaftPower,
    motorLoss,
    escLoss,
    fanEfficiency: point.efficiency,
    motorEfficiency: shaftPower / (shaftPower + motorLoss),
    propulsiveEfficiency: (point.thrust * point.speed) / shaftPower,
    froudeEfficiency: froudeEfficiency(point.speed, efflux),
    residual: Math.max(Math.abs(point.residual), forceResidual, powerResidual),
  }
}
