// The four wishes as axes, better upward on each: how fast, how long, how cheap, how far below the design load.
import { duration, figure, money, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Objectives, Result } from '@ductwright/contract/result'
import { scale } from 'vega'
import { targetSpeed } from './named-members.js'

export interface WishAxis {
  /** Two rows: the quantity, then its unit. */
  readonly title: readonly [string, string]
  /** What it is called within a sentence. */
  readonly name: string
  /** The values of the front, worst to best, with unit. */
  readonly words: string
  /** Round values, in the unit of the axis. */
  readonly ticks: readonly number[]
  /** null: nothing was said. */
  readonly wanted: number | null
  read(raw: Objectives): number
  /** Share of the height at which a value stands, 0…1. */
  place(value: number): number
}

interface Quantity {
  readonly title: readonly [string, string]
  readonly name: string
  readonly wanted: number | null
  /** Whether less is better. */
  readonly less?: boolean
  read(raw: Objectives): number
  write(raw: Objectives): string
}

const TICKS = 4
/** Room beyond the outermost values, as a share of the range. */
const AROUND = 0.05

export function wishAxes(result: Result): readonly WishAxis[] {
  const { currency } = result.catalogue
  const { wanted } = result.understood
  const quantities: readonly Quantity[] = [
    {
      title: ['speed,', 'km/h'],
      name: 'speed',
      wanted: targetSpeed(result),
      read: (raw) => raw.speed_km_h,
      write: (raw) => figure('speed', raw.speed_km_h),
    },
    {
      title: ['flight time,', 'min'],
      name: 'flight time',
      wanted: wanted.flightTime / 60,
      read: (raw) => raw.flight_time_s / 60,
      write: (raw) => duration(raw.flight_time_s),
    },
    {
      title: ['to pay,', inert(currency, 8)],
      name: 'to pay',
      wanted: null,
      less: true,
      read: (raw) => raw.cost,
      write: (raw) => money(raw.cost, currency),
    },
    {
      title: ['below design', 'load, %'],
      name: 'below the design load',
      wanted: 100 * wanted.margin,
      read: (raw) => 100 * raw.margin,
      write: (raw) => reserve(raw.margin),
    },
  ]
  return quantities.map((quantity) => axisOf(quantity, result))
}

function axisOf({ read, write, less = false, ...quantity }: Quantity, { front }: Result): WishAxis {
  const ordered = front.map(({ raw }) => raw).sort((a, b) => (less ? read(b) - read(a) : read(a) - read(b)))
  const [worst, best] = [ordered[0], ordered.at(-1)]
  const values = [...ordered.map(read), ...(quantity.wanted === null ? [] : [quantity.wanted])]
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const room = most > least ? AROUND * (most - least) : Math.max(0.01 * Math.abs(most), 0.5)
  const share = (value: number) => (value - least + room) / (most - least + 2 * room)
  return {
    ...quantity,
    words: worst === undefined || best === undefined ? '' : `${write(worst)} to ${write(best)}`,
    ticks: scale('linear')().domain([least, most]).ticks(TICKS),
    read,
    place: (value) => (less ? 1 - share(value) : share(value)),
  }
}
