// What speed costs: every setup that nothing else beats, speed against money to pay. Shade and shape say how far it stays
// below the design load; the wanted speed is a line, the budget another, and the picks are ringed and named.
import { figure, money } from '@ductwright/contract/figures'
import type { Member, Result } from '@ductwright/contract/result'
import { callOut } from './call-out.js'
import type { Panel } from './chart.js'
import { costArea } from './cost-area.js'
import { onePerCell } from './crowd.js'
import { broken, namedMembers, namedWords, speedWords, targetSpeed } from './named-members.js'
import type { PlotArea, Spot } from './plot-area.js'
import { holds, type Step, stepsOf } from './shades.js'
import { type Frame, textWidth } from './theme.js'

/** From this many setups on marks are small, and one stands for all that it would cover. */
const MANY = 120
const SIZES = { few: 70, many: 30 } as const
const CELL = 5
const KEY_ROW = 17
const KEY_GAP = 14
const KEY_TITLE = 'below the design load, %:'

/** null when there is no setup. */
export function speedCostChart(result: Result): Panel | null {
  if (result.front.length === 0) return null
  return {
    heading: 'What speed costs',
    alt: `Chart of ${speedWords(result)} in kilometres per hour against money to pay. ${countWords(result)} Wanted: ${figure('speed', targetSpeed(result))}${budgetWords(result)}. ${namedWords(result)}`,
    draw: (frame) => drawn(result, frame),
  }
}

function countWords({ front, catalogue }: Result): string {
  const speeds = front.map(({ raw }) => raw.speed_km_h)
  const costs = front.map(({ raw }) => raw.cost)
  const setups = front.length === 1 ? '1 setup' : `${figure('count', front.length)} setups`
  const span = (values: readonly number[], write: (value: number) => string) =>
    `${write(Math.min(...values))} to ${write(Math.max(...values))}`
  const price = (value: number) => money(value, catalogue.currency)
  return `${setups}, ${span(speeds, (value) => figure('speed', value))}, ${span(costs, price)}.`
}

function budgetWords({ understood, catalogue }: Result): string {
  return understood.budget === null ? '' : `, for at most ${money(understood.budget, catalogue.currency)}`
}

function drawn(result: Result, frame: Frame) {
  const { front } = result
  const margins = front.map(({ raw }) => raw.margin)
  const steps = stepsOf(margins).filter((step) => margins.some((margin) => holds(step, margin)))
  const rows = frame.narrow ? 2 : 1
  const { area, nameWanted, nameBudget } = costArea(result, front.map(spotOf), { ...frame, top: 22 + KEY_ROW * rows })
  drawKey(area, steps, rows)
  const many = front.length > MANY
  for (const step of steps) {
    const spots = front.filter(({ raw }) => holds(step, raw.margin)).map(spotOf)
    const seen = many ? onePerCell(spots, ({ x, y }) => [area.px(x), area.py(y)], CELL) : spots
    area.points(seen, { ...step.style, size: many ? SIZES.many : SIZES.few })
  }
  for (const { member } of namedMembers(result)) area.ring(spotOf(member), 'ink')
  nameWanted()
  for (const { member, name } of namedMembers(result)) {
    const full = `${name}, ${figure('speed', member.raw.speed_km_h)}`
    const texts = [...(frame.narrow ? [] : [full]), name, broken(name)]
    callOut(area, spotOf(member), { texts, colour: 'ink', bold: true })
  }
  nameBudget()
  return area.spec()
}

function spotOf({ raw }: Member): Spot {
  return { x: raw.cost, y: raw.speed_km_h }
}

/** What shades and shapes mean, above the plotting area; the title has a row of its own where there are two. */
function drawKey(area: PlotArea, steps: readonly Step[], rows: number): void {
  const { left, top } = area.frame
  const edge = 4 - left
  const first = 10 - top
  area.label({ text: KEY_TITLE, x: edge, y: first, align: 'left', colour: 'ink' })
  let x = rows > 1 ? edge : edge + textWidth(KEY_TITLE) + KEY_GAP
  const y = first + KEY_ROW * (rows - 1)
  for (const { words, style } of steps) {
    area.pointAt({ x: x + 6, y }, { ...style, size: SIZES.few })
    area.label({ text: words, x: x + 15, y, align: 'left', colour: 'muted' })
    x += 15 + textWidth(words) + KEY_GAP
  }
}
