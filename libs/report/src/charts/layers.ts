// The layers of a chart specification: all marks of one kind in one, their places and looks read from the data. Places in
// pixels pass by the scales of the axes.
import type { TopLevelSpec } from 'vega-lite'
import type { Label } from './label-room.js'
import { colour, LINE_HEIGHT, TEXT_SIZE } from './theme.js'

export type Layer = Extract<TopLevelSpec, { readonly layer: unknown }>['layer'][number]
/** How a unit of the axes becomes a place. */
export type Axes = Pick<NonNullable<Extract<Layer, { readonly mark: unknown }>['encoding']>, 'x' | 'y'>

/** From one place to another, px. */
export interface RuleMark {
  readonly x: number
  readonly y: number
  readonly x2: number
  readonly y2: number
  readonly colour: string
  readonly width: number
  readonly dash: readonly number[]
}

/** One point of a line, in the units of the axes; all points of a line have its number and look the same. */
export interface LinePoint {
  readonly x: number
  readonly y: number
  readonly line: number
  readonly colour: string
  readonly width: number
  readonly dash: readonly number[]
  readonly opacity: number
}

/** At a place, px. */
export interface PointMark {
  readonly x: number
  readonly y: number
  readonly shape: string
  readonly size: number
  readonly fill: string
  readonly stroke: string
  readonly strokeWidth: number
}

function asIs(field: string) {
  return { field, type: 'quantitative', scale: null, axis: null } as const
}

function look(field: string) {
  return { field, type: 'nominal', scale: null } as const
}

const PLACE = { x: asIs('x'), y: asIs('y') }
const SPAN = { ...PLACE, x2: { field: 'x2' }, y2: { field: 'y2' } }
/** Strokes as the data of a mark say. */
const STROKE = { strokeWidth: { expr: 'datum.width' }, strokeDash: { expr: 'datum.dash' } } as const
const COLOURED = { color: look('colour') }

/** Areas between two corners. */
export function boxLayer(values: readonly RuleMark[]): readonly Layer[] {
  if (values.length === 0) return []
  return [{ data: data(values), mark: { type: 'rect', opacity: 1 }, encoding: { ...SPAN, ...COLOURED } }]
}

export function ruleLayer(values: readonly RuleMark[]): readonly Layer[] {
  if (values.length === 0) return []
  return [{ data: data(values), mark: { type: 'rule', ...STROKE }, encoding: { ...SPAN, ...COLOURED } }]
}

export function lineLayer(values: readonly LinePoint[], axes: Axes): readonly Layer[] {
  if (values.length === 0) return []
  const mark = { type: 'line', strokeJoin: 'round', opacity: { expr: 'datum.opacity' }, ...STROKE } as const
  // Else the library would go by x, and a line may go straight up.
  const order = { field: 'at', type: 'quantitative' } as const
  const numbered = values.map((value, at) => ({ ...value, at }))
  return [{ data: data(numbered), mark, encoding: { ...axes, ...COLOURED, detail: look('line'), order } }]
}

export function pointLayer(values: readonly PointMark[]): readonly Layer[] {
  if (values.length === 0) return []
  const size = { size: { expr: 'datum.size' }, strokeWidth: { expr: 'datum.strokeWidth' } } as const
  const encoding = { ...PLACE, shape: look('shape'), fill: look('fill'), stroke: look('stroke') }
  return [{ data: data(values), mark: { type: 'point', opacity: 1, ...size }, encoding }]
}

/** Each line of a text by itself; first every rim, then every text, so that no rim covers a text. */
export function labelLayers(labels: readonly Label[]): readonly Layer[] {
  if (labels.length === 0) return []
  const values = data(labels.flatMap(linesOf))
  const text = { type: 'text', baseline: 'middle', fontSize: TEXT_SIZE } as const
  const mark = { ...text, align: { expr: 'datum.align' }, fontWeight: { expr: 'datum.weight' } } as const
  const encoding = { ...PLACE, text: { field: 'text' } }
  const rim = { stroke: colour('paper'), strokeWidth: 4, strokeJoin: 'round', fill: colour('paper') } as const
  return [
    { data: values, mark: { ...mark, ...rim }, encoding },
    { data: values, mark, encoding: { ...encoding, ...COLOURED } },
  ]
}

function linesOf({ text, x, y, align, colour: role, bold = false }: Label) {
  const lines = text.split('\n')
  const top = y - 0.5 * LINE_HEIGHT * (lines.length - 1)
  const looks = { align, weight: bold ? 'bold' : 'normal', colour: colour(role) }
  return lines.map((line, row) => ({ text: line, x, y: top + LINE_HEIGHT * row, ...looks }))
}

function data(values: readonly object[]) {
  return { values: values.map((value) => ({ ...value })) }
}
