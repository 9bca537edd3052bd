// The parallel lines: one line a setup across the four axes, drawn in the page's own width and drawn anew when that
// changes. Dragging along an axis picks a span, a click on it lets go. Colours come from the page's style by class.
import type { DataRow, PageData } from '../page-data.js'
import { type Axis, type AxisKey, placeOf, valueAt } from './axes.js'
import { type Brush, isWithin, type Span } from './brush.js'

export interface Plot {
  show(brush: Brush): void
  /** Lifts one line out of the rest; null: none. */
  mark(rank: number | null): void
}

interface Frame {
  readonly width: number
  readonly height: number
  readonly top: number
  readonly bottom: number
  readonly xs: readonly number[]
}

type Picked = (key: AxisKey, span: Span | null) => void

const SVG = 'http://www.w3.org/2000/svg'
const narrow = 520
/** More lines than this are drawn thin, to show where they are dense. */
const many = 150
/** Half the width of the strip that takes the pointer, px. */
const reach = 18
/** A drag shorter than this is a click, px. */
const click = 4

export function parallelPlot(host: HTMLElement, data: PageData, axes: readonly Axis[], picked: Picked): Plot {
  let brush: Brush = new Map()
  let lines = new Map<number, SVGElement>()
  let spans = new Map<AxisKey, SVGElement>()
  let frame = frameOf(host.clientWidth, axes.length)

  const draw = () => {
    frame = frameOf(host.clientWidth, axes.length)
    const kind = data.rows.length > many ? 'lines many' : 'lines'
    const svg = element('svg', { viewBox: `0 0 ${frame.width} ${frame.height}`, class: kind, role: 'presentation' })
    lines = new Map(data.rows.map((row) => [row.rank, lineOf(row, axes, frame, data.picks)]))
    // The picks lie on top.
    svg.append(...[...lines].sort(([a], [b]) => depth(a, data) - depth(b, data)).map(([, line]) => line))
    spans = new Map()
    svg.append(...axes.map((axis, at) => axisOf(axis, at, frame, spans, picked)))
    host.replaceChildren(svg)
    show(brush)
  }
  const show = (next: Brush) => {
    brush = next
    for (const { rank, raw } of data.rows) lines.get(rank)?.classList.toggle('out', !isWithin(raw, brush))
    for (const axis of axes) place(spans.get(axis.key), axis, brush.get(axis.key), frame)
  }
  const mark = (rank: number | null) => {
    for (const [number, line] of lines) line.classList.toggle('hot', number === rank)
  }
  draw()
  new ResizeObserver(() => {
    if (Math.abs(host.clientWidth - frame.width) >= 1) draw()
  }).observe(host)
  return { show, mark }
}

const depth = (rank: number, { picks }: PageData): number => (picks.includes(rank) ? 2 - picks.indexOf(rank) / 9 : 0)

function frameOf(width: number, count: number): Frame {
  const small = width < narrow
  const [left, right] = small ? [12, 40] : [30, 60]
  const gap = (width - left - right) / (count - 1)
  const xs = Array.from({ length: count }, (_, at) => left + at * gap)
  return { width, height: small ? 300 : 340, top: 46, bottom: small ? 286 : 326, xs }
}

function element(name: string, attributes: Readonly<Record<string, string | number>>, text = ''): SVGElement {
  const made = document.createElementNS(SVG, name)
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value))
  if (text !== '') made.textContent = text
  return made
}

const yOf = (place: number, { top, bottom }: Frame): number => bottom - place * (bottom - top)

function lineOf({ rank, raw }: DataRow, axes: readonly Axis[], frame: Frame, picks: readonly number[]): SVGElement {
  const points = axes.map((axis, at) => {
    const y = yOf(placeOf(axis, raw[axis.key]), frame)
    return `${(frame.xs[at] ?? 0).toFixed(1)},${y.toFixed(1)}`
  })
  const kind = rank === picks[0] ? 'line first' : picks.includes(rank) ? 'line pick' : 'line'
  return element('polyline', { class: kind, points: points.join(' '), 'data-rank': rank })
}

function axisOf(axis: Axis, at: number, frame: Frame, spans: Map<AxisKey, SVGElement>, picked: Picked): SVGElement {
  const x = frame.xs[at] ?? 0
  const last = at === frame.xs.length - 1
  const [anchor, edge] = at === 0 ? ['start', 0] : last ? ['end', frame.width] : ['middle', x]
  const group = element('g', { class: 'axis', 'data-axis': axis.key })
  group.append(
    element('text', { class: 'name', x: edge, y: 14, 'text-anchor': anchor }, axis.title[0]),
    element('text', { class: 'unit', x: edge, y: 30, 'text-anchor': anchor }, axis.title[1]),
    element('line', { class: 'stem', x1: x, x2: x, y1: frame.top, y2: frame.bottom }),
    ...axis.ticks.map((tick) => {
      const y = yOf(placeOf(axis, tick), frame) + 4
      return element('text', { class: 'tick', x: x + 6, y }, axis.shown(tick))
    }),
  )
  const span = element('rect', { class: 'span', x: x - 7, width: 14, y: 0, height: 0 })
  spans.set(axis.key, span)
  const { top, bottom } = frame
  const strip = element('rect', {
    class: 'strip',
    x: x - reach,
    width: 2 * reach,
    y: top - 6,
    height: bottom - top + 12,
  })
  follow(strip, axis, frame, picked)
  group.append(span, strip)
  return group
}

/** Shows the span of an axis, or hides it. */
function place(rect: SVGElement | undefined, axis: Axis, span: Span | undefined, frame: Frame): void {
  if (rect === undefined) return
  const ends =
    span === undefined ? [0, 0] : [span.low, span.high].map((value) => yOf(clamped(placeOf(axis, value)), frame))
  const [a = 0, b = 0] = ends
  rect.setAttribute('y', String(Math.min(a, b)))
  rect.setAttribute('height', String(span === undefined ? 0 : Math.max(2, Math.abs(a - b))))
}

const clamped = (place: number): number => Math.min(1, Math.max(0, place))

/** Pointer drags along an axis. */
function follow(strip: SVGElement, axis: Axis, frame: Frame, picked: Picked): void {
  let start: number | null = null
  const yIn = (event: PointerEvent): number => {
    const box = strip.getBoundingClientRect()
    const share = (event.clientY - box.top) / box.height
    return frame.top - 6 + share * (frame.bottom - frame.top + 12)
  }
  const value = (y: number) => valueAt(axis, (frame.bottom - y) / (frame.bottom - frame.top))
  strip.addEventListener('pointerdown', (event) => {
    start = yIn(event)
    strip.setPointerCapture(event.pointerId)
  })
  strip.addEventListener('pointermove', (event) => {
    if (start === null) return
    const y = yIn(event)
    const [low = 0, high = 0] = [value(start), value(y)].sort((a, b) => a - b)
    if (Math.abs(y - start) >= click) picked(axis.key, { low, high })
  })
  strip.addEventListener('pointerup', (event) => {
    if (start !== null && Math.abs(yIn(event) - start) < click) picked(axis.key, null)
    start = null
  })
  strip.addEventListener('pointercancel', () => {
    start = null
  })
}
