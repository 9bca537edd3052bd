// The flight of a setup as phases, in plain units and words.
import type { FlightFigures } from '@ductwright/contract/result'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { LevelFlight } from '@ductwright/models/evaluation/sensitivity'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { PhaseName } from '@ductwright/models/flight/flight-log'
import type { FullThrottleHold } from '@ductwright/models/flight/full-throttle-hold'
import { flightTimeline, type Timeline } from '@ductwright/models/flight/timeline'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { plain } from './figures-of.js'

const MAH = 1 / 3.6

const PHASE_WORDS: Readonly<Record<PhaseName, string>> = {
  'take-off': 'take-off',
  climb: 'climb at full throttle',
  pass: 'pass at full throttle',
  turn: 'turn',
  cruise: 'cruise, cooling down',
  approach: 'approach',
}

const ENDS: Readonly<Record<FullThrottleHold['endedBy'], string>> = {
  winding: 'motor winding temperature',
  case: 'magnet temperature',
  board: 'speed controller temperature',
  pack: 'pack temperature',
  charge: 'the charge kept for landing',
  underpowered: 'a pack too weak to fly on',
}

/** The flight of a setup that has been worked through. */
export function timelineOf(circumstances: Circumstances, parts: Parts, duty: number, detail: SetupDetail): Timeline {
  const { parasite, induced }: Pick<LevelFlight, 'parasite' | 'induced'> = detail.level
  return flightTimeline({
    parts,
    circumstances,
    duty,
    mass: detail.mass,
    stall: detail.stallSpeed,
    parasite,
    induced,
    roll: detail.takeOffRoll !== null && Number.isFinite(detail.takeOffRoll) ? detail.takeOffRoll : null,
  })
}

export function flightFigures(timeline: Timeline): FlightFigures {
  const { peaks, fullThrottle } = timeline
  return {
    phases: timeline.phases.map((phase) => ({
      phase: phase.phase,
      words: PHASE_WORDS[phase.phase],
      start_s: plain(phase.start),
      time_s: plain(phase.time),
      speed_km_h: plain(phase.speed * 3.6),
      duty: plain(phase.duty),
      pack_voltage_v: plain(phase.packVoltage),
      pack_current_a: plain(phase.packCurrent),
      motor_current_a: plain(phase.motorCurrent),
      pack_power_w: plain(phase.packPower),
      charge_left: plain(phase.chargeLeft),
      winding_c: celsius(phase.winding),
      case_c: celsius(phase.case),
      esc_c: celsius(phase.board),
      pack_c: celsius(phase.pack),
    })),
    passes: timeline.passes,
    ended_by: timeline.endedBy,
    charge_used_mah: plain(timeline.chargeUsed * MAH),
    energy_used_wh: plain(timeline.phases.reduce((sum, { packPower, time }) => sum + packPower * time, 0) / 3600),
    time_to_reserve_s: plain(timeline.timeToReserve),
    least_pack_voltage_v: orNull(timeline.packVoltage, 1),
    first_pass_km_h: orNull(timeline.firstPassSpeed, 3.6),
    last_pass_km_h: orNull(timeline.lastPassSpeed, 3.6),
    peak_winding_c: celsius(peaks.winding.temperature),
    peak_case_c: celsius(peaks.case.temperature),
    peak_esc_c: celsius(peaks.board.temperature),
    peak_pack_c: celsius(peaks.pack.temperature),
    full_throttle_s: plain(fullThrottle.time),
    full_throttle_ends: ENDS[fullThrottle.endedBy],
    cool_down_s: orNull(timeline.coolDown, 1),
  }
}

function celsius(kelvin: number): number {
  return plain(kelvin - ZERO_CELSIUS)
}

function orNull(value: number | null, factor: number): number | null {
  return value === null ? null : plain(value * factor)
}
