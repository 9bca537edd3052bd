// Pressure-rise line and efficiency island of a fan over its flow coefficient φ = axial speed / mean blade speed.
// ψ = ψ0 − ψ1·φ is Euler work times stage efficiency for a rotor without inlet swirl (Dixon, Fluid Mechanics and
// Thermodynamics of Turbomachinery, cited from memory). Assumed: a parabolic island η = ηp·(1 − κ((φ − φp)/φp)²), floored,
// whose peak moves with blade speed as efficiency-scaling.ts says.
import { type LossScale, lossFactor } from './efficiency-scaling.js'
import type { Fan } from './fan.js'

/** Lowest stage efficiency the island is allowed to give. Assumed. */
export const ETA_FLOOR = 0.2

type Characteristic = Pick<Fan, 'psi0' | 'psi1' | 'etaPeak' | 'phiPeak' | 'kappa'>

/** Pressure-rise coefficient Δp0 / (ρ·U²) at a flow coefficient. */
export function pressureRise(fan: Characteristic, phi: number): number {
  return fan.psi0 - fan.psi1 * phi
}

/** Efficiency at a flow coefficient over the peak efficiency, without the floor. */
export function islandShare(fan: Characteristic, phi: number): number {
  const x = (phi - fan.phiPeak) / fan.phiPeak
  return 1 - fan.kappa * x * x
}

/** Listed stage efficiency (total-to-total) at a flow coefficient. */
export function stageEfficiency(fan: Characteristic, phi: number): number {
  return Math.max(ETA_FLOOR, fan.etaPeak * islandShare(fan, phi))
}

/** Peak efficiency at a mean blade speed, m/s. */
export function peakEfficiencyAt(etaPeak: number, scale: LossScale, bladeSpeed: number): number {
  return 1 - (1 - etaPeak) * lossFactor(scale, bladeSpeed)
}

/** Stage efficiency at a flow coefficient and a mean blade speed, m/s. */
export function efficiencyAt(fan: Characteristic, scale: LossScale, phi: number, bladeSpeed: number): number {
  return Math.max(ETA_FLOOR, peakEfficiencyAt(fan.etaPeak, scale, bladeSpeed) * islandShare(fan, phi))
}
