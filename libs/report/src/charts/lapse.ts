// What is left of standing thrust and of the power drawn standing, against flight speed: thrust falls much faster than
// power, which is why the last kilometres per hour are dear.
import type { SetupCurves, ThrottlePoint } from '@ductwright/contract/curves'
import { figure } from '@ductwright/contract/figures'
import type { Chart } from './chart.js'
import { spread } from './label-spread.js'
import { PlotArea, type Spot } from './plot-area.js'
import { limitMarks, markSpeeds } from './speed-marks.js'
import { type Frame, LINES } from './theme.js'

/** Room at the right for the names of the lines, px. */
const NAMES = 96
const NAME_GAP = 16

export function lapseChart(series: SetupCurves): Chart {
  const { standing, top } = series
  const thrust = figure('percent', (100 * top.thrust_n) / standing.thrust_n)
  const power = figure('percent', (100 * top.pack_power_w) / standing.pack_power_w)
  const words = `At level top speed, ${figure('speed', top.speed_km_h)}, ${thrust} of the standing thrust is left, while the pack still gives ${power} of the standing power.`
  const drawnFrom = `Standing it draws ${drawWords(standing)}, at top speed ${drawWords(top)}, with ${figure('percent', 100 * series.charge)} of the charge left.`
  return {
    heading: 'What is left of the standing thrust',
    caption: [words, drawnFrom],
    panels: [
      {
        heading: '',
        alt: `Line chart of thrust and pack power in per cent of their standing values against flight speed in kilometres per hour. ${words} ${drawnFrom}`,
        draw: (frame) => drawn(series, frame),
      },
    ],
  }
}

function drawn(series: SetupCurves, frame: Frame) {
  const { standing, top, ceiling } = series
  const rows = [...series.rows.filter(({ speed_km_h }) => speed_km_h < ceiling.speed_km_h), ceiling]
  const share = (read: (at: ThrottlePoint) => number) => (at: ThrottlePoint) => ({
    x: at.speed_km_h,
    y: (100 * read(at)) / read(standing),
  })
  const thrust = share(({ thrust_n }) => thrust_n)
  const power = share(({ pack_power_w }) => pack_power_w)
  const area = new PlotArea(
    { ...frame, right: NAMES },
    { title: 'flight speed, km/h', from: 0, to: ceiling.speed_km_h, ticks: frame.narrow ? 3 : 8 },
    { title: 'part of the standing value, %', from: 0, to: 105, ticks: 6 },
  )
  markSpeeds(area, limitMarks(series.allowed_km_h, series.target_km_h))
  area.line(rows.map(power), LINES.against).line(rows.map(thrust), LINES.main)
  nameEnds(area, power(ceiling), thrust(ceiling))
  namePoint(area, power(top), 'ink')
  namePoint(area, thrust(top), 'accent')
  return area.spec()
}

function nameEnds(area: PlotArea, power: Spot, thrust: Spot): void {
  const [py = 0, ty = 0] = spread([area.py(power.y), area.py(thrust.y)], NAME_GAP, 0, area.height)
  area.label({ text: 'pack power', x: area.width + 8, y: py, align: 'left', colour: 'ink', bold: true })
  area.label({ text: 'thrust', x: area.width + 8, y: ty, align: 'left', colour: 'accent', bold: true })
}

function namePoint(area: PlotArea, spot: Spot, role: 'ink' | 'accent'): void {
  area.point(spot, role, true)
  const [x, y] = [area.px(spot.x), area.py(spot.y)]
  const label = { text: figure('percent', spot.y), colour: role, bold: true } as const
  area.labelWhereFree(
    { ...label, x: x + 8, y: y - 13, align: 'left' },
    { ...label, x: x - 8, y: y + 13, align: 'right' },
  )
}

function drawWords({ pack_power_w, pack_current_a }: ThrottlePoint): string {
  return `${figure('power', pack_power_w)} (${figure('current', pack_current_a)})`
}
