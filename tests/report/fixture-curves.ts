// Made-up curves of one setup: the right shape and size, and nothing behind them.
import type { SetupCurves } from '@ductwright/contract/curves'
import type { SetupFigures } from '@ductwright/contract/result'

const BEYOND = 500

export function curves(figures: SetupFigures, named: (plain: string, at: number) => string): SetupCurves {
  const top = figures.speed_steady_km_h
  const throttle = (speed_km_h: number, most: number, ceiling: number) => {
    const pack_current_a = 130 - 0.1 * speed_km_h
    return {
      speed_km_h,
      thrust_n: most * (1 - speed_km_h / ceiling),
      efflux_km_h: 360 + (100 * speed_km_h) / ceiling,
      pack_current_a,
      pack_power_w: 41 * pack_current_a,
    }
  }
  const quoted = (speed: number) => throttle(speed, 62, top + 96)
  const full = (speed: number) => throttle(speed, 68, top + 118)
  const drag = (speed: number) => quoted(top).thrust_n * (speed / top) ** 2
  const speeds = Array.from({ length: 51 }, (_, at) => (BEYOND * at) / 50)
  return {
    charge: 0.8,
    rows: speeds.map((speed) => ({
      ...quoted(speed),
      thrust_full_n: full(speed).thrust_n,
      drag_n: speed < figures.stall_km_h ? null : drag(speed),
    })),
    standing: quoted(0),
    top: quoted(top),
    ceiling: quoted(top + 96),
    standing_full: full(0),
    top_full: full(figures.top_full.speed_km_h),
    ceiling_full: full(top + 118),
    stall_km_h: figures.stall_km_h,
    fastest_km_h: figures.speed_fastest_km_h,
    allowed_km_h: figures.speed_allowed_km_h,
    target_km_h: 360,
    margins: { wanted: 0.25, lines: marginLines(figures, named) },
    heat: heat(figures, named),
  }
}

type Named = (plain: string, at: number) => string

function marginLines(figures: SetupFigures, named: Named): SetupCurves['margins']['lines'] {
  const fastest = figures.speed_fastest_km_h
  return figures.margins.map(({ criterion, words, margin }, at) => ({
    criterion,
    words: named(words, at),
    binds: criterion === figures.margin_binds,
    at_fastest: margin,
    rows: Array.from({ length: 20 }, (_, step) => 60 + step * 22).map((speed_km_h) => ({
      speed_km_h,
      margin: 1 - (1 - margin) * (speed_km_h / fastest) ** 2,
    })),
  }))
}

function heat({ temperatures }: SetupFigures, named: Named): SetupCurves['heat'] {
  const line = (store: 'winding' | 'case' | 'board' | 'pack', words: string, peak_c: number, limit_c: number) => ({
    store,
    words: named(words, 3),
    peak_c,
    limit_c,
    rows: [0, 60, 120, 180, 240].map((time_s, at) => ({ time_s, temperature_c: 21 + ((peak_c - 21) * at) / 4 })),
  })
  return {
    lines: [
      line('winding', 'motor winding', temperatures.winding_c, 150),
      line('case', 'motor case', temperatures.case_c, 120),
      line('board', 'speed controller', temperatures.esc_c, 110),
      line('pack', 'pack', temperatures.pack_c, 60),
    ],
    full_throttle: [
      { from_s: 30, to_s: 40 },
      { from_s: 110, to_s: 120 },
    ],
    time_s: 240,
    ended_by: 'time',
  }
}
