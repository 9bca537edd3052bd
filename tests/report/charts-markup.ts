// Reads charts of an answer: their marks and texts with the places they are drawn at, and the scale of an axis from the
// numbers beside it.

import type { Result } from '@ductwright/contract/result'
import { type AnswerChart, answerCharts, type ChartOptions } from '@ductwright/report/charts/answer-charts'
import { type Element, elementsOf } from './plots-markup.js'

export interface Mark {
  readonly x: number
  readonly y: number
  readonly attributes: Readonly<Record<string, string>>
}

export interface ReadChart extends AnswerChart {
  readonly elements: readonly Element[]
  readonly width: number
  readonly height: number
  /** Every line of text once, though it is drawn with a rim. */
  readonly texts: readonly (Mark & { readonly text: string })[]
}

export async function readCharts(result: Result, options: ChartOptions = {}): Promise<readonly ReadChart[]> {
  return (await answerCharts(result, options)).map(read)
}

export function chartOf(charts: readonly ReadChart[], id: string): ReadChart {
  const chart = charts.find((one) => one.id === id)
  if (chart === undefined) throw new Error(`no chart ${id} among ${charts.map((one) => one.id).join()}`)
  return chart
}

function read(chart: AnswerChart): ReadChart {
  const elements = elementsOf(chart.svg)
  const [, , width = 0, height = 0] = (elements[0]?.attributes['viewBox'] ?? '').split(' ').map(Number)
  const texts = new Map<string, Mark & { readonly text: string }>()
  for (const { name, turned, text, x, y, attributes } of elements) {
    if (name === 'text' && !turned) texts.set(`${text} ${x} ${y}`, { text: unescaped(text), x, y, attributes })
  }
  return { ...chart, elements, width, height, texts: [...texts.values()] }
}

function unescaped(text: string): string {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&')
}

/** Marks of a colour as it fills or outlines them. */
export function marks({ elements }: ReadChart, paint: 'fill' | 'stroke', colour: string): readonly Mark[] {
  return elements.filter(({ name, attributes }) => name === 'path' && attributes[paint] === colour)
}

/** From the unit of an axis to its pixels, read off the numbers beside it. */
export function axisScale({ texts }: ReadChart, along: 'x' | 'y'): (value: number) => number {
  const across = along === 'x' ? 'y' : 'x'
  const numbers = texts.filter(({ text }) => /^−?[\d,.]+$/.test(text))
  const rows = new Map<number, { value: number; at: number }[]>()
  for (const number of numbers) {
    const row = rows.get(number[across]) ?? []
    row.push({ value: Number(number.text.replace('−', '-').replaceAll(',', '')), at: number[along] })
    rows.set(number[across], row)
  }
  const longest = [...rows.values()].reduce((most, row) => (row.length > most.length ? row : most), [])
  const [first, last] = [longest[0], longest.at(-1)]
  if (first === undefined || last === undefined || first === last) throw new Error(`no axis along ${along}`)
  return (value) => first.at + ((value - first.value) * (last.at - first.at)) / (last.value - first.value)
}
