// Thrust at full throttle and drag in level flight against flight speed. They cross at level top speed; thrust is gone where
// the aircraft is as fast as its efflux.
import { figure } from '@ductwright/contract/figures'
import type { Chart } from './chart.js'
import { PlotArea, type Spot } from './plot-area.js'
import { limitMarks, markSpeeds } from './speed-marks.js'
import { type Frame, LINES } from './theme.js'

interface ThrustAt {
  readonly speed_km_h: number
  readonly thrust_n: number
}

export interface ThrustDragSeries {
  /** State of charge at which speed is quoted, 0…1. */
  readonly charge: number
  readonly rows: readonly (ThrustAt & { readonly thrust_full_n: number; readonly drag_n: number | null })[]
  readonly standing: ThrustAt
  readonly standing_full: ThrustAt
  readonly top: ThrustAt
  readonly top_full: ThrustAt
  readonly ceiling: ThrustAt
  readonly stall_km_h: number
  readonly allowed_km_h: number | null
  readonly target_km_h: number | null
}

/** Room above the highest thrust and, as a share of it, below zero for a label. */
const HEADROOM = 1.06
const FOOTROOM = 0.12

export function thrustDragChart(series: ThrustDragSeries): Chart {
  const { standing, top, top_full, ceiling, stall_km_h } = series
  const charge = figure('percent', 100 * series.charge)
  const met = `Thrust meets drag at ${speed(top)} with ${charge} of the charge left, at ${speed(top_full)} with a full pack; the efflux would stop it at ${speed(ceiling)}.`
  const force = `Standing, the fan pulls ${thrust(standing)}; at level top speed ${thrust(top)} are left, and drag takes as much.`
  return {
    heading: 'Thrust and drag',
    caption: [
      met,
      `${force} Drag is drawn from the stall, ${figure('speed', stall_km_h)}, on.${structureWords(series)}`,
    ],
    panels: [
      {
        heading: '',
        note: '',
        alt: `Line chart of thrust and drag in newtons against flight speed in kilometres per hour. ${met} ${force}`,
        draw: (frame) => drawn(series, charge, frame),
      },
    ],
  }
}

function drawn(series: ThrustDragSeries, charge: string, frame: Frame) {
  const { rows, top, top_full, ceiling } = series
  const highest = HEADROOM * series.standing_full.thrust_n
  const lowest = Math.min(-FOOTROOM * highest, ...rows.map(({ thrust_n }) => thrust_n))
  const last = rows.at(-1)?.speed_km_h ?? 0
  const area = new PlotArea(
    frame,
    { title: 'flight speed, km/h', from: 0, to: last, ticks: frame.narrow ? 4 : 8 },
    { title: 'force, N', from: lowest, to: highest, ticks: 7 },
  )
  const drag = rows.flatMap((row) => (row.drag_n === null ? [] : [{ x: row.speed_km_h, y: row.drag_n }]))
  const quoted = rows.map((row) => ({ x: row.speed_km_h, y: row.thrust_n }))
  const full = rows.map((row) => ({ x: row.speed_km_h, y: row.thrust_full_n }))
  area.rule({ x: 0, y: area.py(0) }, { x: area.width, y: area.py(0) }, { ...LINES.against, width: 1 })
  markSpeeds(area, limitMarks(series.allowed_km_h, series.target_km_h))
  area.line(full, LINES.other).line(quoted, LINES.main).line(drag, LINES.against)
  area.point(spot(top_full), 'line', false).point(spot(top), 'accent', true).point(spot(ceiling), 'accent', false)
  nameSpeeds(area, series)
  nameLines(area, full, quoted, drag, charge)
  return area.spec()
}

function nameSpeeds(area: PlotArea, { top, top_full, ceiling }: ThrustDragSeries): void {
  const beside = (mark: ThrustAt, dx: number, dy: number) => ({
    x: area.px(mark.speed_km_h) + dx,
    y: area.py(mark.thrust_n) + dy,
    align: dx > 0 ? ('left' as const) : ('right' as const),
  })
  area.label({ text: speed(top), ...beside(top, -22, 3), colour: 'accent', bold: true })
  area.labelWhereFree({ text: speed(top_full), ...beside(top_full, 21, -2), colour: 'muted' })
  const texts = [...(area.frame.narrow ? [] : [`no thrust from ${speed(ceiling)}`]), speed(ceiling)]
  area.labelWhereFree(...texts.map((text) => ({ text, ...beside(ceiling, -8, 15), colour: 'accent' as const })))
}

/** Below and above a falling line the room is to the left and to the right of a spot on it. */
function nameLines(
  area: PlotArea,
  full: readonly Spot[],
  quoted: readonly Spot[],
  drag: readonly Spot[],
  charge: string,
): void {
  const { narrow } = area.frame
  const below = (narrow ? [0.3, 0.36, 0.24] : [0.24, 0.3, 0.2, 0.16]).map((share) => at(quoted, share))
  const text = narrow ? `${charge} left` : `thrust, ${charge} charge`
  const accent = { align: 'right', colour: 'accent', bold: true } as const
  area.labelWhereFree(...below.map(({ x, y }) => ({ text, x: area.px(x) - 6, y: area.py(y) + 11, ...accent })))
  const above = [0.05, 0.12, 0.2].map((share) => at(full, share))
  const muted = { text: 'thrust, full pack', align: 'left', colour: 'muted' } as const
  area.labelWhereFree(...above.map(({ x, y }) => ({ x: area.px(x) + 8, y: area.py(y) - 9, ...muted })))
  const highest = Math.max(...full.map(({ y }) => y))
  const rising = drag.filter(({ y }) => y < 0.85 * highest).at(-1)
  if (rising === undefined) return
  const [x, y] = [area.px(rising.x), area.py(rising.y)]
  const ink = { text: 'drag', colour: 'ink', bold: true } as const
  const right = { x: x + 9, y: y + 3, align: 'left', ...ink } as const
  area.labelWhereFree(right, { x: x - 9, y: y - 3, align: 'right', ...ink })
}

function structureWords({ allowed_km_h }: ThrustDragSeries): string {
  return allowed_km_h === null ? '' : ` The structure allows ${figure('speed', allowed_km_h)}.`
}

/** The spot a share of the way along. */
function at(spots: readonly Spot[], share: number): Spot {
  return spots[Math.round(share * (spots.length - 1))] ?? { x: 0, y: 0 }
}

function spot(mark: ThrustAt): Spot {
  return { x: mark.speed_km_h, y: mark.thrust_n }
}

function speed({ speed_km_h }: ThrustAt): string {
  return figure('speed', speed_km_h)
}

function thrust({ thrust_n }: ThrustAt): string {
  return figure('force', thrust_n)
}
