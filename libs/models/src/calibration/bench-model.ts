// What a fan standing still on a bench shows at one nozzle: from its characteristic and shaft speed the thrust, and with a
// known motor the current and voltage. Flight speed 0, so ψ = ½·c·φ² with c = 1/σ² + k, where the duct loss k holds the
// inlet lip; T = ρAU²φ²/σ; torque Q = ρAU²·r_m·ψφ/η; I = Q·Kv + I0(Ω), V = I·R + Ω/Kv; full throttle.
// Equations as in duct-flow.ts and motor-equations.ts.
import { annulusArea, meanRadius } from '../fan/annulus.js'
import { efficiencyAt } from '../fan/characteristic.js'
import { type LossScale, lossScale } from '../fan/efficiency-scaling.js'
import type { Fan } from '../fan/fan.js'

/** Fan geometry and the part of its characteristic that is not fitted. */
export type BenchFan = Pick<Fan, 'tipDiameter' | 'hubDiameter' | 'phiPeak' | 'kappa'>

/** Motor in the state it runs in: at its timing and temperatures. rad/(s·V), Ω, A, A·s. */
export interface BenchMotor {
  readonly speedConstant: number
  readonly resistance: number
  readonly noLoadCurrent: number
  readonly noLoadCurrentSlope: number
}

/** What lies between the pack and the motor at full throttle; all 0 when voltage is taken at the motor. Ω, W, 1. */
export interface BenchController {
  readonly resistance: number
  readonly quiescentPower: number
  readonly proportionalLoss: number
}

export interface BenchRig {
  readonly fan: BenchFan
  readonly air: { readonly density: number; readonly soundSpeed: number; readonly viscosity: number }
  readonly motor: BenchMotor | null
  readonly controller: BenchController
}

/** The rig with what depends on it alone worked out. */
export interface PreparedRig extends BenchRig {
  readonly area: number
  readonly radius: number
  readonly lossScale: LossScale
}

/** What is fitted, and the inputs that are known only within an uncertainty; factors are on the rig's own values. */
export interface BenchUnknowns {
  readonly psi0: number
  readonly psi1: number
  readonly etaPeak: number
  readonly phiPeak: number
  readonly kappa: number
  readonly ductLoss: number
  readonly densityFactor: number
  readonly speedConstantFactor: number
}

/** What instruments would show at one point. Currents and voltages are those at the pack. */
export interface BenchReading {
  readonly flowCoefficient: number
  readonly efficiency: number
  readonly shaftPower: number
  readonly thrust: number
  /** null without a motor, as are the following. */
  readonly current: number | null
  readonly voltage: number | null
  readonly motorVoltage: number | null
}

export function prepareRig(rig: BenchRig): PreparedRig {
  const radius = meanRadius(rig.fan)
  const scale = lossScale((0.5 * rig.fan.tipDiameter) / radius, rig.air)
  return { ...rig, area: annulusArea(rig.fan), radius, lossScale: scale }
}

/** Flow coefficient standing still: the root of ½cφ² + ψ1φ − ψ0 = 0. */
export function standingFlow({ psi0, psi1, ductLoss }: BenchUnknowns, nozzleRatio: number): number {
  const c = 1 / (nozzleRatio * nozzleRatio) + ductLoss
  return (2 * psi0) / (psi1 + Math.sqrt(psi1 * psi1 + 2 * c * psi0))
}

/** Readings of a point at a shaft speed, rad/s. */
export function readingAt(
  rig: PreparedRig,
  unknowns: BenchUnknowns,
  nozzleRatio: number,
  shaftSpeed: number,
): BenchReading {
  const { psi0, psi1 } = unknowns
  const bladeSpeed = shaftSpeed * rig.radius
  const phi = standingFlow(unknowns, nozzleRatio)
  const efficiency = efficiencyAt(unknowns, rig.lossScale, phi, bladeSpeed)
  const push = rig.air.density * unknowns.densityFactor * rig.area * bladeSpeed * bladeSpeed
  const shaftPower = (push * bladeSpeed * (psi0 - psi1 * phi) * phi) / efficiency
  return {
    flowCoefficient: phi,
    efficiency,
    shaftPower,
    thrust: (push * phi * phi) / nozzleRatio,
    ...electrical(rig, unknowns.speedConstantFactor, shaftPower / shaftSpeed, shaftSpeed),
  }
}

function electrical(
  rig: PreparedRig,
  factor: number,
  torque: number,
  shaftSpeed: number,
): Pick<BenchReading, 'current' | 'voltage' | 'motorVoltage'> {
  const { motor, controller } = rig
  if (motor === null) return { current: null, voltage: null, motorVoltage: null }
  const speedConstant = motor.speedConstant * factor
  const current = torque * speedConstant + motor.noLoadCurrent + motor.noLoadCurrentSlope * shaftSpeed
  const motorVoltage = current * motor.resistance + shaftSpeed / speedConstant
  const voltage = motorVoltage + current * controller.resistance
  return {
    motorVoltage,
    voltage,
    current: (current + controller.quiescentPower / voltage) / (1 - controller.proportionalLoss),
  }
}
