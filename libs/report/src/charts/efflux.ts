// Speed of the jet of air behind the nozzle against flight speed, and flight speed itself: what lies between them makes the
// thrust, and where they meet there is none.
import type { SetupCurves } from '@ductwright/contract/curves'
import { figure } from '@ductwright/contract/figures'
import type { Chart } from './chart.js'
import { PlotArea } from './plot-area.js'
import { limitMarks, markSpeeds } from './speed-marks.js'
import { type Frame, LINES } from './theme.js'

export function effluxChart(series: SetupCurves): Chart {
  const { standing, top, ceiling } = series
  const share = figure('percent', (100 * top.speed_km_h) / top.efflux_km_h)
  const words = `Standing, the efflux leaves at ${figure('speed', standing.efflux_km_h)}. At level top speed, ${figure('speed', top.speed_km_h)}, it leaves at ${figure('speed', top.efflux_km_h)}: the aircraft flies at ${share} of its efflux. At ${figure('speed', ceiling.speed_km_h)} both are equal and thrust is gone.`
  return {
    heading: 'Efflux and flight speed',
    caption: [
      words,
      `Full throttle of the setting, ${figure('percent', 100 * series.charge)} of the charge left. Between the two lines lies the speed the fan still gives to the air.`,
    ],
    panels: [
      {
        heading: '',
        alt: `Line chart of efflux speed and flight speed in kilometres per hour against flight speed. ${words}`,
        draw: (frame) => drawn(series, frame),
      },
    ],
  }
}

function drawn(series: SetupCurves, frame: Frame) {
  const { rows, top, ceiling } = series
  const last = rows.at(-1)?.speed_km_h ?? 0
  const highest = Math.max(last, ...rows.map(({ efflux_km_h }) => efflux_km_h))
  const area = new PlotArea(
    frame,
    { title: 'flight speed, km/h', from: 0, to: last, ticks: frame.narrow ? 4 : 8 },
    { title: 'speed, km/h', from: 0, to: highest, ticks: 6 },
  )
  markSpeeds(area, limitMarks(series.allowed_km_h, series.target_km_h))
  const x = area.px(top.speed_km_h)
  area.rule({ x, y: area.py(top.efflux_km_h) }, { x, y: area.py(top.speed_km_h) }, { ...LINES.main, width: 1.25 })
  area.line(
    [
      { x: 0, y: 0 },
      { x: last, y: last },
    ],
    LINES.other,
  )
  area.line(
    rows.map(({ speed_km_h, efflux_km_h }) => ({ x: speed_km_h, y: efflux_km_h })),
    LINES.main,
  )
  area.point({ x: top.speed_km_h, y: top.efflux_km_h }, 'accent', true)
  area.point({ x: top.speed_km_h, y: top.speed_km_h }, 'line', true)
  area.point({ x: ceiling.speed_km_h, y: ceiling.speed_km_h }, 'accent', false)
  nameSpots(area, series)
  return area.spec()
}

function nameSpots(area: PlotArea, { rows, top, ceiling }: SetupCurves): void {
  const start = area.py(rows[0]?.efflux_km_h ?? 0) - 14
  const [x, end] = [area.px(top.speed_km_h), area.px(ceiling.speed_km_h)]
  const half = 0.24 * (rows.at(-1)?.speed_km_h ?? 0)
  const [above, below] = [area.py(top.efflux_km_h) - 15, area.py(top.speed_km_h) + 10]
  const [efflux, flown, none] = [top.efflux_km_h, top.speed_km_h, ceiling.speed_km_h].map((speed) =>
    figure('speed', speed),
  ) as [string, string, string]
  const main = { colour: 'accent', bold: true } as const
  const plain = { colour: 'muted', align: 'left' } as const
  area.label({ text: efflux, x: x + 6, y: above, align: 'right', ...main })
  area.label({ text: flown, x: x + 12, y: below, bold: true, ...plain })
  area.labelWhereFree({ text: 'efflux', x: 8, y: start, align: 'left', ...main })
  area.labelWhereFree({ text: 'flight speed', x: area.px(half) + 12, y: area.py(half) + 6, ...plain })
  const place = { x: end - 10, y: area.py(ceiling.speed_km_h) - 12, align: 'right', colour: 'accent' } as const
  area.labelWhereFree({ text: `no thrust from ${none}`, ...place }, { text: none, ...place })
}
