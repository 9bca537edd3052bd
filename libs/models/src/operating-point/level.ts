// Level flight at a fixed duty. For any flight speed, drag fixes thrust, thrust fixes the flow, the flow fixes blade
// speed and torque, all in closed form; so top speed is the root of one scalar residual in speed: motor voltage that
// is there minus motor voltage that is needed. Newton with the analytic slope, from the root without induced drag.
// Valid while lift equals weight and the flow is incompressible (warn above Mach 0.4).
import { ETA_FLOOR } from '../fan/characteristic.js'
import { type Ducted, flowCoefficient, LIP_FADE } from '../fan/duct-flow.js'
import { lossFactor, lossFactorSlope } from '../fan/efficiency-scaling.js'
import { ITERATION_LIMIT, type OperatingPoint, type SolveOutcome, VOLTAGE_TOLERANCE } from './operating-point.js'
import { busCurrent, busVoltage, busVoltageSlope, motorCurrent, type PowerTrain } from './power-train.js'

/** W² / (½·ρ·π·e·b²), N·m²/s²: induced drag times V². */
export function inducedDragFactor(
  airframe: { readonly span: number; readonly oswald: number },
  weight: number,
  density: number,
): number {
  return (weight * weight) / (0.5 * density * Math.PI * airframe.oswald * airframe.span * airframe.span)
}

/**
 * Advance ratio at top speed without induced drag: t(j)/j² = CdA/(2A). It depends on fan, duct and airframe only.
 * Bisection on (0, ceiling), where t(j)/j² falls monotonically.
 */
export function levelAdvanceRatio(duct: Ducted, dragArea: number, ceiling: number): number {
  const share = dragArea / (2 * duct.area)
  let low = 0
  let high = ceiling
  for (let i = 0; i < 200 && high - low > 1e-15 * ceiling; i++) {
    const j = 0.5 * (low + high)
    const phi = flowCoefficient(duct, j)
    if (phi * (phi / duct.nozzleRatio - j) > share * j * j) low = j
    else high = j
  }
  return 0.5 * (low + high)
}

/**
 * Solves level top speed into `point`.
 * @param parasite ½·ρ·CdA, N·s²/m²: drag without the induced part over V²
 * @param induced W²/(½·ρ·π·e·b²), N·m²/s²: induced drag times V²
 * @param startSpeed first guess, m/s, above the root or close to it
 * @param leastSpeed speed under which there is no level flight (near the stall), m/s
 */
export function solveLevel(
  duct: Ducted,
  density: number,
  parasite: number,
  induced: number,
  train: PowerTrain,
  startSpeed: number,
  leastSpeed: number,
  point: OperatingPoint,
): SolveOutcome {
  const { psi0, psi1, etaPeak, phiPeak, kappa } = duct.fan
  const sigma = duct.nozzleRatio
  const c = 1 / (sigma * sigma) + duct.ductLoss
  const r = duct.ramRecovery
  const { lipLoss, lossScale } = duct
  const fade = sigma / LIP_FADE
  const flow = 4 / (density * duct.area * sigma)
  const torqueFactor = density * duct.area * duct.radius
  const emfPerSpeed = 1 / (duct.radius * train.speedConstant)
  const resistance = train.motorResistance + train.escResistance
  let v = startSpeed
  for (let i = 1; i <= ITERATION_LIMIT; i++) {
    const vv = v * v
    const drag = parasite * vv + induced / vv
    const dragSlope = 2 * (parasite * v - induced / (vv * v))
    const s = Math.sqrt(vv + flow * drag)
    const axial = 0.5 * sigma * (v + s)
    const axialSlope = 0.5 * sigma * (1 + (v + 0.5 * flow * dragSlope) / s)
    let head = 0.5 * (c * axial * axial - r * vv)
    let headSlope = c * axial * axialSlope - r * v
    if (lipLoss > 0 && axial > fade * v) {
      head += 0.5 * lipLoss * axial * (axial - fade * v)
      headSlope += 0.5 * lipLoss * (axialSlope * (2 * axial - fade * v) - fade * axial)
    }
    const root = Math.sqrt(psi1 * psi1 * axial * axial + 4 * psi0 * head)
    const u = (psi1 * axial + root) / (2 * psi0)
    const uSlope = (psi1 * axialSlope + (psi1 * psi1 * axial * axialSlope + 2 * psi0 * headSlope) / root) / (2 * psi0)
    const phi = axial / u
    const x = (phi - phiPeak) / phiPeak
    const island = 1 - kappa * x * x
    const factor = lossFactor(lossScale, u)
    const peak = 1 - (1 - etaPeak) * factor
    let eta = peak * island
    let etaSlope =
      ((-2 * peak * kappa * x) / phiPeak) * ((axialSlope - phi * uSlope) / u) -
      (1 - etaPeak) * lossFactorSlope(lossScale, u, factor) * uSlope * island
    if (eta <= ETA_FLOOR) {
      eta = ETA_FLOOR
      etaSlope = 0
    }
    const torque = (torqueFactor * axial * head) / (u * eta)
    const current = motorCurrent(train, torque, u / duct.radius)
    const voltage = busVoltage(train, current)
    if (!(voltage > 0)) {
      // Asked too much: come down towards the speeds that the source can feed.
      v *= 0.9
      if (v < leastSpeed) return 'source-exhausted'
      continue
    }
    const available = train.duty * voltage
    const residual = available - current * resistance - u * emfPerSpeed
    if (Math.abs(residual) <= VOLTAGE_TOLERANCE * available) {
      if (v < leastSpeed) return 'no-level-flight'
      point.speed = v
      point.bladeSpeed = u
      point.axialSpeed = axial
      point.thrust = (4 / flow / (sigma * sigma)) * axial * (axial - sigma * v)
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
    const torqueSlope = torque * (axialSlope / axial + headSlope / head - uSlope / u - etaSlope / eta)
    const currentSlope = train.speedConstant * torqueSlope + (train.idleCurrentSlope * uSlope) / duct.radius
    const slope =
      (train.duty * busVoltageSlope(train, current, voltage) - resistance) * currentSlope - emfPerSpeed * uSlope
    if (slope >= 0) return 'no-level-flight'
    const next = v - residual / slope
    if (!(next > 0.25 * v)) {
      v *= 0.25
    } else v = next
    if (v < 0.5 * leastSpeed) return 'no-level-flight'
  }
  return 'not-converged'
}
