// The plotting area of a chart: fixed ranges and a fixed frame, so that the place of every point is known before it is
// drawn and labels can be put beside lines. Lines and points speak in data, text and rules in pixels. Marks of one kind are
// one layer, whatever their number: a layer is what costs time.
import type { TopLevelSpec } from 'vega-lite'
import { type Candidate, COVERED, type Found, type Label, LabelRoom, type Place } from './label-room.js'
import {
  boxLayer,
  type LinePoint,
  labelLayers,
  lineLayer,
  type PointMark,
  pointLayer,
  type RuleMark,
  ruleLayer,
} from './layers.js'
import { CHART_CONFIG, colour, type Frame, type LineStyle, type Role } from './theme.js'

/** An axis: its title names quantity and unit. */
export interface Axis {
  readonly title: string
  readonly from: number
  readonly to: number
  /** About how many ticks. */
  readonly ticks: number
  /** No line, ticks and labels at all. */
  readonly hidden?: boolean
}

/** A point of a line, in the units of the axes. */
export interface Spot {
  readonly x: number
  readonly y: number
}

/** How a point is drawn: its shape, what fills it, its outline and its area, px². */
export interface PointStyle {
  readonly shape?: 'circle' | 'square' | 'diamond' | 'triangle-down' | 'triangle-up'
  readonly fill: Role
  readonly stroke: Role
  readonly strokeWidth?: number
  readonly size?: number
}

/** Diameter of a ring, px. */
const RING = 16

export class PlotArea {
  readonly width: number
  readonly height: number
  readonly frame: Frame
  readonly #x: Axis
  readonly #y: Axis
  readonly #room: LabelRoom
  readonly #boxes: RuleMark[] = []
  readonly #rules: RuleMark[] = []
  readonly #lines: LinePoint[] = []
  readonly #points: PointMark[] = []
  readonly #labels: Label[] = []
  #lineCount = 0

  constructor(frame: Frame, x: Axis, y: Axis) {
    this.frame = frame
    this.width = frame.width - frame.left - frame.right
    this.height = frame.height - frame.top - frame.bottom
    this.#x = x
    this.#y = y
    const { left, right, top, bottom } = frame
    // Labels that look for room leave ticks and titles alone.
    this.#room = new LabelRoom({
      left: y.hidden === true ? -left : 2,
      right: this.width + right,
      top: -top,
      bottom: this.height + (x.hidden === true ? bottom : 0),
    })
  }

  /** Pixel of a value. */
  px(value: number): number {
    return (this.width * (value - this.#x.from)) / (this.#x.to - this.#x.from)
  }

  py(value: number): number {
    return this.height * (1 - (value - this.#y.from) / (this.#y.to - this.#y.from))
  }

  placeOf({ x, y }: Spot): Place {
    return { x: this.px(x), y: this.py(y) }
  }

  /** A line through spots; what lies above or below the area is cut off where it leaves it. */
  line(spots: readonly Spot[], style: LineStyle): this {
    const kept = this.#inside(spots)
    this.#room.avoidLine(
      kept.map((spot) => this.placeOf(spot)),
      COVERED.line,
    )
    return this.#addLine(kept, style, 1)
  }

  /** One of many lines, which labels may cover. */
  crowdLine(spots: readonly Spot[], style: LineStyle, opacity: number): this {
    return this.#addLine(spots, style, opacity)
  }

  point(spot: Spot, role: Role, filled: boolean): this {
    return this.points([spot], { fill: filled ? role : 'paper', stroke: role })
  }

  /** Labels keep off these points where they can. */
  points(spots: readonly Spot[], style: PointStyle): this {
    for (const spot of spots) this.pointAt(this.placeOf(spot), style)
    return this
  }

  /** A point at a place, px, such as in a key. */
  pointAt(place: Place, { shape = 'circle', fill, stroke, strokeWidth = 2, size = 64 }: PointStyle): this {
    this.#room.avoid(place, 0.6 * Math.sqrt(size), COVERED.point)
    this.#points.push({ ...place, shape, size, fill: colour(fill), stroke: colour(stroke), strokeWidth })
    return this
  }

  /** A circle around a point, through which the point is seen; no label covers it. */
  ring(spot: Spot, role: Role): this {
    const place = this.placeOf(spot)
    this.#room.keep(place, RING / 2)
    const size = (Math.PI / 4) * RING ** 2
    this.#points.push({ ...place, shape: 'circle', size, fill: 'none', stroke: colour(role), strokeWidth: 1.75 })
    return this
  }

  /** A straight line between two places, px. */
  rule(from: Place, to: Place, { colour: role, width, dash }: LineStyle): this {
    this.#room.avoidLine([from, to], COVERED.rule)
    this.#rules.push({ ...between(from, to), colour: colour(role), width, dash: [...dash] })
    return this
  }

  /** An area between two corners, px. */
  box(from: Place, to: Place, role: Role): this {
    this.#boxes.push({ ...between(from, to), colour: colour(role), width: 0, dash: [] })
    return this
  }

  /** Draws the label at the place that covers the least; not at all when labels are in the way of every one. */
  labelWhereFree(...candidates: readonly Candidate[]): this {
    const free = this.#room.best(candidates)
    return free === undefined ? this : this.label(free.label)
  }

  /** Where a label would find room, and at what cost. */
  freePlace(candidates: readonly Candidate[]): Found | undefined {
    return this.#room.best(candidates)
  }

  /** Text with a rim of paper, so that it stays readable across a line. */
  label(label: Label): this {
    this.#room.take(label)
    this.#labels.push(label)
    return this
  }

  /** What was added, from the ground up: areas, rules, lines, points, text. */
  spec(): TopLevelSpec {
    const { left, right, top, bottom } = this.frame
    const axes = this.#axes()
    // Axes are there even where every mark speaks in pixels.
    const corner = [{ x: this.#x.from, y: this.#y.from }]
    return {
      width: this.width,
      height: this.height,
      autosize: 'none',
      padding: { left, right, top, bottom },
      config: CHART_CONFIG,
      layer: [
        { data: { values: corner }, mark: { type: 'point', opacity: 0 }, encoding: axes },
        ...boxLayer(this.#boxes),
        ...ruleLayer(this.#rules),
        ...lineLayer(this.#lines, axes),
        ...pointLayer(this.#points),
        ...labelLayers(this.#labels),
      ],
    }
  }

  #addLine(spots: readonly Spot[], { colour: role, width, dash }: LineStyle, opacity: number): this {
    const line = this.#lineCount++
    const paint = { colour: colour(role), width, dash: [...dash], opacity }
    for (const { x, y } of spots) this.#lines.push({ x, y, line, ...paint })
    return this
  }

  #axes() {
    // Titles stand at the edge of the frame: the library can only guess how wide the labels between are.
    const { left, bottom } = this.frame
    const titles = { x: { titleY: bottom - 13 }, y: { titleX: 9 - left } }
    const channel = (field: 'x' | 'y', axis: Axis) => ({
      field,
      type: 'quantitative' as const,
      title: axis.title,
      scale: { domain: [axis.from, axis.to], nice: false, zero: false },
      axis: axis.hidden === true ? null : { tickCount: axis.ticks, labelFlush: false, ...titles[field] },
    })
    return { x: channel('x', this.#x), y: channel('y', this.#y) }
  }

  #inside(spots: readonly Spot[]): readonly Spot[] {
    const { from, to } = this.#y
    const kept: Spot[] = []
    for (const [i, spot] of spots.entries()) {
      const before = spots[i - 1]
      for (const edge of before === undefined ? [] : crossed(before, spot, from, to)) kept.push(edge)
      if (spot.y >= from && spot.y <= to) kept.push(spot)
    }
    return kept
  }
}

function between(from: Place, to: Place) {
  return { x: from.x, y: from.y, x2: to.x, y2: to.y }
}

/** Where the way between two spots crosses the lower or upper edge. */
function crossed(a: Spot, b: Spot, low: number, high: number): readonly Spot[] {
  return [low, high]
    .filter((edge) => (a.y - edge) * (b.y - edge) < 0)
    .map((edge) => ({ x: a.x + ((b.x - a.x) * (edge - a.y)) / (b.y - a.y), y: edge }))
    .sort((one, other) => Math.abs(one.y - a.y) - Math.abs(other.y - a.y))
}
