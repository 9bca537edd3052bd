// Temperatures through the flight, one panel each with its own limit; shaded where the throttle is open. A frame with room
// above its plotting area gets the name of the temperature there.
import type { HeatCurves, HeatLine } from '@ductwright/contract/curves'
import { duration, figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import { capital } from '../capital.js'
import { callOut } from './call-out.js'
import type { Chart, Panel } from './chart.js'
import { PlotArea } from './plot-area.js'
import { type Frame, LINES, textWidth } from './theme.js'

/** Room above the limit or the peak for a name, as a share of the range. */
const HEADROOM = 0.2
/** Room above the plotting area from which on the temperature is named there, px. */
const NAMED = 24
const KEY = 'full throttle'
/** Longest name of a temperature. */
const MOST = 26

const ENDED: Readonly<Record<HeatCurves['ended_by'], string>> = {
  time: '',
  charge: ' The passes end early, when only the charge for approach and landing is left.',
  underpowered: ' The passes end early, because the packs are too weak to fly on.',
}

export function heatChart(curves: HeatCurves): Chart {
  const series = { ...curves, lines: curves.lines.map((line) => ({ ...line, words: inert(line.words, MOST) })) }
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
    panels: series.lines.map((line, at) => panelOf(series, line, at === 0 && series.full_throttle.length > 0)),
  }
}

/** All temperatures in one sentence. */
export function heatWords({ lines, time_s }: HeatCurves): string {
  const each = lines.map((line) => `${inert(line.words, MOST)}: ${peakWords(line)}, ${limitWords(line)}`).join('; ')
  return `Line charts of temperatures in degrees Celsius against time in minutes over a flight of ${duration(time_s)}. ${each}.`
}

function panelOf(series: HeatCurves, line: HeatLine, keyed: boolean): Panel {
  const words = `${peakWords(line)}, ${limitWords(line)}`
  return {
    heading: capital(line.words),
    alt: `Line chart of the temperature of the ${line.words} in degrees Celsius against time in minutes: ${words}, over ${duration(series.time_s)}.`,
    draw: (frame) => drawn(series, line, frame, keyed),
  }
}

function peakWords({ peak_c }: HeatLine): string {
  return `peak ${figure('temperature', peak_c)}`
}

function limitWords({ limit_c }: HeatLine): string {
  return `limit ${figure('temperature', limit_c)}`
}

function drawn(series: HeatCurves, line: HeatLine, frame: Frame, keyed: boolean) {
  const coldest = Math.min(...line.rows.map(({ temperature_c }) => temperature_c))
  const from = 10 * Math.floor((coldest - 4) / 10)
  const to = Math.max(line.limit_c, line.peak_c) + HEADROOM * (line.limit_c - from)
  const area = new PlotArea(
    frame,
    { title: 'time, min', from: 0, to: series.time_s / 60, ticks: 5 },
    { title: 'temperature, °C', from, to, ticks: 4 },
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
  if (frame.top >= NAMED) drawHeading(area, line, keyed)
  nameLines(area, line, limit)
  return area.spec()
}

/** The name of the temperature and, where it is keyed, what the shade means. */
function drawHeading(area: PlotArea, { words }: HeatLine, keyed: boolean): void {
  const { top, left } = area.frame
  const y = 9 - top
  area.label({ text: words, x: 4 - left, y, align: 'left', colour: 'ink', bold: true })
  if (!keyed) return
  const from = area.width - textWidth(KEY) - 18
  area.box({ x: from, y: y - 6 }, { x: from + 12, y: y + 6 }, 'band')
  area.label({ text: KEY, x: from + 17, y, align: 'left', colour: 'muted' })
}

function nameLines(area: PlotArea, line: HeatLine, limit: number): void {
  const beside = { text: limitWords(line), x: area.width - 2, align: 'right', colour: 'ink' } as const
  area.labelWhereFree({ ...beside, y: limit - 11 }, { ...beside, y: limit + 11 })
  const hottest = line.rows.reduce((most, row) => (row.temperature_c > most.temperature_c ? row : most))
  callOut(
    area,
    { x: hottest.time_s / 60, y: hottest.temperature_c },
    { texts: [peakWords(line)], colour: 'accent', bold: true },
  )
}
