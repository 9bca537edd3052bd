// The four axes of the parallel lines: which figure, its unit, round ticks, and where a value stands between bottom (0)
// and top (1). Better is up on every axis, so the axis of cost runs downward.
import { bare, clock } from '@ductwright/contract/figures'
import type { Objectives } from '@ductwright/contract/result'

export type AxisKey = keyof Objectives

export interface Axis {
  readonly key: AxisKey
  /** Two short lines above the axis. */
  readonly title: readonly [string, string]
  /** In one line, for a form. */
  readonly name: string
  readonly low: number
  readonly high: number
  readonly ticks: readonly number[]
  readonly falling: boolean
  /** How many of the unit of the form one of the data is. */
  readonly scale: number
  /** What a drag is rounded to, in the unit of the data, so that the form tells its ends in full. */
  readonly grain: number
  shown(value: number): string
}

type Plan = Pick<Axis, 'key' | 'title' | 'name' | 'falling' | 'scale' | 'grain' | 'shown'> & {
  readonly steps: readonly number[]
}

const decades = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, at) => 10 ** (from + at)).flatMap((power) => [power, 2 * power, 5 * power])

const most = 6

function plans(currency: string): readonly Plan[] {
  return [
    {
      key: 'speed_km_h',
      title: ['speed', 'km/h'],
      name: 'speed, km/h',
      falling: false,
      scale: 1,
      grain: 1,
      steps: decades(0, 3),
      shown: (value) => bare('speed', value),
    },
    {
      key: 'flight_time_s',
      title: ['flight time', 'min'],
      name: 'flight time, min',
      falling: false,
      scale: 1 / 60,
      grain: 6,
      steps: [5, 10, 15, 30, 60, 120, 300, 600],
      shown: clock,
    },
    {
      key: 'cost',
      title: ['to pay', currency],
      name: `to pay, ${currency}`,
      falling: true,
      scale: 1,
      grain: 1,
      steps: decades(0, 7),
      shown: (value) => bare('count', value),
    },
    {
      key: 'margin',
      title: ['below design', 'load, %'],
      name: 'below the design load, %',
      falling: false,
      scale: 100,
      grain: 0.01,
      steps: decades(-2, 0).slice(0, -1),
      shown: (value) => bare('percent', value * 100),
    },
  ]
}

/** Axes that hold every row, from tick to tick. */
export function axesOf(rows: readonly { readonly raw: Objectives }[], currency: string): readonly Axis[] {
  return plans(currency).map(({ steps, ...plan }) => {
    const values = rows.map(({ raw }) => raw[plan.key])
    return { ...plan, ...ticked(Math.min(...values), Math.max(...values), steps) }
  })
}

/** The finest round steps that give no more ticks than are easy to read. */
function ticked(least: number, largest: number, steps: readonly number[]): Pick<Axis, 'low' | 'high' | 'ticks'> {
  const count = (step: number) => Math.ceil(largest / step + 1e-9) - Math.floor(least / step - 1e-9)
  const step = steps.find((one) => count(one) <= most) ?? (steps.at(-1) as number)
  const first = Math.floor(least / step + 1e-9)
  const last = Math.max(first + 1, Math.ceil(largest / step - 1e-9))
  const ticks = Array.from({ length: last - first + 1 }, (_, at) => (first + at) * step)
  return { low: first * step, high: last * step, ticks }
}

/** Where a value stands: 0 at the bottom, 1 at the top. */
export function placeOf({ low, high, falling }: Axis, value: number): number {
  const share = (value - low) / (high - low)
  return falling ? 1 - share : share
}

/** The value at a place, rounded to the grain of the axis. */
export function valueAt({ low, high, falling, grain }: Axis, place: number): number {
  const share = Math.min(1, Math.max(0, falling ? 1 - place : place))
  return Math.round((low + share * (high - low)) / grain) * grain
}
