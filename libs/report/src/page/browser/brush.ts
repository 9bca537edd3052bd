// What is picked out on the axes: a span of values on any of them; a setup is kept that lies within all.
import type { Objectives } from '@ductwright/contract/result'
import type { AxisKey } from './axes.js'

export interface Span {
  readonly low: number
  readonly high: number
}

export type Brush = ReadonlyMap<AxisKey, Span>

export const nothingBrushed: Brush = new Map()

/** The brush with one span set, or taken off. A span whose ends are the wrong way round keeps nothing. */
export function brushed(brush: Brush, key: AxisKey, span: Span | null): Brush {
  const next = new Map(brush)
  if (span === null) next.delete(key)
  else next.set(key, span)
  return next
}

export function isWithin(raw: Objectives, brush: Brush): boolean {
  return [...brush].every(([key, { low, high }]) => raw[key] >= low && raw[key] <= high)
}
