// Pressure-rise line and efficiency island of a fan over its flow coefficient φ = axial speed / mean blade speed.
// ψ = ψ0 − ψ1·φ is Euler work times stage efficiency for a rotor without inlet swirl (Dixon, Fluid Mechanics and
// Thermodynamics of Turbomachinery, cited from memory). Assumed: a parabolic island η = ηp·(1 − κ((φ − φp)/φp)²), floored.
import type { Fan } from './fan.js'

/** Lowest stage efficiency the island is allowed to give. Assumed. */
export const ETA_FLOOR = 0.2

type Characteristic = Pick<Fan, 'psi0' | 'psi1' | 'etaPeak' | 'phiPeak' | 'kappa'>

/** Pressure-rise coefficient Δp0 / (ρ·U²) at a flow coefficient. */
export function pressureRise(fan: Characteristic, phi: number): number {
  return fan.psi0 - fan.psi1 * phi
}

/** Stage efficiency (total-to-total) at a flow coefficient. */
export function stageEfficiency(fan: Characteristic, phi: number): number {
  const x = (phi - fan.phiPeak) / fan.phiPeak
  return Math.max(ETA_FLOOR, fan.etaPeak * (1 - fan.kappa * x * x))
}
