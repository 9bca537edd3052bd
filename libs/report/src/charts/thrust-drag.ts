// Thrust at full throttle and drag in level flight against flight speed. They cross at level top speed; thrust is gone where
// the aircraft is as fast as its efflux.
import type { SetupCurves, ThrottlePoint } from '@ductwright/contract/curves'
import { figure } from '@ductwright/contract/figures'
import { callOut } from './call-out.js'
import type { Chart } from './chart.js'
import { nameLine } from './line-name.js'
import { PlotArea, type Spot } from './plot-area.js'
import { limitMarks, markSpeeds } from './speed-marks.js'
import { type Frame, LINES } from './theme.js'

/** Room above the highest thrust and, as a share of it, below zero for a label. */
const HEADROOM = 1.06
const FOOTROOM = 0.12

export function thrustDragChart(series: SetupCurves): Chart {
  const { standing, standing_full, top, top_full, ceiling, stall_km_h } = series
  const charge = figure('percent', 100 * series.charge)
  const met = `Thrust meets drag at ${speed(top)} with ${charge} of the charge left, at ${speed(top_full)} with a full pack; the efflux would stop it at ${speed(ceiling)}.`
  const force = `Standing, with ${charge} of the charge left, the fan pulls ${thrust(standing)}, with a full pack ${thrust(standing_full)}; at level top speed ${thrust(top)} are left of the first, and drag takes as much.`
  return {
    heading: 'Thrust and drag',
    caption: [
      met,
      `${force} Drag is drawn from the stall, ${figure('speed', stall_km_h)}, on.${structureWords(series)}`,
    ],
    panels: [
      {
        heading: '',
        alt: `Line chart of thrust and drag in newtons against flight speed in kilometres per hour. ${met} ${force}`,
        draw: (frame) => drawn(series, charge, frame),
      },
    ],
  }
}

interface Lines {
  readonly full: readonly Spot[]
  readonly quoted: readonly Spot[]
  readonly drag: readonly Spot[]
}

function drawn(series: SetupCurves, charge: string, frame: Frame) {
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
  nameLines(area, { full, quoted, drag }, charge)
  nameSpeeds(area, series)
  return area.spec()
}

function nameSpeeds(area: PlotArea, { top, top_full, ceiling }: SetupCurves): void {
  callOut(area, spot(top), { texts: [speed(top)], colour: 'accent', bold: true })
  callOut(area, spot(top_full), { texts: [speed(top_full)], colour: 'muted' })
  callOut(area, spot(ceiling), { texts: [`efflux ceiling ${speed(ceiling)}`], colour: 'accent' })
}

/** Below and above a falling line the room is to the left and to the right of it. */
function nameLines(area: PlotArea, { full, quoted, drag }: Lines, charge: string): void {
  const early = [0.24, 0.3, 0.2, 0.33, 0.36, 0.16, 0.12]
  const texts = [`thrust, ${charge} charge`, `thrust, ${charge}`, `${charge} left`]
  nameLine(area, quoted, { texts, colour: 'accent', bold: true, along: early, sides: ['left-below'] })
  nameLine(area, full, {
    texts: ['thrust, full pack', 'full pack'],
    colour: 'muted',
    along: [0.05, 0.12, 0.2, 0.3],
    sides: ['right-above'],
  })
  const highest = Math.max(...full.map(({ y }) => y))
  const inside = drag.filter(({ y }) => y < highest)
  const late = [0.92, 0.85, 0.78, 0.7, 0.6]
  nameLine(area, inside, {
    texts: ['drag'],
    colour: 'ink',
    bold: true,
    along: late,
    sides: ['right-below', 'left-above'],
  })
}

function structureWords({ allowed_km_h }: SetupCurves): string {
  return allowed_km_h === null ? '' : ` The structure allows ${figure('speed', allowed_km_h)}.`
}

function spot(mark: ThrottlePoint): Spot {
  return { x: mark.speed_km_h, y: mark.thrust_n }
}

function speed({ speed_km_h }: ThrottlePoint): string {
  return figure('speed', speed_km_h)
}

function thrust({ thrust_n }: ThrottlePoint): string {
  return figure('force', thrust_n)
}
