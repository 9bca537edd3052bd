// Flow through fan, duct and nozzle at an advance ratio j = flight speed / mean blade speed, in closed form.
// Balance of a unit of mass: U²·ψ(φ) = ½(Ve² − r·V²) + ½·(k + k_lip·f)·Vx² with Ve = Vx/σ. The lip loss of the inlet is
// whole standing still and fades to nothing as flight speed nears 0.4 of the efflux: f = (1 − V/(0.4·Ve))₊ (assumed). Faded
// so, the balance stays a quadratic in φ for a linear ψ, standing, climbing and at top speed alike. Solved the other way
// it gives the blade speed that a wanted thrust at a given flight speed needs.
// Valid for incompressible flow (warn above Mach 0.4); swirl leaving the stator is left out.
import { efficiencyAt, pressureRise } from './characteristic.js'
import type { LossScale } from './efficiency-scaling.js'
import type { Fan } from './fan.js'

/** Flight speed over efflux speed at which the lip loss has gone. Assumed. */
export const LIP_FADE = 0.4

/** Fan in its duct: annulus area m², mean radius m, nozzle ratio σ, duct loss k, lip loss standing still, ram recovery r. */
export interface Ducted {
  readonly fan: Fan
  readonly area: number
  readonly radius: number
  readonly nozzleRatio: number
  readonly ductLoss: number
  readonly lipLoss: number
  readonly ramRecovery: number
  readonly lossScale: LossScale
}

/** Flow coefficient φ at advance ratio j. */
export function flowCoefficient(duct: Ducted, j: number): number {
  const { psi0, psi1 } = duct.fan
  const c = lossSum(duct)
  const drive = 2 * (psi0 + 0.5 * duct.ramRecovery * j * j)
  if (duct.lipLoss > 0) {
    const a = c + duct.lipLoss
    const fade = (j * duct.nozzleRatio) / LIP_FADE
    const b = psi1 - 0.5 * duct.lipLoss * fade
    const phi = (Math.sqrt(b * b + a * drive) - b) / a
    if (phi > fade) return phi
  }
  return (Math.sqrt(psi1 * psi1 + c * drive) - psi1) / c
}

/** Thrust coefficient T / (ρ·A·U²) at advance ratio j. */
export function thrustCoefficient(duct: Ducted, j: number): number {
  const phi = flowCoefficient(duct, j)
  return phi * (phi / duct.nozzleRatio - j)
}

/** Shaft power coefficient P / (ρ·A·U³) at advance ratio j and a mean blade speed, m/s. */
export function powerCoefficient(duct: Ducted, j: number, bladeSpeed: number): number {
  const phi = flowCoefficient(duct, j)
  return (pressureRise(duct.fan, phi) * phi) / efficiencyAt(duct.fan, duct.lossScale, phi, bladeSpeed)
}

/** Advance ratio at which thrust vanishes because the efflux is no faster than the aircraft: φ(j) = σ·j. */
export function ceilingAdvanceRatio(duct: Ducted): number {
  const { psi0, psi1 } = duct.fan
  const s = duct.nozzleRatio
  // ½(1 − r + kσ²)·j² + ψ1·σ·j − ψ0 = 0; the lip loss has gone long before.
  const a = 0.5 * (1 - duct.ramRecovery + duct.ductLoss * s * s)
  const b = psi1 * s
  // The root in the form without cancellation, so that a = 0 (no losses) needs no case of its own.
  return (2 * psi0) / (b + Math.sqrt(b * b + 4 * a * psi0))
}

/** Axial speed at the fan face that gives a thrust at a flight speed: ρ·A·Vx·(Vx/σ − V) = T. m/s */
export function axialSpeedForThrust(duct: Ducted, density: number, speed: number, thrust: number): number {
  const s = duct.nozzleRatio
  return 0.5 * s * (speed + Math.sqrt(speed * speed + (4 * thrust) / (density * duct.area * s)))
}

/** Mean blade speed that drives an axial speed at a flight speed: ψ0·U² − ψ1·Vx·U = head. m/s */
export function bladeSpeedForFlow(duct: Ducted, axialSpeed: number, speed: number): number {
  const { psi0, psi1 } = duct.fan
  const lip = duct.lipLoss * Math.max(0, axialSpeed * (axialSpeed - (speed * duct.nozzleRatio) / LIP_FADE))
  const head = 0.5 * (lossSum(duct) * axialSpeed * axialSpeed + lip - duct.ramRecovery * speed * speed)
  const b = psi1 * axialSpeed
  return (b + Math.sqrt(Math.max(0, b * b + 4 * psi0 * head))) / (2 * psi0)
}

/** Nozzle head plus duct loss over the fan-face head, without the lip. */
function lossSum(duct: Ducted): number {
  return 1 / (duct.nozzleRatio * duct.nozzleRatio) + duct.ductLoss
}
