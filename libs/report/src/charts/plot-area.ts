// The plotting area of a chart: fixed ranges and a fixed frame, so that the place of every point is known before it is
// drawn and labels can be put beside lines. Layers speak in data for lines and points, in pixels for text and rules.
import type { TopLevelSpec } from 'vega-lite'
import { CHART_CONFIG, colour, type Frame, type LineStyle, type Role, TEXT_SIZE, textWidth } from './theme.js'

export type Layer = Extract<TopLevelSpec, { readonly layer: unknown }>['layer'][number]

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

export interface Label {
  readonly text: string
  /** px from the upper left corner of the plotting area. */
  readonly x: number
  readonly y: number
  readonly align: 'left' | 'center' | 'right'
  readonly colour: Role
  readonly bold?: boolean
}

export class PlotArea {
  readonly width: number
  readonly height: number
  readonly frame: Frame
  readonly #x: Axis
  readonly #y: Axis
  readonly #layers: Layer[] = []
  readonly #taken: Box[] = []

  constructor(frame: Frame, x: Axis, y: Axis) {
    this.frame = frame
    this.width = frame.width - frame.left - frame.right
    this.height = frame.height - frame.top - frame.bottom
    this.#x = x
    this.#y = y
    // Axes are there even where every mark speaks in pixels.
    const corner = [{ x: x.from, y: y.from }]
    this.#layers.push({ data: { values: corner }, mark: { type: 'point', opacity: 0 }, encoding: this.#encoding() })
  }

  /** Pixel of a value. */
  px(value: number): number {
    return (this.width * (value - this.#x.from)) / (this.#x.to - this.#x.from)
  }

  py(value: number): number {
    return this.height * (1 - (value - this.#y.from) / (this.#y.to - this.#y.from))
  }

  /** A line through spots; what lies above or below the area is cut off where it leaves it. */
  line(spots: readonly Spot[], style: LineStyle): this {
    return this.#add(this.#inside(spots), {
      type: 'line',
      color: colour(style.colour),
      strokeWidth: style.width,
      strokeDash: [...style.dash],
      strokeJoin: 'round',
    })
  }

  point(spot: Spot, role: Role, filled: boolean): this {
    const fill = filled ? colour(role) : colour('paper')
    return this.#add([spot], { type: 'point', size: 64, stroke: colour(role), strokeWidth: 2, fill, opacity: 1 })
  }

  /** A straight line between two places, px. */
  rule(from: Spot, to: Spot, { colour: role, width, dash }: LineStyle): this {
    const paint = { color: colour(role), strokeWidth: width, strokeDash: [...dash] }
    this.#layers.push({ data: { values: [{}] }, mark: { type: 'rule', ...paint }, encoding: between(from, to) })
    return this
  }

  /** An area between two corners, px. */
  box(from: Spot, to: Spot, role: Role): this {
    const mark = { type: 'rect', color: colour(role), opacity: 1 } as const
    this.#layers.push({ data: { values: [{}] }, mark, encoding: between(from, to) })
    return this
  }

  /** The first of some labels that covers no label before it and lies within the frame; none when all do not. */
  labelWhereFree(...candidates: readonly Label[]): this {
    const free = candidates.find((label) => this.#isFree(boxOf(label)))
    return free === undefined ? this : this.label(free)
  }

  /** Text with a rim of paper, so that it stays readable across a line. */
  label(label: Label): this {
    const { text, x, y, align, colour: role, bold = false } = label
    this.#taken.push(boxOf(label))
    const place = {
      x,
      y,
      align,
      baseline: 'middle',
      fontSize: TEXT_SIZE,
      fontWeight: bold ? 'bold' : 'normal',
    } as const
    const rim = { stroke: colour('paper'), strokeWidth: 4, strokeJoin: 'round', fill: colour('paper') } as const
    for (const paint of [rim, { fill: colour(role) }]) {
      this.#layers.push({
        data: { values: [{ text }] },
        mark: { type: 'text', ...place, ...paint },
        encoding: { text: { field: 'text' } },
      })
    }
    return this
  }

  spec(): TopLevelSpec {
    const { left, right, top, bottom } = this.frame
    return {
      width: this.width,
      height: this.height,
      autosize: 'none',
      padding: { left, right, top, bottom },
      config: CHART_CONFIG,
      layer: this.#layers,
    }
  }

  #isFree(box: Box): boolean {
    const { left, right, top, bottom } = this.frame
    const inside =
      box.left >= -left && box.right <= this.width + right && box.top >= -top && box.bottom <= this.height + bottom
    return inside && this.#taken.every((other) => apart(box, other))
  }

  #add(spots: readonly Spot[], mark: Extract<Layer, { readonly mark: unknown }>['mark']): this {
    this.#layers.push({ data: { values: [...spots] }, mark, encoding: this.#encoding() })
    return this
  }

  #encoding() {
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

interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

function boxOf({ text, x, y, align }: Label): Box {
  const width = textWidth(text)
  const left = align === 'left' ? x : align === 'right' ? x - width : x - width / 2
  return { left, right: left + width, top: y - 0.6 * TEXT_SIZE, bottom: y + 0.6 * TEXT_SIZE }
}

function apart(a: Box, b: Box): boolean {
  return a.right < b.left || a.left > b.right || a.bottom < b.top || a.top > b.bottom
}

/** The channels of a mark between two places, px. */
function between(from: Spot, to: Spot) {
  return { x: { value: from.x }, x2: { value: to.x }, y: { value: from.y }, y2: { value: to.y } }
}

/** Where the way between two spots crosses the lower or upper edge. */
function crossed(a: Spot, b: Spot, low: number, high: number): readonly Spot[] {
  return [low, high]
    .filter((edge) => (a.y - edge) * (b.y - edge) < 0)
    .map((edge) => ({ x: a.x + ((b.x - a.x) * (edge - a.y)) / (b.y - a.y), y: edge }))
    .sort((one, other) => Math.abs(one.y - a.y) - Math.abs(other.y - a.y))
}
