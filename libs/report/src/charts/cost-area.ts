// The plotting area of charts of speed against money to pay, with the wanted speed and the budget as lines.
import { figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import type { Label } from './label-room.js'
import { speedWords, targetSpeed } from './named-members.js'
import { PlotArea, type Spot } from './plot-area.js'
import { type Frame, LINES } from './theme.js'

/** Room left around the outermost points, as a share of the range. */
const AROUND = 0.08
/** A budget farther above the dearest setup than this share of the range is left out of the picture. */
const BUDGET_NEAR = 0.5

export interface CostArea {
  readonly area: PlotArea
  /** Names the line of the wanted speed, after what it shall keep off. */
  nameWanted(): void
  /** Names the line of the budget, where it is in the picture. */
  nameBudget(): void
}

/** An area that holds the spots (x: cost, y: km/h) and the wanted speed. */
export function costArea(result: Result, spots: readonly Spot[], frame: Frame): CostArea {
  const wanted = targetSpeed(result)
  const paid = spots.map(({ x }) => x)
  const most = Math.max(...paid)
  const { budget } = result.understood
  const near = budget !== null && budget <= most + BUDGET_NEAR * (most - Math.min(...paid))
  const area = new PlotArea(
    frame,
    {
      title: `to pay, ${inert(result.catalogue.currency, 8)}`,
      ...around(near ? [...paid, budget] : paid),
      ticks: frame.narrow ? 4 : 7,
    },
    { title: `${speedWords(result)}, km/h`, ...around([...spots.map(({ y }) => y), wanted]), ticks: 6 },
  )
  const wantedPlaces = wantedRule(area, wanted)
  const budgetPlaces = near ? budgetRule(area, budget, result) : []
  return {
    area,
    nameWanted: () => void area.labelWhereFree(...wantedPlaces),
    nameBudget: () => void area.labelWhereFree(...budgetPlaces),
  }
}

/** A range with room around its values. */
function around(values: readonly number[]) {
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const room = Math.max(AROUND * (high - low), 0.01 * Math.abs(high), 1)
  return { from: low - room, to: high + room }
}

/** @returns where the name of the line may stand */
function wantedRule(area: PlotArea, wanted: number): readonly Label[] {
  const y = area.py(wanted)
  area.rule({ x: 0, y }, { x: area.width, y }, LINES.wanted)
  const label = { text: `wanted ${figure('speed', wanted)}`, colour: 'ink' } as const
  return [-11, 11].flatMap((dy) => [
    { ...label, x: 4, y: y + dy, align: 'left' as const },
    { ...label, x: area.width, y: y + dy, align: 'right' as const },
  ])
}

function budgetRule(area: PlotArea, budget: number, { catalogue }: Result): readonly Label[] {
  const x = area.px(budget)
  area.rule({ x, y: 0 }, { x, y: area.height }, LINES.mark)
  const text = `budget ${money(budget, catalogue.currency)}`
  return [0.95, 0.85, 0.7, 0.55, 0.4, 0.25, 0.1].flatMap((share) => [
    { text, x: x - 5, y: share * area.height, align: 'right' as const, colour: 'muted' as const },
    { text, x: x + 5, y: share * area.height, align: 'left' as const, colour: 'muted' as const },
  ])
}
