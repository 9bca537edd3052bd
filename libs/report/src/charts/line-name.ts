// The name of a line beside it, somewhere along the line where there is room.
import type { Candidate } from './label-room.js'
import type { PlotArea, Spot } from './plot-area.js'
import type { Role } from './theme.js'

export interface LineName {
  /** From the fullest to the shortest. */
  readonly texts: readonly string[]
  readonly colour: Role
  readonly bold?: boolean
  /** Shares of the line along which to look, best first. */
  readonly along: readonly number[]
  readonly sides: readonly Side[]
}

export type Side = 'left-below' | 'right-above' | 'right-below' | 'left-above'

/** What each shorter name costs. */
const SHORTER = 4
/** From the line to its name, px. */
const ASIDE = 9
const DOWN = 6
const OFFSETS: Readonly<Record<Side, { readonly x: number; readonly y: number; readonly align: 'left' | 'right' }>> = {
  'left-below': { x: -ASIDE, y: DOWN, align: 'right' },
  'right-above': { x: ASIDE, y: -DOWN, align: 'left' },
  'right-below': { x: ASIDE, y: DOWN, align: 'left' },
  'left-above': { x: -ASIDE, y: -DOWN, align: 'right' },
}

/** Names a line that is drawn already. */
export function nameLine(area: PlotArea, spots: readonly Spot[], name: LineName): void {
  area.labelWhereFree(...name.texts.flatMap((text, shorter) => placesAlong(area, spots, { ...name, text, shorter })))
}

function placesAlong(
  area: PlotArea,
  spots: readonly Spot[],
  name: LineName & { readonly text: string; readonly shorter: number },
): readonly Candidate[] {
  const { text, shorter, colour, bold = false, along, sides } = name
  return along.flatMap((share) => {
    const spot = spots[Math.round(share * (spots.length - 1))]
    if (spot === undefined) return []
    return sides.map((side) => {
      const { x, y, align } = OFFSETS[side]
      return { text, colour, bold, align, x: area.px(spot.x) + x, y: area.py(spot.y) + y, cost: SHORTER * shorter }
    })
  })
}
