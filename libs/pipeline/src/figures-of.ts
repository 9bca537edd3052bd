// From SI detail to the figures of a result: plain units, six significant digits, limits and criteria in words.
import type { PointFigures, SetupFigures } from '@ductwright/contract/result'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import type { PointDetail } from '@ductwright/models/evaluation/point-detail'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { exitDiameter } from '@ductwright/models/fan/annulus'
import type { Fan } from '@ductwright/models/fan/fan'
import type { SpeedLimit } from '@ductwright/models/structure/speed-limits'
import { CRITERION_WORDS, LIMIT_WORDS } from './limit-words.js'

const KMH = 3.6
const RPM = 30 / Math.PI
const MAH = 1 / 3.6

/** Six significant digits: more than any model here is good for, and bytes that are easy to compare. */
export function plain(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(6)) : value
}

/** Plain data with every number in it rounded so. */
export function plainly<Value>(value: Value): Value {
  if (typeof value === 'number') return plain(value) as Value
  if (Array.isArray(value)) return value.map(plainly) as Value
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([key, inside]) => [key, plainly(inside)])) as Value
}

/** @param round what every figure is rounded by, but the residual */
export function figuresOf(
  detail: SetupDetail,
  fan: Fan,
  nozzleRatio: number,
  binds: string,
  round: (value: number) => number = plain,
): SetupFigures {
  const { temperatures, response } = detail
  const point = (at: PointDetail): PointFigures => pointFigures(at, round)
  const limit = detail.speedLimits.reduce<SpeedLimit | null>(
    (least, next) => (least && least.speed <= next.speed ? least : next),
    null,
  )
  return {
    mass_kg: round(detail.mass),
    ballast_kg: round(detail.ballast),
    pack_station_mm: round(detail.packStation * 1000),
    pack_window_mm: detail.packWindow && [round(detail.packWindow[0] * 1000), round(detail.packWindow[1] * 1000)],
    cells: detail.cells,
    nozzle_exit_mm: round(exitDiameter(fan, nozzleRatio) * 1000),
    stall_km_h: round(detail.stallSpeed * KMH),
    stall_flaps_km_h: round(detail.stallSpeedFlaps * KMH),
    lift_off_km_h: round(detail.liftOffSpeed * KMH),
    landing_km_h: round(detail.landingSpeed * KMH),
    thrust_to_weight: round(detail.thrustToWeight),
    take_off_roll_m: detail.takeOffRoll === null ? null : round(bounded(detail.takeOffRoll)),
    standing: point(detail.standing),
    top_full: point(detail.topFull),
    top: point(detail.top),
    top_last: detail.topLast === null ? null : point(detail.topLast),
    cruise: point(detail.cruise),
    speed_steady_km_h: round(detail.top.speed * KMH),
    speed_in_run_km_h: round(detail.inRunSpeed * KMH),
    speed_entry_km_h: round(detail.entrySpeed * KMH),
    speed_dive_km_h: round(detail.diveSpeed * KMH),
    speed_fastest_km_h: round(detail.fastest * KMH),
    speed_allowed_km_h: limit === null ? null : round(limit.speed * KMH),
    speed_allowed_by: limit === null ? null : CRITERION_WORDS[limit.criterion],
    turn_radius_m: round(bounded(detail.turnRadius)),
    efflux_ceiling_km_h: round(detail.effluxCeiling * KMH),
    flight_time_s: round(detail.flightTime),
    mean_current_a: round(detail.meanCurrent),
    charge_used_mah: round(detail.chargeUsed * MAH),
    temperatures: {
      winding_c: round(temperatures.winding - ZERO_CELSIUS),
      case_c: round(temperatures.case - ZERO_CELSIUS),
      esc_c: round(temperatures.esc - ZERO_CELSIUS),
      pack_c: round(temperatures.pack - ZERO_CELSIUS),
    },
    margin: round(detail.margin),
    margin_binds: detail.marginBinds,
    margins: detail.margins.map(({ criterion, margin }) => ({
      criterion,
      words: CRITERION_WORDS[criterion],
      margin: round(margin),
    })),
    headroom: round(detail.headroom),
    limits: detail.limits
      .filter(({ used }) => used > 0)
      .map(({ limit, used }) => ({ limit, words: LIMIT_WORDS[limit], used: round(bounded(used)) })),
    elasticity: { power: round(response.power), drag_area: round(response.dragArea), mass: round(response.mass) },
    binds,
    residual: residualOf(detail),
  }
}

/** A take-off that never comes, or a limit without measure, as a number that JSON can carry. */
export function bounded(value: number): number {
  return Math.min(value, 99_999)
}

function pointFigures(point: PointDetail, round: (value: number) => number): PointFigures {
  return {
    speed_km_h: round(point.speed * KMH),
    duty: round(point.duty),
    shaft_rpm: round(point.shaftSpeed * RPM),
    tip_mach: round(point.tipMach),
    advance_ratio: round(point.advanceRatio),
    flow_coefficient: round(point.flowCoefficient),
    efflux_m_s: round(point.efflux),
    thrust_n: round(point.thrust),
    drag_n: round(point.drag),
    motor_current_a: round(point.motorCurrent),
    pack_current_a: round(point.packCurrent),
    pack_voltage_v: round(point.packVoltage),
    motor_voltage_v: round(point.motorVoltage),
    pack_power_w: round(point.packPower),
    shaft_power_w: round(point.shaftPower),
    motor_loss_w: round(point.motorLoss),
    esc_loss_w: round(point.escLoss),
    fan_efficiency: round(point.fanEfficiency),
    motor_efficiency: round(point.motorEfficiency),
    propulsive_efficiency: round(point.propulsiveEfficiency),
    froude_efficiency: round(point.froudeEfficiency),
  }
}

/** The worst balance of all points; rounded up to two digits, since only its size matters. */
function residualOf(detail: SetupDetail): number {
  const points = [
    detail.standing,
    detail.topFull,
    detail.top,
    detail.cruise,
    ...(detail.topLast ? [detail.topLast] : []),
  ]
  return Number(Math.max(...points.map(({ residual }) => residual)).toPrecision(2))
}
