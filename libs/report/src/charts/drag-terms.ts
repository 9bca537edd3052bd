// The drag area of an airframe built up term by term, largest first: where clean-up work pays.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Chart } from './chart.js'
import { PlotArea } from './plot-area.js'
import { type Frame, LINES } from './theme.js'

export interface DragTermsSeries {
  readonly drag_area_m2: number
  readonly drag_basis: 'measured' | 'stated' | 'built-up'
  readonly drag_terms: readonly { readonly words: string; readonly area_m2: number }[]
}

const CM2 = 1e4
/** Height of a term, px: its words above its bar. */
const ROW = 38
const BAR = 10

interface Term {
  readonly words: string
  readonly area: number
}

const BASIS_WORDS: Readonly<Record<DragTermsSeries['drag_basis'], string>> = {
  measured: 'solved from the measured speed',
  stated: 'as stated',
  'built-up': 'their sum',
}

/** null when nothing is known of the surfaces. */
export function dragTermsChart(series: DragTermsSeries): Chart | null {
  const terms = series.drag_terms
    .filter(({ area_m2 }) => area_m2 > 0)
    .map(({ words, area_m2 }) => ({ words: inert(words, 60), area: area_m2 * CM2 }))
    .sort((a, b) => b.area - a.area)
  if (terms.length === 0) return null
  const sum = terms.reduce((total, { area }) => total + area, 0)
  const listed = terms.map(({ words, area }) => `${words} ${figure('dragArea', area)}`).join(', ')
  return {
    heading: 'Where the drag comes from',
    caption: [
      `The terms add up to ${figure('dragArea', sum)}. The area flown with here is ${figure('dragArea', series.drag_area_m2 * CM2)}, ${BASIS_WORDS[series.drag_basis]}.`,
      'Drag due to lift is not in these bars; it is in the drag line of the first chart.',
    ],
    panels: [
      {
        heading: '',
        alt: `Bar chart of drag areas in square centimetres: ${listed}. Together ${figure('dragArea', sum)}.`,
        draw: (frame) => drawn(terms, frame),
      },
    ],
  }
}

function drawn(terms: readonly Term[], frame: Frame) {
  const largest = Math.max(...terms.map(({ area }) => area))
  const top = 6
  const height = top + ROW * terms.length + frame.bottom
  const area = new PlotArea(
    { ...frame, left: 12, right: 70, top, height },
    { title: 'drag area, cm²', from: 0, to: largest, ticks: frame.narrow ? 4 : 8 },
    { title: '', from: 0, to: 1, ticks: 0, hidden: true },
  )
  for (const [i, term] of terms.entries()) {
    const y = ROW * i + ROW - 5
    area.box({ x: 0, y: y - BAR }, { x: area.px(term.area), y }, i === 0 ? 'accent' : 'line')
    area.label({ text: term.words, x: 3, y: y - BAR - 10, align: 'left', colour: 'ink' })
    const text = figure('dragArea', term.area)
    area.label({ text, x: area.px(term.area) + 6, y: y - BAR / 2, align: 'left', colour: 'muted' })
  }
  area.rule({ x: 0, y: 0 }, { x: 0, y: area.height }, { ...LINES.against, width: 1 })
  return area.spec()
}
