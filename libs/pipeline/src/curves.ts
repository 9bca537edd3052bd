// What a setup does over its whole range instead of at single points, as series ready to be drawn: thrust, drag, efflux
// and power against flight speed at full throttle of the setting, margins against speed, temperatures through the flight.
// In: circumstances, parts and duty as the models take them. Out: plain units with a suffix, null when nothing flies.
// Each point of a curve is solved anew at its speed; nothing is interpolated. The contract says what the series mean.
import type { SetupCurves, SpeedRow, ThrottlePoint } from '@ductwright/contract/curves'
import { Evaluator, type Parts } from '@ductwright/models/evaluation/evaluator'
import { ceilingAdvanceRatio } from '@ductwright/models/fan/duct-flow'
import type { Timeline } from '@ductwright/models/flight/timeline'
import { solveAtDuty } from '@ductwright/models/operating-point/at-duty'
import { emptyOperatingPoint, type OperatingPoint } from '@ductwright/models/operating-point/operating-point'
import type { PowerTrain } from '@ductwright/models/operating-point/power-train'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { heatCurves } from './heat-curves.js'
import { marginCurves } from './margin-curves.js'

export interface CurvesInput {
  readonly circumstances: Circumstances
  readonly parts: Parts
  readonly duty: number
  /** Wanted speed, m/s; null: none. */
  readonly target: number | null
  /** The flight of the same setup; null leaves temperatures out. */
  readonly timeline: Timeline | null
}

const KMH = 3.6
/** Points of a curve over speed, less one: a bend then never spans more than a few pixels. */
const STEPS = 59
/** How far the curves go beyond the speed at which thrust vanishes. */
const BEYOND_CEILING = 1.15

/** Every curve of a setup, limits broken or not; null when it cannot be worked through. */
export function setupCurves(input: CurvesInput): SetupCurves | null {
  const { circumstances, parts, duty, target, timeline } = input
  const evaluator = new Evaluator(circumstances, { thorough: true })
  if (!evaluator.assemble(parts) || !evaluator.evaluate(duty)) return null
  const { full, quoted } = evaluator
  const at = (speed: number, train: PowerTrain) => throttlePoint(input, speed, train)
  const ceiling = ceilingSpeed(input, quoted)
  const ceilingFull = ceilingSpeed(input, full)
  const allowed = Math.min(Number.POSITIVE_INFINITY, ...evaluator.speedLimits.map(({ speed }) => speed))
  return {
    charge: circumstances.charge,
    rows: speedRows(input, evaluator, BEYOND_CEILING * Math.max(ceiling, ceilingFull)),
    standing: at(0, quoted),
    top: at(evaluator.top.speed, quoted),
    ceiling: at(ceiling, quoted),
    standing_full: at(0, full),
    top_full: at(evaluator.topFull.speed, full),
    ceiling_full: at(ceilingFull, full),
    stall_km_h: evaluator.stall * KMH,
    fastest_km_h: evaluator.fastest * KMH,
    allowed_km_h: allowed < Number.POSITIVE_INFINITY ? allowed * KMH : null,
    target_km_h: target === null ? null : target * KMH,
    margins: marginCurves(circumstances, evaluator),
    heat: timeline === null ? null : heatCurves(circumstances, parts, timeline),
  }
}

function speedRows(input: CurvesInput, evaluator: Evaluator, last: number): readonly SpeedRow[] {
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const speed = (last * i) / STEPS
    return {
      ...throttlePoint(input, speed, evaluator.quoted),
      thrust_full_n: solved(input, speed, evaluator.full).thrust,
      drag_n: speed >= evaluator.stall ? evaluator.drag(speed) : null,
    }
  })
}

function throttlePoint(input: CurvesInput, speed: number, train: PowerTrain): ThrottlePoint {
  const point = solved(input, speed, train)
  return {
    speed_km_h: speed * KMH,
    thrust_n: point.thrust,
    efflux_km_h: (point.axialSpeed / input.parts.node.duct.nozzleRatio) * KMH,
    pack_current_a: point.busCurrent,
    pack_power_w: point.busCurrent * point.busVoltage,
  }
}

/** @throws RangeError when the chain has no state at that speed, which a setup that flies always has */
function solved({ circumstances, parts }: CurvesInput, speed: number, train: PowerTrain): OperatingPoint {
  const point = emptyOperatingPoint()
  const outcome = solveAtDuty(parts.node.duct, circumstances.density, speed, train, point)
  if (outcome !== 'ok') throw new RangeError(`no state at a flight speed of ${speed} m/s and full throttle: ${outcome}`)
  return point
}

/**
 * Flight speed at which the efflux is no faster than the aircraft, m/s: the advance ratio there is fixed by fan and duct,
 * and the fan turns at most as fast as without load. Bisection, since thrust falls with speed.
 */
function ceilingSpeed(input: CurvesInput, train: PowerTrain): number {
  const { duct } = input.parts.node
  let low = 0
  let high = ceilingAdvanceRatio(duct) * train.duty * train.openVoltage * train.speedConstant * duct.radius
  for (let i = 0; i < 100 && high - low > 1e-13 * high; i++) {
    const middle = 0.5 * (low + high)
    if (solved(input, middle, train).thrust > 0) low = middle
    else high = middle
  }
  return 0.5 * (low + high)
}
