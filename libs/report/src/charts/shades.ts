// A quantity in at most four steps, each with a shade and a shape of its own, so that it can be read in colour and in grey.
import { range } from '@ductwright/contract/figures'
import type { PointStyle } from './plot-area.js'
import { SHADES } from './theme.js'

export interface Step {
  /** Share at which the step begins and ends. */
  readonly from: number
  readonly to: number
  /** In per cent, such as "10 to 20". */
  readonly words: string
  readonly style: PointStyle
}

const WIDTHS = [1, 2, 5, 10, 20, 25, 50, 100, 1000]
const SHAPES = ['triangle-down', 'diamond', 'square', 'circle'] as const
const MOST = SHAPES.length
/** So that 0.3 lies in the step that begins at 30 %, whatever its last bit. */
const SLACK = 1e-9

/** Round steps, in per cent, that hold all shares; the last has the deepest shade. */
export function stepsOf(shares: readonly number[]): readonly Step[] {
  const [low, high] = [100 * Math.min(...shares), 100 * Math.max(...shares)]
  const first = (width: number) => Math.floor(low / width + SLACK)
  const count = (width: number) => Math.floor(high / width + SLACK) - first(width) + 1
  const width = WIDTHS.find((candidate) => count(candidate) <= MOST) ?? 1000
  return Array.from({ length: count(width) }, (_, i) => {
    const from = width * (first(width) + i)
    const spread = count(width) === 1 ? MOST - 1 : Math.round(((MOST - 1) * i) / (count(width) - 1))
    const shape = SHAPES[MOST - count(width) + i] ?? 'circle'
    const style = { shape, fill: SHADES[spread] ?? 'shade4', stroke: 'shade4', strokeWidth: 1.25 } as const
    return {
      from: from / 100,
      to: (from + width) / 100,
      words: range('percent', from, from + width),
      style,
    }
  })
}

export function holds({ from, to }: Step, share: number): boolean {
  return share >= from - SLACK && share < to - SLACK
}
