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

export function figuresOf(detail: SetupDetail, fan: Fan, nozzleRatio: number, binds: string): SetupFigures {
  const { temperatures, response } = detail
  const limit = detail.speedLimits.reduce<SpeedLimit | null>(
    (least, next) => (least && least.speed <= next.speed ? least : next),
    null,
  )
  return {
    mass_kg: plain(detail.mass),
    ballast_kg: plain(detail.ballast),
    pack_station_mm: plain(detail.packStation * 1000),
    pack_window_mm: detail.packWindow && [plain(detail.packWindow[0] * 1000), plain(detail.packWindow[1] * 1000)],
    cells: detail.cells,
    nozzle_exit_mm: plain(exitDiameter(fan, nozzleRatio) * 1000),
    stall_km_h: plain(detail.stallSpeed * KMH),
    stall_flaps_km_h: plain(detail.stallSpeedFlaps * KMH),
    lift_off_km_h: plain(detail.liftOffSpeed * KMH),
    landing_km_h: plain(detail.landingSpeed * KMH),
    thrust_to_weight: plain(detail.thrustToWeight),
    take_off_roll_m: detail.takeOffRoll === null ? null : bounded(detail.takeOffRoll),
    standing: pointFigures(detail.standing),
    top_full: pointFigures(detail.topFull),
    top: pointFigures(detail.top),
    top_last: detail.topLast === null ? null : pointFigures(detail.topLast),
    cruise: pointFigures(detail.cruise),
    speed_steady_km_h: plain(detail.top.speed * KMH),
    speed_in_run_km_h: plain(detail.inRunSpeed * KMH),
    speed_entry_km_h: plain(detail.entrySpeed * KMH),
    speed_dive_km_h: plain(detail.diveSpeed * KMH),
    speed_fastest_km_h: plain(detail.fastest * KMH),
    speed_allowed_km_h: limit === null ? null : plain(limit.speed * KMH),
    speed_allowed_by: limit === null ? null : CRITERION_WORDS[limit.criterion],
    turn_radius_m: bounded(detail.turnRadius),
    efflux_ceiling_km_h: plain(detail.effluxCeiling * KMH),
    flight_time_s: plain(detail.flightTime),
    mean_current_a: plain(detail.meanCurrent),
    charge_used_mah: plain(detail.chargeUsed * MAH),
    temperatures: {
      winding_c: plain(temperatures.winding - ZERO_CELSIUS),
      case_c: plain(temperatures.case - ZERO_CELSIUS),
      esc_c: plain(temperatures.esc - ZERO_CELSIUS),
      pack_c: plain(temperatures.pack - ZERO_CELSIUS),
    },
    margin: plain(detail.margin),
    margin_binds: detail.marginBinds,
    margins: detail.margins.map(({ criterion, margin }) => ({
      criterion,
      words: CRITERION_WORDS[criterion],
      margin: plain(margin),
    })),
    headroom: plain(detail.headroom),
    limits: detail.limits
      .filter(({ used }) => used > 0)
      .map(({ limit, used }) => ({ limit, words: LIMIT_WORDS[limit], used: bounded(used) })),
    elasticity: { power: plain(response.power), drag_area: plain(response.dragArea), mass: plain(response.mass) },
    binds,
    residual: residualOf(detail),
  }
}

/** A take-off that never comes, or a limit without measure, as a number that JSON can carry. */
function bounded(value: number): number {
  return plain(Math.min(value, 99_999))
}

function pointFigures(point: PointDetail): PointFigures {
  return {
    speed_km_h: plain(point.speed * KMH),
    duty: plain(point.duty),
    shaft_rpm: plain(point.shaftSpeed * RPM),
    tip_mach: plain(point.tipMach),
    advance_ratio: plain(point.advanceRatio),
    flow_coefficient: plain(point.flowCoefficient),
    efflux_m_s: plain(point.efflux),
    thrust_n: plain(point.thrust),
    drag_n: plain(point.drag),
    motor_current_a: plain(point.motorCurrent),
    pack_current_a: plain(point.packCurrent),
    pack_voltage_v: plain(point.packVoltage),
    motor_voltage_v: plain(point.motorVoltage),
    pack_power_w: plain(point.packPower),
    shaft_power_w: plain(point.shaftPower),
    motor_loss_w: plain(point.motorLoss),
    esc_loss_w: plain(point.escLoss),
    fan_efficiency: plain(point.fanEfficiency),
    motor_efficiency: plain(point.motorEfficiency),
    propulsive_efficiency: plain(point.propulsiveEfficiency),
    froude_efficiency: plain(point.froudeEfficiency),
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
