// Temperatures through the flight, one panel each with its own limit; shaded where the throttle is open.
import { duration, figure } from '@ductwright/contract/figures'
import type { Chart, Panel } from './chart.js'
import { PlotArea } from './plot-area.js'
import { type Frame, LINES } from './theme.js'

export interface HeatLineSeries {
  readonly words: string
  readonly limit_c: number
  readonly peak_c: number
  readonly rows: readonly { readonly time_s: number; readonly temperature_c: number }[]
}

export interface HeatSeries {
  readonly lines: readonly HeatLineSeries[]
  readonly full_throttle: readonly { readonly from_s: number; readonly to_s: number }[]
  readonly time_s: number
  /** Why the passes ended: the wanted time was up, charge for approach and reserve was left, or it could not fly on. */
  readonly ended_by: 'time' | 'charge' | 'underpowered'
}

const ENDED: Readonly<Record<HeatSeries['ended_by'], string>> = {
  time: '',
  charge: ' The passes end early, when only the charge for approach and landing is left.',
  underpowered: ' The passes end early, because the packs are too weak to fly on.',
}

export function heatChart(series: HeatSeries): Chart {
  const closest = series.lines.reduce((least, next) =>
    next.limit_c - next.peak_c < least.limit_c - least.peak_c ? next : least,
  )
  const left = closest.limit_c - closest.peak_c
  const room =
    left >= 0
      ? `Least room is left in the ${closest.words}: ${figure('temperature', Math.floor(left))} below the limit.`
      : `Too hot in the ${closest.words}: ${figure('temperature', Math.ceil(-left))} over the limit.`
  return {
    heading: 'Temperatures through the flight',
    caption: [
      `${room} The flight takes ${duration(series.time_s)}; shaded is full throttle, the dotted line is the limit.${ENDED[series.ended_by]}`,
      'A line joins the temperatures at the end of each stretch of the flight; a peak inside one can lie a little above it.',
    ],
    panels: series.lines.map((line) => panelOf(series, line)),
  }
}

function panelOf(series: HeatSeries, line: HeatLineSeries): Panel {
  const peak = `peak ${figure('temperature', line.peak_c)}, limit ${figure('temperature', line.limit_c)}`
  return {
    heading: `${line.words.charAt(0).toUpperCase()}${line.words.slice(1)}`,
    note: peak,
    alt: `Line chart of the temperature of the ${line.words} in degrees Celsius against time in minutes: ${peak}, over ${duration(series.time_s)}.`,
    draw: (frame) => drawn(series, line, frame),
  }
}

function drawn(series: HeatSeries, line: HeatLineSeries, frame: Frame) {
  const coldest = Math.min(...line.rows.map(({ temperature_c }) => temperature_c))
  const from = 10 * Math.floor((coldest - 4) / 10)
  const to = Math.max(line.limit_c, line.peak_c) + 0.06 * (line.limit_c - from)
  const area = new PlotArea(
    frame,
    { title: 'time, min', from: 0, to: series.time_s / 60, ticks: 5 },
    { title: 'temperature, °C', from, to, ticks: 5 },
  )
  for (const { from_s, to_s } of series.full_throttle) {
    area.box({ x: area.px(from_s / 60), y: 0 }, { x: area.px(to_s / 60), y: area.height }, 'band')
  }
  const limit = area.py(line.limit_c)
  area.rule({ x: 0, y: limit }, { x: area.width, y: limit }, LINES.limit)
  area.line(
    line.rows.map(({ time_s, temperature_c }) => ({ x: time_s / 60, y: temperature_c })),
    LINES.main,
  )
  return area.spec()
}
