// The drag area of an airframe from one measured top speed of a known setup: the area at which the models give that
// speed. Its band combines the speed's uncertainty with that of the fan efficiency and of the pack voltage:
// u² = (∂CdA/∂V·u_V)² + (∂CdA/∂η·u_η)² + (∂CdA/∂E·u_E)², propagated as in JCGM 100:2008, 5.1.2.
// One speed cannot tell drag from efficiency: the band says how far that matters.
import { Evaluator, type Parts } from '../evaluation/evaluator.js'
import { fanNode } from '../evaluation/fan-node.js'
import type { Fan } from '../fan/fan.js'
import type { Circumstances } from '../sweep/problem.js'

/** Relative standard uncertainty of a fan's efficiency. Assumed (published small-fan efficiencies scatter more). */
export const EFFICIENCY_UNCERTAINTY = 0.05
/** Relative standard uncertainty of the pack voltage at the quoted charge. Assumed: 0.03 V on 3.95 V. */
export const VOLTAGE_UNCERTAINTY = 0.0076
/** Standard deviations from the middle to the 5 % and 95 % bounds. */
const COVERAGE = 1.645

export const DRAG_AREA_RANGE = { low: 2e-4, high: 0.08 } as const

export interface DragAreaEstimate {
  readonly dragArea: number
  /** 5 % and 95 % bounds, m². */
  readonly low: number
  readonly high: number
}

/** The measured setup: parts without their duct state, which depends on the drag area. */
export interface MeasuredSetup {
  readonly fan: Fan
  readonly nozzleRatio: number
  readonly parts: Omit<Parts, 'node'>
  readonly duty: number
}

/**
 * Drag area that makes the setup reach a measured speed, with a 5–95 % band; null when no drag area between 2 and
 * 800 cm² does.
 * @param speed m/s, on the circumstances' speed basis
 * @param uncertainty relative standard uncertainty of the speed
 */
export function fitDragArea(
  circumstances: Circumstances,
  measured: MeasuredSetup,
  speed: number,
  uncertainty: number,
): DragAreaEstimate | null {
  const area = (speedFactor: number, efficiencyFactor: number, chargeShift: number): number | null => {
    const fan = { ...measured.fan, etaPeak: measured.fan.etaPeak * efficiencyFactor }
    const charge = Math.min(1, Math.max(0, circumstances.charge + chargeShift))
    return solveArea({ ...circumstances, charge }, { ...measured, fan }, speed * speedFactor)
  }
  const dragArea = area(1, 1, 0)
  if (dragArea === null) return null
  // Near 70 % a cell's voltage changes by about 0.2 % of itself per 1 % of charge.
  const chargeShift = VOLTAGE_UNCERTAINTY / 0.2
  const slopes = [
    halfDifference(area(1 + uncertainty, 1, 0), area(1 - uncertainty, 1, 0), dragArea),
    halfDifference(area(1, 1 + EFFICIENCY_UNCERTAINTY, 0), area(1, 1 - EFFICIENCY_UNCERTAINTY, 0), dragArea),
    halfDifference(area(1, 1, chargeShift), area(1, 1, -chargeShift), dragArea),
  ]
  const width = COVERAGE * Math.hypot(...slopes)
  return { dragArea, low: Math.max(DRAG_AREA_RANGE.low, dragArea - width), high: dragArea + width }
}

/** Half the difference of two neighbours; a missing one is mirrored from the middle. */
function halfDifference(up: number | null, down: number | null, middle: number): number {
  const high = up ?? 2 * middle - (down ?? middle)
  const low = down ?? 2 * middle - (up ?? middle)
  return 0.5 * (high - low)
}

/** Bisection: the speed falls as drag area rises. */
function solveArea(circumstances: Circumstances, measured: MeasuredSetup, speed: number): number | null {
  const speedAt = (dragArea: number): number => {
    const inside = { ...circumstances, airframe: { ...circumstances.airframe, dragArea } }
    const evaluator = new Evaluator(inside, { thorough: true })
    const parts = { ...measured.parts, node: fanNode(inside, measured.fan, measured.nozzleRatio) }
    evaluator.assemble(parts)
    evaluator.evaluate(measured.duty)
    return evaluator.speed
  }
  let { low, high }: { low: number; high: number } = DRAG_AREA_RANGE
  if (speedAt(low) < speed || speedAt(high) > speed) return null
  for (let i = 0; i < 60 && high - low > 1e-9 * high; i++) {
    const middle = Math.sqrt(low * high)
    if (speedAt(middle) > speed) low = middle
    else high = middle
  }
  return Math.sqrt(low * high)
}
