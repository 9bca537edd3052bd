// Motor, speed controller and pack as one source of torque at a fixed duty, in one electrical state.
//   I = Q·Kv + I0(Ω);  δ·V_bus − I·(R_motor + R_esc) = Ω/Kv;  V_bus = E − I_bus·R_source
//   I_bus·(1 − ε) = (δ + α)·I + (P_q + β·I)/V_bus, with α the switching and ripple shares and β the freewheel voltage
// so the bus voltage under a motor current is the root of a quadratic.

import type { Esc } from '../esc/esc.js'
import { conductingShare, freewheelVoltage, rippleShare, switchingShare } from '../esc/esc-losses.js'

/** One electrical state; SI. Mutable so that a sweep can refill one object. */
export interface PowerTrain {
  /** Speed constant at the timing, rad/s per V. */
  speedConstant: number
  idleCurrent: number
  idleCurrentSlope: number
  motorResistance: number
  /** Path resistance of the controller at its temperature, Ω, and what of it carries the current at this duty. */
  pathResistance: number
  escResistance: number
  quiescentPower: number
  proportionalLoss: number
  duty: number
  /** Share of V·I lost in switching, in the controller. */
  switching: number
  /** Share of V·I lost to current ripple, in the motor. */
  ripple: number
  /** Mean freewheel voltage, V. */
  freewheel: number
  /** Open-circuit voltage of the source, V. */
  openVoltage: number
  sourceResistance: number
}

/** A train with everything at zero, to be filled in. */
export function emptyPowerTrain(): PowerTrain {
  return {
    speedConstant: 0,
    idleCurrent: 0,
    idleCurrentSlope: 0,
    motorResistance: 0,
    pathResistance: 0,
    escResistance: 0,
    quiescentPower: 0,
    proportionalLoss: 0,
    duty: 0,
    switching: 0,
    ripple: 0,
    freewheel: 0,
    openVoltage: 0,
    sourceResistance: 0,
  }
}

/** What of a controller part-throttle losses depend on. */
export type SwitchingEsc = Pick<
  Esc,
  'switchingTime' | 'switchingFrequency' | 'freewheelDrop' | 'deadTimeDrop' | 'freewheelResistanceShare'
>

/** Sets the duty and the part-throttle losses that follow from it. */
export function setDuty(train: PowerTrain, esc: SwitchingEsc, duty: number): void {
  train.duty = duty
  train.escResistance = train.pathResistance * conductingShare(esc, duty)
  train.switching = switchingShare(esc, duty)
  train.ripple = rippleShare(duty)
  train.freewheel = freewheelVoltage(esc, duty)
}

/** Motor current that gives a torque (N·m) at a shaft speed (rad/s), A. */
export function motorCurrent(train: PowerTrain, torque: number, shaftSpeed: number): number {
  return torque * train.speedConstant + train.idleCurrent + train.idleCurrentSlope * shaftSpeed
}

/** Bus voltage under a motor current, V; NaN when the source cannot deliver it. */
export function busVoltage(train: PowerTrain, current: number): number {
  const k = train.sourceResistance / (1 - train.proportionalLoss)
  const b = train.openVoltage - k * (train.duty + train.switching + train.ripple) * current
  const q = b * b - 4 * k * (train.quiescentPower + train.freewheel * current)
  return q < 0 ? Number.NaN : 0.5 * (b + Math.sqrt(q))
}

/**
 * Bus voltage when the motor takes a power δ·V·I (W) whatever the voltage, V; NaN when the source cannot deliver it. With the
 * duty free this is the root that stays apart from its twin as near to exhaustion as the source goes.
 */
export function busVoltageAtPower(train: PowerTrain, current: number, power: number): number {
  const k = train.sourceResistance / (1 - train.proportionalLoss)
  const b = train.openVoltage - k * (train.switching + train.ripple) * current
  const q = b * b - 4 * k * (train.quiescentPower + train.freewheel * current + power)
  return q < 0 ? Number.NaN : 0.5 * (b + Math.sqrt(q))
}

/** Slope of the bus voltage with motor current, V/A, at a current where the bus voltage is known. */
export function busVoltageSlope(train: PowerTrain, current: number, voltage: number): number {
  const k = train.sourceResistance / (1 - train.proportionalLoss)
  const share = train.duty + train.switching + train.ripple
  const root = 2 * voltage - (train.openVoltage - k * share * current)
  return -(k * share * voltage + k * train.freewheel) / root
}

/** Current drawn from the pack under a motor current at a bus voltage, A. */
export function busCurrent(train: PowerTrain, current: number, voltage: number): number {
  const load = (train.duty + train.switching + train.ripple) * current
  return (load + (train.quiescentPower + train.freewheel * current) / voltage) / (1 - train.proportionalLoss)
}
