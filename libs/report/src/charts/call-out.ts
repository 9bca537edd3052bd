// The name of a point beside it: where it covers neither another name nor, if possible, anything drawn; joined to the point
// by a hairline when it has to stand farther off.
import type { Candidate, Label, Place } from './label-room.js'
import type { PlotArea, Spot } from './plot-area.js'
import { LINE_HEIGHT, LINES, type Role } from './theme.js'

export interface CallOut {
  /** From the fullest to the shortest. */
  readonly texts: readonly string[]
  readonly colour: Role
  readonly bold?: boolean
  /** Left out rather than put far off or over something. */
  readonly dispensable?: boolean
}

/** px */
const DISTANCES = [13, 26, 40, 56, 76]
/** What each distance costs beyond the one before, and each shorter text. */
const FARTHER = 3
const SHORTER = 2
/** Most that a dispensable name may cost: near its own point and a rule crossed, or the next distance. */
const CHEAP = 4
/** From this distance on a hairline joins name and point, px. */
const LEADER_FROM = 20
/** Shares of the way at which that hairline is looked at. */
const ALONG = [0.5, 0.7, 0.85]

/** From the point to the text, with the side of the text that faces the point. */
const DIRECTIONS = [
  { x: 0.8, y: -0.8, align: 'left' },
  { x: 0, y: -1.3, align: 'center' },
  { x: -0.8, y: -0.8, align: 'right' },
  { x: 0.8, y: 0.8, align: 'left' },
  { x: -0.8, y: 0.8, align: 'right' },
  { x: 0, y: 1.3, align: 'center' },
  { x: 1, y: 0, align: 'left' },
  { x: -1, y: 0, align: 'right' },
  { x: 0.4, y: -1.1, align: 'left' },
  { x: -0.4, y: -1.1, align: 'right' },
  { x: 0.4, y: 1.1, align: 'left' },
  { x: -0.4, y: 1.1, align: 'right' },
] as const

/** Names a point that is drawn already; nothing when there is no room at all. */
export function callOut(area: PlotArea, spot: Spot, call: CallOut): void {
  const point = { x: area.px(spot.x), y: area.py(spot.y) }
  const found = area.freePlace(placesAround(point, call))
  if (found === undefined || (call.dispensable === true && found.cost > CHEAP)) return
  const { label } = found
  if (Math.hypot(label.x - point.x, label.y - point.y) > LEADER_FROM) drawLeader(area, point, label)
  area.label(label)
}

function placesAround({ x, y }: Place, { texts, colour, bold = false }: CallOut): readonly Candidate[] {
  return texts.flatMap((text, shorter) =>
    DISTANCES.flatMap((distance, farther) => {
      const cost = SHORTER * shorter + FARTHER * farther
      return DIRECTIONS.map((to): Candidate => {
        const lines = to.align === 'center' ? text.split('\n').length - 1 : 0
        const down = distance * to.y + Math.sign(to.y) * 0.5 * LINE_HEIGHT * lines
        const place = { x: x + distance * to.x, y: y + down }
        const via = ALONG.map((share) => ({ x: x + share * (place.x - x), y: y + share * (place.y - y) }))
        return { text, colour, bold, ...place, align: to.align, cost, via: distance > LEADER_FROM ? via : [] }
      })
    }),
  )
}

function drawLeader(area: PlotArea, point: Place, label: Label): void {
  const [dx, dy] = [label.x - point.x, label.y - point.y]
  const reach = 9 / Math.hypot(dx, dy)
  const towards = label.align === 'center' ? { x: label.x, y: label.y - Math.sign(dy) * 8 } : label
  area.rule({ x: point.x + reach * dx, y: point.y + reach * dy }, { x: towards.x, y: towards.y }, LINES.leader)
}
