// Speeds that matter in any chart over flight speed, each a thin upright line named above the plotting area. Names stand in
// rows and all on the same side of their lines, so that no name covers another or is crossed by a line.
import { figure } from '@ductwright/contract/figures'
import type { PlotArea } from './plot-area.js'
import { LINES, type LineStyle, textWidth } from './theme.js'

export interface SpeedMark {
  readonly words: string
  readonly speed: number
  readonly style: LineStyle
}

const ROW = 16
const GAP = 5
/** Of the lowest row, clear of a tick at the upper end of the axis. */
const LOWEST = -15

/** Draws the marks that lie within the chart. */
export function markSpeeds(area: PlotArea, marks: readonly SpeedMark[]): void {
  const named = marks
    .map(({ words, speed, style }) => ({ text: `${words} ${figure('speed', speed)}`, x: area.px(speed), style }))
    .filter(({ x }) => x >= 0 && x <= area.width)
    .sort((a, b) => a.x - b.x)
  const { left, right } = area.frame
  const room = (text: string) => textWidth(text) + GAP
  const leftwards = named.every(({ text, x }) => x + left >= room(text))
  // A line ends at the row of its name, so the names that pass over it must stand higher.
  const rows = (leftwards ? named : named.toReversed()).map((mark, row) => ({ ...mark, y: LOWEST - ROW * row }))
  for (const { x, y, style } of rows) area.rule({ x, y: y - 5 }, { x, y: area.height }, style)
  for (const { text, x, y } of rows) {
    const align = leftwards || x + room(text) > area.width + right ? 'right' : 'left'
    area.label({ text, x: align === 'right' ? x - GAP : x + GAP, y, align, colour: 'muted' })
  }
}

/** What the structure allows and what is wanted, where known. */
export function limitMarks(allowed: number | null, target: number | null): readonly SpeedMark[] {
  return [
    ...(allowed === null ? [] : [{ words: 'allowed', speed: allowed, style: LINES.limit }]),
    ...(target === null ? [] : [{ words: 'wanted', speed: target, style: LINES.mark }]),
  ]
}
