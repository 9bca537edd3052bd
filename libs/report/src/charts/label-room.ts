// Where there is room for text in a chart: no label on another, none outside the frame, and of the places left the one that
// covers the fewest marks.
import { LINE_HEIGHT, type Role, TEXT_SIZE, textWidth } from './theme.js'

/** px from the upper left corner of the plotting area. */
export interface Place {
  readonly x: number
  readonly y: number
}

/** Text at a place, which is the middle of its height. */
export interface Label extends Place {
  /** Lines are parted by a line break. */
  readonly text: string
  readonly align: 'left' | 'center' | 'right'
  readonly colour: Role
  readonly bold?: boolean
}

export interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** A place for a label, which may have a cost of its own: when it is far off, or says less. */
export interface Candidate extends Label {
  readonly cost?: number
  /** Where a hairline to the label passes: never through a name or a mark that none may cover. */
  readonly via?: readonly Place[]
}

export interface Found {
  readonly label: Label
  /** Its own cost and that of every mark it covers. */
  readonly cost: number
}

interface Mark extends Box {
  readonly weight: number
}

/** What it costs to cover a point, to stand so close that it may seem to be meant, and to cover one place of a line. */
export const COVERED = { point: 8, beside: 1.4, line: 2, rule: 0.4 } as const
/** px */
const BESIDE = 8

/** A line is kept clear at places this far apart, px. */
const LINE_STEP = 5
/** Room wanted on either side of a line, px. */
const LINE_HALF = 2

export class LabelRoom {
  readonly #frame: Box
  readonly #taken: Box[] = []
  readonly #marks: Mark[] = []

  constructor(frame: Box) {
    this.#frame = frame
  }

  take(label: Label): void {
    this.#taken.push(boxOf(label))
  }

  /** A mark that no label may cover: its place and half its size, px. */
  keep(place: Place, half: number): void {
    this.#taken.push(square(place, half))
  }

  /** The same for a mark that labels should not cover when they can help it. */
  avoid(place: Place, half: number, weight: number): void {
    this.#marks.push({ ...square(place, half), weight })
  }

  /** The same for a line through places, px. */
  avoidLine(places: readonly Place[], weight: number): void {
    for (const [i, from] of places.slice(0, -1).entries()) {
      const to = places[i + 1] ?? from
      const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / LINE_STEP))
      for (let step = 0; step <= steps; step++) {
        const at = step / steps
        this.avoid({ x: from.x + at * (to.x - from.x), y: from.y + at * (to.y - from.y) }, LINE_HALF, weight)
      }
    }
  }

  /** Of the places that are free the first with the lowest cost; undefined when none is free. */
  best(candidates: readonly Candidate[]): Found | undefined {
    let found: Found | undefined
    for (const { cost: own = 0, via = [], ...label } of candidates) {
      const box = boxOf(label)
      const passed = via.map((place) => square(place, 0))
      const hits = (other: Box) => [box, ...passed].some((one) => !apart(one, other))
      if (!within(box, this.#frame) || this.#taken.some(hits)) continue
      const cost = this.#marks.reduce((sum, mark) => sum + costOf(box, mark), own)
      if (found === undefined || cost < found.cost) found = { label, cost }
    }
    return found
  }
}

function costOf(box: Box, mark: Mark): number {
  if (!apart(box, mark)) return mark.weight
  return mark.weight < COVERED.point || apart(box, mark, BESIDE) ? 0 : COVERED.beside
}

function square({ x, y }: Place, half: number): Box {
  return { left: x - half, right: x + half, top: y - half, bottom: y + half }
}

export function boxOf({ text, x, y, align, bold = false }: Label): Box {
  const lines = text.split('\n')
  const width = Math.max(...lines.map((line) => textWidth(line, bold)))
  const left = align === 'left' ? x : align === 'right' ? x - width : x - width / 2
  const half = 0.6 * TEXT_SIZE + 0.5 * LINE_HEIGHT * (lines.length - 1)
  return { left, right: left + width, top: y - half, bottom: y + half }
}

function within(box: Box, frame: Box): boolean {
  return box.left >= frame.left && box.right <= frame.right && box.top >= frame.top && box.bottom <= frame.bottom
}

function apart(a: Box, b: Box, gap = 0): boolean {
  return a.right + gap < b.left || a.left > b.right + gap || a.bottom + gap < b.top || a.top > b.bottom + gap
}
