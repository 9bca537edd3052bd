// How much of each design load is left against flight speed. The line lowest at the fastest speed binds; below zero a limit
// is passed.
import type { MarginLine, SetupCurves } from '@ductwright/contract/curves'
import { figure, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Chart } from './chart.js'
import { spread } from './label-spread.js'
import { PlotArea } from './plot-area.js'
import { markSpeeds } from './speed-marks.js'
import { FAMILY_DASHES, type Frame, LINES, type LineStyle } from './theme.js'

/** Room at the right for the names of the lines, px. */
const NAMES = 122
const NAME_GAP = 16
const LEADER = 14
/** Longest name of a criterion that fits there. */
const MOST = 15

export function marginsChart(curves: SetupCurves): Chart {
  const lines = curves.margins.lines.map((line) => ({ ...line, words: inert(line.words, MOST) }))
  const series = { ...curves, margins: { ...curves.margins, lines } }
  const { fastest_km_h, margins } = series
  const binding = margins.lines.filter(({ binds }) => binds)
  const names = binding.map(({ words }) => words).join(' and ')
  const left = binding[0]?.at_fastest ?? 0
  const words = `At ${figure('speed', fastest_km_h)}, the fastest a full pack makes it fly, the narrowest margin is that of ${names}: ${leftWords(left)}.`
  const all = margins.lines.map((line) => `${line.words} ${reserve(line.at_fastest)}`).join(', ')
  return {
    heading: 'What is left of each design load',
    caption: [
      words,
      `Left there: ${all}. Factors of safety are taken off already; the structure is an estimate that nobody has tested.`,
    ],
    panels: [
      {
        heading: '',
        alt: `Line chart of the part of each design load left in per cent against flight speed in kilometres per hour. ${words} Left there: ${all}.`,
        draw: (frame) => drawn(series, frame),
      },
    ],
  }
}

function leftWords(margin: number): string {
  return margin >= 0
    ? `${reserve(margin)} of the design load is left`
    : `${figure('percent', Math.ceil(-100 * margin))} over the design load`
}

function drawn({ fastest_km_h, margins }: SetupCurves, frame: Frame) {
  const rows = margins.lines.flatMap((line) => line.rows)
  const speeds = rows.map(({ speed_km_h }) => speed_km_h)
  const least = Math.min(0, ...rows.map(({ margin }) => 100 * margin))
  const area = new PlotArea(
    { ...frame, right: NAMES },
    { title: 'flight speed, km/h', from: Math.min(...speeds), to: Math.max(...speeds), ticks: frame.narrow ? 3 : 7 },
    { title: 'design load left, %', from: 10 * Math.floor(least / 10), to: 100, ticks: 7 },
  )
  area.rule({ x: 0, y: area.py(0) }, { x: area.width, y: area.py(0) }, { ...LINES.against, width: 1 })
  markSpeeds(area, [{ words: frame.narrow ? 'fastest' : 'fastest, full pack', speed: fastest_km_h, style: LINES.mark }])
  wantedRule(area, margins.wanted)
  const ends = margins.lines.map((line) => area.py(100 * (line.rows.at(-1)?.margin ?? 0)))
  const places = spread(ends, NAME_GAP, 0, area.height)
  for (const [i, line] of [...margins.lines.entries()].sort(([, a], [, b]) => Number(a.binds) - Number(b.binds))) {
    area.line(
      line.rows.map(({ speed_km_h, margin }) => ({ x: speed_km_h, y: 100 * margin })),
      styleOf(line, i),
    )
    nameEnd(area, line, ends[i] ?? 0, places[i] ?? 0)
    if (line.binds) markBinding(area, fastest_km_h, line)
  }
  return area.spec()
}

/** The margin asked for, where it is more than the limit itself. */
function wantedRule(area: PlotArea, wanted: number): void {
  if (wanted <= 0) return
  const y = area.py(100 * wanted)
  area.rule({ x: 0, y }, { x: area.width, y }, LINES.mark)
  area.label({ text: `wanted ${reserve(wanted)}`, x: 6, y: y - 9, align: 'left', colour: 'muted' })
}

function styleOf({ binds }: MarginLine, index: number): LineStyle {
  const dash = FAMILY_DASHES[index % FAMILY_DASHES.length] ?? []
  return binds ? LINES.main : { ...LINES.other, dash }
}

function nameEnd(area: PlotArea, line: MarginLine, end: number, place: number): void {
  const { width } = area
  const from = { x: width + 2, y: end }
  area.rule(from, { x: width + LEADER, y: place }, { ...LINES.other, width: 0.75, dash: [] })
  const colour = line.binds ? 'accent' : 'muted'
  area.label({ text: line.words, x: width + LEADER + 4, y: place, align: 'left', colour, bold: line.binds })
}

function markBinding(area: PlotArea, speed: number, line: MarginLine): void {
  const spot = { x: speed, y: 100 * line.at_fastest }
  area.point(spot, 'accent', true)
  const [x, y] = [area.px(spot.x), area.py(spot.y)]
  const label = { text: reserve(line.at_fastest), colour: 'accent', bold: true } as const
  area.labelWhereFree(
    { ...label, x: x - 9, y: y + 13, align: 'right' },
    { ...label, x: x + 9, y: y - 13, align: 'left' },
  )
}
