// What is given up for what: one upright axis for each of the four wishes, better upward on all of them, and one line for
// each setup that nothing else beats. The picks stand out and are named; a tick says what was wanted.
import { figure } from '@ductwright/contract/figures'
import type { Result } from '@ductwright/contract/result'
import type { Panel } from './chart.js'
import { onePerCell } from './crowd.js'
import { spread } from './label-spread.js'
import { broken, type NamedMember, namedMembers, namedWords } from './named-members.js'
import { PlotArea, type Spot } from './plot-area.js'
import { type Frame, LINE_HEIGHT, LINES, type LineStyle, textWidth } from './theme.js'
import { type WishAxis, wishAxes } from './wish-axes.js'

const TICK = 3
/** From this many lines on they are faint, and one stands for all that it would nearly cover. */
const MANY = 60
const FAINT = 0.4
/** Share of the height of an axis. */
const CELL = 1 / 20
/** Length of the mark of what was wanted, px. */
const WANTED = 10
const AXIS: LineStyle = { ...LINES.against, width: 1 }
const MARK: LineStyle = { ...LINES.against, width: 3 }
/** From the last axis to the names of the lines, px. */
const LEADER = 12

/** null when there is nothing to choose between. */
export function tradeOffsChart(result: Result): Panel | null {
  if (result.front.length < 2) return null
  const axes = wishAxes(result)
  const spans = axes.map(({ name, words }) => `${name} ${words}`).join('; ')
  return {
    heading: 'What is given up for what',
    alt: `Chart with four axes, better upward on each, and one line for each of ${figure('count', result.front.length)} setups: ${spans}. ${namedWords(result)}`,
    draw: (frame) => drawn(result, axes, frame),
  }
}

function drawn(result: Result, axes: readonly WishAxis[], frame: Frame) {
  const named = namedMembers(result)
  const area = new PlotArea(
    frameOf(frame, named),
    { title: '', from: 0, to: axes.length - 1, ticks: 0, hidden: true },
    { title: '', from: 0, to: 1, ticks: 0, hidden: true },
  )
  const lineOf = ({ raw }: NamedMember['member']): Spot[] =>
    axes.map((axis, x) => ({ x, y: axis.place(axis.read(raw)) }))
  const picked = new Set(named.map(({ member }) => member.rank))
  const crowd = result.front.filter(({ rank }) => !picked.has(rank)).map(lineOf)
  const many = crowd.length > MANY
  const seen = many ? onePerCell(crowd, (line) => line.map(({ y }) => y), CELL) : crowd
  for (const line of seen) area.crowdLine(line, LINES.crowd, many ? FAINT : 1)
  for (const { member, style } of named.toReversed()) area.line(lineOf(member), style)
  for (const [x, axis] of axes.entries()) drawAxis(area, axis, x, x === axes.length - 1)
  const ends = named.map(({ member }) => lineOf(member).at(-1)?.y ?? 0)
  if (frame.narrow) nameInRows(area, named)
  else nameEnds(area, named, ends)
  return area.spec()
}

/** Names of the axes above; names of the lines at the right, or in rows below where there is no room beside. */
function frameOf(frame: Frame, named: readonly NamedMember[]): Frame {
  const names = Math.max(
    0,
    ...named.flatMap(({ name }) =>
      broken(name)
        .split('\n')
        .map((line) => textWidth(line, true)),
    ),
  )
  if (frame.narrow) return { ...frame, left: 44, right: 28, top: 44, bottom: 14 + LINE_HEIGHT * (named.length + 1) }
  return { ...frame, height: 330, left: 50, right: Math.max(50, LEADER + 8 + names), top: 44, bottom: 30 }
}

function drawAxis(area: PlotArea, { title, ticks, wanted, place }: WishAxis, at: number, last: boolean): void {
  const x = area.px(at)
  area.rule({ x, y: 0 }, { x, y: area.height }, AXIS)
  for (const tick of ticks) {
    const y = area.py(place(tick))
    area.rule({ x: x - TICK, y }, { x, y }, AXIS)
    area.label({ text: tick.toLocaleString('en'), x: x - TICK - 3, y, align: 'right', colour: 'muted' })
  }
  const flush = last && area.frame.narrow
  for (const [row, text] of title.entries()) {
    const y = LINE_HEIGHT * row - 34
    if (flush) area.label({ text, x: x + area.frame.right - 4, y, align: 'right', colour: 'ink' })
    else area.label({ text, x, y, align: 'center', colour: 'ink' })
  }
  if (wanted === null) return
  // A line, since rules lie under the lines of the setups.
  const y = place(wanted)
  area.crowdLine(
    [
      { x: at, y },
      { x: at + WANTED / area.px(1), y },
    ],
    MARK,
    1,
  )
}

/** What the marks mean. */
function drawFoot(area: PlotArea, left: number, y: number): void {
  area.rule({ x: left, y }, { x: left + WANTED, y }, MARK)
  area.label({ text: 'wanted; up is better on every axis', x: left + WANTED + 6, y, align: 'left', colour: 'muted' })
}

function nameEnds(area: PlotArea, named: readonly NamedMember[], ends: readonly number[]): void {
  const from = ends.map((end) => area.py(end))
  const rows = Math.max(1, ...named.map(({ name }) => broken(name).split('\n').length))
  const places = spread(from, LINE_HEIGHT * rows, 0, area.height)
  for (const [i, { name, style }] of named.entries()) {
    const [x, y] = [area.width + LEADER, places[i] ?? 0]
    area.rule({ x: area.width + 2, y: from[i] ?? 0 }, { x, y }, LINES.leader)
    area.label({ text: broken(name), x: x + 4, y, align: 'left', colour: style.colour, bold: true })
  }
  drawFoot(area, 0, area.height + 18)
}

function nameInRows(area: PlotArea, named: readonly NamedMember[]): void {
  const left = 4 - area.frame.left
  drawFoot(area, left, area.height + LINE_HEIGHT)
  for (const [i, { name, style }] of named.entries()) {
    const y = area.height + LINE_HEIGHT * (i + 2)
    area.rule({ x: left, y }, { x: left + 30, y }, style)
    area.label({ text: name, x: left + 38, y, align: 'left', colour: style.colour, bold: true })
  }
}
