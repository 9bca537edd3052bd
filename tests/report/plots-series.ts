// Made-up curves for the page of charts: the right shape and size, and nothing behind them.
import type { HeatLine, SetupCurves } from '@ductwright/contract/curves'
import type { PlotsSubject } from '@ductwright/report/plots-page'
import { hostileNames } from './fixture.js'

const CEILING = 430
const LAST = 500

function throttle(speed_km_h: number) {
  const thrust_n = 62 * (1 - speed_km_h / CEILING)
  const efflux_km_h = 330 + (100 * speed_km_h) / CEILING
  const pack_current_a = 130 - 0.1 * speed_km_h
  return { speed_km_h, thrust_n, efflux_km_h, pack_current_a, pack_power_w: 41 * pack_current_a }
}

const full = (speed_km_h: number) => ({ ...throttle(speed_km_h), thrust_n: 68 * (1 - speed_km_h / 455) })

function marginLine(criterion: string, words: string, limit: number, binds: boolean) {
  const margin = (speed: number) => 1 - (speed / limit) ** 2
  const rows = Array.from({ length: 20 }, (_, i) => 60 + i * 22).map((speed_km_h) => ({
    speed_km_h,
    margin: margin(speed_km_h),
  }))
  return { criterion, words, binds, at_fastest: margin(330), rows }
}

function heatLine(store: HeatLine['store'], words: string, peak_c: number, limit_c: number) {
  const rows = [0, 30, 60, 90, 120].map((time_s, i) => ({ time_s, temperature_c: 20 + ((peak_c - 20) * i) / 4 }))
  return { store, words, peak_c, limit_c, rows }
}

export function plotsCurves(changes: Partial<SetupCurves> = {}): SetupCurves {
  const rows = Array.from({ length: 101 }, (_, i) => (LAST * i) / 100).map((speed) => ({
    ...throttle(speed),
    thrust_full_n: full(speed).thrust_n,
    drag_n: speed < 60 ? null : 2e-4 * speed * speed,
  }))
  return {
    charge: 0.7,
    rows,
    standing: throttle(0),
    standing_full: full(0),
    top: throttle(302.5),
    top_full: full(319.8),
    ceiling: throttle(CEILING),
    ceiling_full: full(455),
    stall_km_h: 60,
    fastest_km_h: 330,
    allowed_km_h: 412,
    target_km_h: 361,
    margins: {
      wanted: 0.1,
      lines: [
        marginLine('wing-flutter', 'wing flutter', 412, true),
        marginLine('tail-flutter', 'tail flutter', 600, false),
        marginLine('wing-divergence', 'wing divergence', 470, false),
        marginLine('control-flutter', 'control flutter', 471, false),
      ],
    },
    heat: {
      lines: [
        heatLine('winding', 'motor winding', 123, 150),
        heatLine('case', 'motor case and magnets', 96, 120),
        heatLine('board', 'speed controller', 69, 120),
        heatLine('pack', 'packs', 45, 60),
      ],
      full_throttle: [{ from_s: 0, to_s: 30 }],
      time_s: 120,
      ended_by: 'time',
    },
    ...changes,
  }
}

export function plotsSubject(hostile = false): PlotsSubject {
  const named = (plain: string, at: number) => (hostile ? (hostileNames[at % hostileNames.length] as string) : plain)
  return {
    understood: {
      title: named('What flies today', 0),
      setup: {
        fan: 'fan-0',
        motor: 'motor-0',
        esc: 'esc-0',
        timing_deg: 15,
        pack: 'pack-0',
        arrangement: 'series',
        nozzle_ratio: 0.88,
        duty: 1,
      },
    },
    names: {
      'fan-0': named('Merle 90', 1),
      'motor-0': named('Halden 3668', 5),
      'esc-0': named('Lindo 160', 6),
      'pack-0': named('Brisk 5S', 8),
    },
    airframe: {
      name: named('Ostermark 90', 4),
      drag_area_m2: 0.0052,
      drag_basis: 'stated',
      drag_terms: [
        { words: named('skin friction of the fuselage', 0), area_m2: 0.00126 },
        { words: named('skin friction of the wing', 1), area_m2: 0.0021 },
        { words: named('horns and linkages', 9), area_m2: 0.0001 },
        { words: 'cooling air', area_m2: 0 },
      ],
    },
    catalogue: { name: named('Demonstration', 2), version: named('0f3a', 3) },
    model_version: '1.0.0',
    cautions: ['These figures are estimates, not a clearance to fly.', named('Keep everybody away from behind.', 0)],
  }
}
