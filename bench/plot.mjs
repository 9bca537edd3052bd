// A plot on two logarithmic axes as SVG text: series of points, joined where a series says so, named in a legend below.

const WIDTH = 720
const HEIGHT = 460
const LEFT = 78
const RIGHT = 18
const TOP = 40
const BOTTOM = 56
const LEGEND_LINE = 20
const LEGEND_COLUMNS = 2
const COLOURS = ['#1b6ca8', '#c8501e', '#2f7d4f', '#7a4fa3', '#8a6d1d', '#5b6770']

/**
 * One panel as an SVG group with its size.
 * @param {{ title: string, x: string, y: string, series: { name: string, points: [number, number][], joined?: boolean,
 *   dashed?: boolean }[] }} panel axis titles come with their units
 */
export function plotPanel({ title, x, y, series }) {
  const points = series.flatMap((line) => line.points)
  const across = logAxis(
    points.map(([value]) => value),
    LEFT,
    WIDTH - RIGHT,
  )
  const up = logAxis(
    points.map(([, value]) => value),
    HEIGHT - BOTTOM,
    TOP,
  )
  const body = [
    text(LEFT, 24, title, 'class="title"'),
    ...across.ticks.flatMap((tick) => [
      rule(across.at(tick), TOP, across.at(tick), HEIGHT - BOTTOM),
      power(across.at(tick), HEIGHT - BOTTOM + 18, tick, 'middle'),
    ]),
    ...up.ticks.flatMap((tick) => [
      rule(LEFT, up.at(tick), WIDTH - RIGHT, up.at(tick)),
      power(LEFT - 8, up.at(tick) + 4, tick, 'end'),
    ]),
    text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 14, x, 'text-anchor="middle"'),
    text(0, 0, y, `text-anchor="middle" transform="translate(20 ${(TOP + HEIGHT - BOTTOM) / 2}) rotate(-90)"`),
    ...series.flatMap((line, i) => drawn(line, COLOURS[i % COLOURS.length], across, up)),
    ...series.map((line, i) => legend(line, i)),
  ]
  const height = HEIGHT + Math.ceil(series.length / LEGEND_COLUMNS) * LEGEND_LINE + 12
  return { body, width: WIDTH, height }
}

/** Panels below one another. */
export function plotPage(panels, caption) {
  const height = panels.reduce((sum, panel) => sum + panel.height, 0)
  let above = 0
  const groups = panels.map((panel) => {
    const group = [`<g transform="translate(0 ${above})">`, ...panel.body, '</g>']
    above += panel.height
    return group.join('\n')
  })
  const style =
    'text{font:13px sans-serif;fill:#222}.title{font-weight:bold;font-size:15px}.tick{font-size:12px}.power{font-size:9px}'
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img">`,
    `<title>${escaped(caption)}</title>`,
    `<style>${style}</style>`,
    `<rect width="${WIDTH}" height="${height}" fill="#fff"/>`,
    ...groups,
    '</svg>',
    '',
  ].join('\n')
}

/** Whole decades around the values. */
function logAxis(values, from, to) {
  const least = Math.floor(Math.log10(Math.min(...values)))
  const most = Math.max(least + 1, Math.ceil(Math.log10(Math.max(...values))))
  const at = (value) => from + ((Math.log10(value) - least) / (most - least)) * (to - from)
  const ticks = Array.from({ length: most - least + 1 }, (_, i) => 10 ** (least + i))
  return { at, ticks }
}

function drawn({ points, joined = false, dashed = false }, colour, across, up) {
  const placed = points.map(([x, y]) => [across.at(x).toFixed(1), up.at(y).toFixed(1)])
  const dots = placed.map(
    ([x, y]) => `<circle cx="${x}" cy="${y}" r="4" fill="${dashed ? '#fff' : colour}" stroke="${colour}"/>`,
  )
  if (!joined) return dots
  return [
    `<polyline points="${placed.join(' ')}" fill="none" stroke="${colour}" stroke-width="1.6"${dash(dashed)}/>`,
    ...dots,
  ]
}

function legend({ name, joined = false, dashed = false }, i) {
  const x = LEFT + (i % LEGEND_COLUMNS) * ((WIDTH - LEFT) / LEGEND_COLUMNS)
  const y = HEIGHT + Math.floor(i / LEGEND_COLUMNS) * LEGEND_LINE + 8
  const colour = COLOURS[i % COLOURS.length]
  const stroke = joined ? `<line x1="${x}" y1="${y}" x2="${x + 26}" y2="${y}" stroke="${colour}"${dash(dashed)}/>` : ''
  const dot = `<circle cx="${x + 13}" cy="${y}" r="4" fill="${dashed ? '#fff' : colour}" stroke="${colour}"/>`
  return stroke + dot + text(x + 34, y + 4, name, '')
}

function dash(dashed) {
  return dashed ? ' stroke-dasharray="5 4"' : ''
}

function rule(x1, y1, x2, y2) {
  const [a, b, c, d] = [x1, y1, x2, y2].map((value) => value.toFixed(1))
  return `<line x1="${a}" y1="${b}" x2="${c}" y2="${d}" stroke="#ddd"/>`
}

/** A power of ten: 0.01 to 1000 in full, else with its exponent raised. */
function power(x, y, value, anchor) {
  const exponent = Math.round(Math.log10(value))
  const attributes = `class="tick" text-anchor="${anchor}"`
  if (exponent >= -2 && exponent <= 3) return text(x, y, String(Number(value.toPrecision(1))), attributes)
  const raised = `10<tspan class="power" dy="-5">${String(exponent).replace('-', '−')}</tspan>`
  return `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" ${attributes}>${raised}</text>`
}

function text(x, y, words, attributes) {
  return `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" ${attributes}>${escaped(words)}</text>`
}

function escaped(words) {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
}
