// The part of each design load left unused against flight speed, from the stall to beyond the speed that the structure
// allows. Speed limits fall with the square of speed; wing bending follows the hardest turn or pull-up flown at that
// speed, at most at the speed the evaluation judges it at; thrust on the mount is the standing one, whatever the speed.
import type { MarginCurves } from '@ductwright/contract/curves'
import type { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { pullUpLoadFactor, turnLoadFactor } from '@ductwright/models/structure/loads'
import { allowedLoadFactor, type MarginCriterion } from '@ductwright/models/structure/reserve'
import { speedMargin } from '@ductwright/models/structure/speed-limits'
import type { Circumstances } from '@ductwright/models/sweep/problem'

const SHORT_WORDS: Readonly<Record<MarginCriterion, string>> = {
  'design-speed': 'design speed',
  'wing-flutter': 'wing flutter',
  'tail-flutter': 'tail flutter',
  'wing-divergence': 'wing divergence',
  'control-flutter': 'control flutter',
  'servo-torque': 'servo torque',
  'wing-bending': 'wing bending',
  'fan-mount': 'fan mount',
}

const KMH = 3.6
/** The lines are next to parabolas: so few points are within a thousandth of the design load of them. */
const STEPS = 30
/** How far the lines go beyond the allowed speed, and at least beyond the fastest. */
const BEYOND_ALLOWED = 1.1
const BEYOND_FASTEST = 1.02

type Margin = (speed: number) => number

/** Curves of an evaluator that has worked a setup through. */
export function marginCurves(circumstances: Circumstances, evaluator: Evaluator): MarginCurves {
  const { fastest } = evaluator
  const margins: [MarginCriterion, Margin][] = [
    ...evaluator.speedLimits.map(({ criterion, speed: limit }): [MarginCriterion, Margin] => [
      criterion,
      (speed) => speedMargin(speed, limit),
    ]),
    ['wing-bending', bendingMargin(circumstances, evaluator)],
    ['fan-mount', () => 1 - evaluator.mountShare],
  ]
  const least = Math.min(...margins.map(([, margin]) => margin(fastest)))
  const speeds = speedsOf(evaluator)
  return {
    wanted: circumstances.limits.margin,
    lines: margins.map(([criterion, margin]) => ({
      criterion,
      words: SHORT_WORDS[criterion],
      binds: margin(fastest) === least,
      at_fastest: margin(fastest),
      rows: speeds.map((speed) => ({ speed_km_h: speed * KMH, margin: margin(speed) })),
    })),
  }
}

function bendingMargin({ profile, airframe }: Circumstances, evaluator: Evaluator): Margin {
  const { turnRadius, pullUpRadius, loadFactor } = profile
  const allowed = allowedLoadFactor(airframe.rootMomentUltimate, evaluator.weight, airframe.span)
  return (speed) => {
    const turning = Math.min(speed, evaluator.topFull.speed)
    const turn = turnRadius < Number.POSITIVE_INFINITY ? turnLoadFactor(turning, turnRadius) : 1
    const pullUp = pullUpRadius < Number.POSITIVE_INFINITY ? pullUpLoadFactor(speed, pullUpRadius) : 1
    return 1 - Math.max(loadFactor, turn, pullUp) / allowed
  }
}

function speedsOf({ stall, fastest, speedLimits }: Evaluator): readonly number[] {
  const allowed = Math.min(...speedLimits.map(({ speed }) => speed))
  const last = Math.max(allowed < Number.POSITIVE_INFINITY ? BEYOND_ALLOWED * allowed : 0, BEYOND_FASTEST * fastest)
  return Array.from({ length: STEPS + 1 }, (_, i) => stall + ((last - stall) * i) / STEPS)
}
