// The upgrade staircase: from what is flown now, each step the cheapest way to a higher speed. How high a step is against
// how wide says where money still pays.
import { belowDesign, figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result, StaircaseStep } from '@ductwright/contract/result'
import { callOut } from './call-out.js'
import type { Panel } from './chart.js'
import { costArea } from './cost-area.js'
import { speedWords, targetSpeed } from './named-members.js'
import type { PlotArea, Spot } from './plot-area.js'
import { type Frame, LINES } from './theme.js'

/** null when there is no step. */
export function staircaseChart(result: Result): Panel | null {
  const { staircase, now, knee, catalogue } = result
  const [first] = staircase
  if (first === undefined) return null
  const start = now === null ? '' : ` Now: ${figure('speed', startOf(first).y)}.`
  const steps = staircase.map((step) => stepWords(step, catalogue.currency)).join('; ')
  return {
    heading: 'The cheapest way up, step by step',
    alt: `Step chart of ${speedWords(result)} in kilometres per hour against money to pay.${start} Steps: ${steps}. Wanted: ${figure('speed', targetSpeed(result))}.${knee ? ` ${inert(knee.why, 400)}` : ''}`,
    draw: (frame) => drawn(result, first, frame),
  }
}

function stepWords({ rank, speed_km_h, cost, margin }: StaircaseStep, currency: string): string {
  return `number ${figure('count', rank)}, ${figure('speed', speed_km_h)} for ${money(cost, currency)}, ${belowDesign(margin)}`
}

/** What the first step is counted from. */
function startOf({ speed_km_h, more_km_h, cost, more_cost }: StaircaseStep): Spot {
  return { x: cost - more_cost, y: speed_km_h - more_km_h }
}

function drawn(result: Result, first: StaircaseStep, frame: Frame) {
  const { staircase, now, catalogue } = result
  const start = now === null ? [] : [startOf(first)]
  const tops = staircase.map(({ cost, speed_km_h }) => ({ x: cost, y: speed_km_h }))
  const { area, nameWanted, nameBudget } = costArea(result, [...start, ...tops], { ...frame, top: 20 })
  area.line(stairs([...start, ...tops]), LINES.main)
  for (const spot of start) area.points([spot], { shape: 'square', fill: 'paper', stroke: 'ink', size: 90 })
  area.points(tops, { fill: 'accent', stroke: 'accent' })
  nameWanted()
  nameKnee(area, result)
  for (const spot of start)
    callOut(area, spot, { texts: [`now ${figure('speed', spot.y)}`], colour: 'ink', bold: true })
  const weighty = weightySteps(staircase, targetSpeed(result))
  for (const step of new Set([...weighty, ...staircase])) nameStep(area, step, !weighty.has(step), catalogue.currency)
  nameBudget()
  return area.spec()
}

/** Flat, then up: one pays before one is faster. */
function stairs(spots: readonly Spot[]): readonly Spot[] {
  return spots.flatMap((spot, i) => {
    const before = spots[i - 1]
    return before === undefined ? [spot] : [{ x: spot.x, y: before.y }, spot]
  })
}

/** The step beyond which more speed gets dear, when there is one beyond it. */
function nameKnee(area: PlotArea, { knee, staircase }: Result): void {
  const step = staircase.slice(0, -1).find(({ rank }) => rank === knee?.rank)
  if (step === undefined) return
  const spot = { x: step.cost, y: step.speed_km_h }
  area.ring(spot, 'ink')
  callOut(area, spot, { texts: ['dearer beyond', 'dearer\nbeyond'], colour: 'ink', bold: true })
}

/** The step that first reaches the wanted speed, the last and the first are named whatever else is. */
function weightySteps(staircase: readonly StaircaseStep[], wanted: number): ReadonlySet<StaircaseStep> {
  const steps = [staircase.find(({ speed_km_h }) => speed_km_h >= wanted), staircase.at(-1), staircase[0]]
  return new Set(steps.filter((step) => step !== undefined))
}

function nameStep(area: PlotArea, step: StaircaseStep, dispensable: boolean, currency: string): void {
  const speed = figure('speed', step.speed_km_h)
  const texts = area.frame.narrow ? [speed] : [`${speed}, ${money(step.cost, currency)}`, speed]
  callOut(area, { x: step.cost, y: step.speed_km_h }, { texts, colour: 'accent', bold: true, dispensable })
}
