// The charts of an answer, in the order of reading. Data in, pictures out; the same bytes for the same answer. A chart whose
// data an answer does not have is left out.
import { figure } from '@ductwright/contract/figures'
import type { Pick, Result } from '@ductwright/contract/result'
import type { TopLevelSpec } from 'vega-lite'
import { recommended } from '../section-opening.js'
import type { Chart } from './chart.js'
import { drawGrid } from './draw.js'
import { heatChart, heatWords } from './heat.js'
import { speedCostChart } from './speed-cost.js'
import { staircaseChart } from './staircase.js'
import { type Frame, NARROW, WIDE } from './theme.js'
import { thrustDragChart } from './thrust-drag.js'
import { tradeOffsChart } from './trade-offs.js'

export interface AnswerChart {
  readonly id: string
  readonly title: string
  /** The chart in words, with its numbers. */
  readonly alt: string
  readonly svg: string
}

export interface ChartOptions {
  /** What it is laid out for, px: a desk or a telephone. */
  readonly width?: 320 | 600
}

/** One of several panels of a picture: two beside each other on a desk, one below the other on a telephone. */
const PANEL_WIDE: Frame = { ...NARROW, width: 294, height: 186, top: 24, left: 52, right: 8 }
const PANEL_NARROW: Frame = { ...NARROW, height: 176, top: 24, left: 52, right: 8 }
const GAP = 12

export async function answerCharts(result: Result, options: ChartOptions = {}): Promise<readonly AnswerChart[]> {
  const narrow = options.width === 320
  const frame = narrow ? NARROW : WIDE
  const charts: AnswerChart[] = []
  for (const [id, panel] of [
    ['speed-cost', speedCostChart(result)],
    ['staircase', staircaseChart(result)],
    ['trade-offs', tradeOffsChart(result)],
  ] as const) {
    if (panel !== null) charts.push(await drawn(id, panel.heading, panel.alt, [panel.draw(frame)], 1))
  }
  const pick = picked(result)
  if (pick === undefined) return charts
  const thrust = thrustDragChart(pick.curves)
  charts.push(await ofPick('thrust-drag', pick, thrust, thrust.panels[0]?.alt ?? '', frame, 1))
  const { heat } = pick.curves
  if (heat === null) return charts
  const panel = narrow ? PANEL_NARROW : PANEL_WIDE
  const temperatures = heatChart(heat)
  const alt = `${heatWords(heat)} ${temperatures.caption[0]}`
  return [...charts, await ofPick('temperatures', pick, temperatures, alt, panel, narrow ? 1 : 2)]
}

/** The pick the answer recommends. */
function picked(result: Result): Pick | undefined {
  const rank = recommended(result)?.member.rank
  return result.picks.find((pick) => pick.rank === rank)
}

/** A chart of one setup says which. */
async function ofPick(id: string, pick: Pick, chart: Chart, alt: string, frame: Frame, columns: number) {
  const title = `${chart.heading}, number ${figure('count', pick.rank)}`
  return drawn(
    id,
    title,
    alt,
    chart.panels.map((panel) => panel.draw(frame)),
    columns,
  )
}

async function drawn(
  id: string,
  title: string,
  alt: string,
  specs: readonly TopLevelSpec[],
  columns: number,
): Promise<AnswerChart> {
  return { id, title, alt, svg: await drawGrid(specs, { columns, gap: GAP }, alt) }
}
