// What a setup does over its whole range instead of at single points, as series ready to be drawn: thrust, drag, efflux and
// power against flight speed at full throttle of the setting, margins against speed, temperatures through the flight.
// Plain units with a suffix; no series has more than 60 points.
import type { FlightFigures } from './result.js'

/** Full throttle of the setting at one flight speed. */
export interface ThrottlePoint {
  readonly speed_km_h: number
  readonly thrust_n: number
  readonly efflux_km_h: number
  readonly pack_current_a: number
  readonly pack_power_w: number
}

/** One flight speed: at the quoted charge, the thrust of a full pack beside it, and drag where the wing carries. */
export interface SpeedRow extends ThrottlePoint {
  readonly thrust_full_n: number
  readonly drag_n: number | null
}

/** One criterion: its margin over speed, and at the fastest speed of a full pack. */
export interface MarginLine {
  readonly criterion: string
  /** Short enough to stand beside a line. */
  readonly words: string
  /** Whether it has the least margin at the fastest speed. */
  readonly binds: boolean
  readonly at_fastest: number
  readonly rows: readonly { readonly speed_km_h: number; readonly margin: number }[]
}

export interface MarginCurves {
  readonly lines: readonly MarginLine[]
  /** Margin that was asked for, 0…1. */
  readonly wanted: number
}

/** One temperature over the flight. */
export interface HeatLine {
  readonly store: 'winding' | 'case' | 'board' | 'pack'
  readonly words: string
  readonly limit_c: number
  readonly peak_c: number
  readonly rows: readonly { readonly time_s: number; readonly temperature_c: number }[]
}

export interface HeatCurves {
  readonly lines: readonly HeatLine[]
  /** Stretches at full throttle. */
  readonly full_throttle: readonly { readonly from_s: number; readonly to_s: number }[]
  readonly time_s: number
  readonly ended_by: FlightFigures['ended_by']
}

export interface SetupCurves {
  /** State of charge at which speed is quoted, 0…1. */
  readonly charge: number
  /** From standing to beyond the speed at which a full pack has no thrust left. */
  readonly rows: readonly SpeedRow[]
  /** At the quoted charge: standing, level top speed, and where thrust vanishes. */
  readonly standing: ThrottlePoint
  readonly top: ThrottlePoint
  readonly ceiling: ThrottlePoint
  /** The same with a full pack. */
  readonly standing_full: ThrottlePoint
  readonly top_full: ThrottlePoint
  readonly ceiling_full: ThrottlePoint
  readonly stall_km_h: number
  /** Fastest with a full pack, level or out of the dive. */
  readonly fastest_km_h: number
  /** Highest speed the structure allows; null when nothing is known of it. */
  readonly allowed_km_h: number | null
  readonly target_km_h: number | null
  readonly margins: MarginCurves
  /** null when there is no flight, or it does not come to its first phase. */
  readonly heat: HeatCurves | null
}
