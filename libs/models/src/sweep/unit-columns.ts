// What of a unit (a controller with its packs) the bounds of a box depend on, as the columns of a row, and the unit at one
// extreme of a box that such a row is read into.
import type { Esc } from '../esc/esc.js'
import type { Source } from '../pack/arrangement.js'

/** What of a controller the bounds depend on, in the order of a row. */
export const ESC_COLUMNS = [
  'resistance',
  'resistanceTemperatureCoefficient',
  'quiescentPower',
  'proportionalLoss',
  'switchingTime',
  'switchingFrequency',
  'freewheelDrop',
  'deadTimeDrop',
  'freewheelResistanceShare',
  'currentLimit',
  'electricalSpeedLimit',
] as const
/** What of a source, behind it; the mass of the controller ends a row. All units of a tree have the same cells. */
export const SOURCE_COLUMNS = [
  'cells',
  'cellVoltageShift',
  'cellResistance',
  'leadResistance',
  'mass',
  'capacity',
  'currentLimit',
  'continuousCurrent',
] as const
/** Of these the most is best; of all else the least. */
const MORE_IS_BETTER = ['currentLimit', 'electricalSpeedLimit', 'capacity', 'continuousCurrent']

const COLUMNS = [
  ...ESC_COLUMNS.map((column) => `esc ${column}` as const),
  ...SOURCE_COLUMNS.map((column) => `source ${column}` as const),
  'esc mass',
] as const
export type Column = (typeof COLUMNS)[number]

/** Length of a row, and of which of its columns more is better. */
export const ROW = COLUMNS.length
export const RISING = COLUMNS.map((column) => MORE_IS_BETTER.includes(column.split(' ')[1] as string))

/** What a unit must keep to of a box: in each column no better than the best, no worse than the worst, both or neither. */
export type Sides = Uint8Array
export const NO_BETTER = 1
export const NO_WORSE = 2

/** The sides that `columns` names of each. */
export function sidesOf(columns: (column: Column) => number): Sides {
  return Uint8Array.from(COLUMNS, columns)
}

type Writable<Part> = { -readonly [Key in keyof Part]: Part[Key] }

/** One extreme of a box, to be read into; SI. */
export interface Extreme {
  readonly esc: Writable<Pick<Esc, (typeof ESC_COLUMNS)[number]>>
  readonly source: Writable<Pick<Source, (typeof SOURCE_COLUMNS)[number]>>
  escMass: number
}

export function emptyExtreme(): Extreme {
  return {
    esc: {
      resistance: Number.NaN,
      resistanceTemperatureCoefficient: Number.NaN,
      quiescentPower: Number.NaN,
      proportionalLoss: Number.NaN,
      switchingTime: Number.NaN,
      switchingFrequency: Number.NaN,
      freewheelDrop: Number.NaN,
      deadTimeDrop: Number.NaN,
      freewheelResistanceShare: Number.NaN,
      currentLimit: Number.NaN,
      electricalSpeedLimit: Number.NaN,
    },
    source: {
      cells: Number.NaN,
      cellVoltageShift: Number.NaN,
      cellResistance: Number.NaN,
      leadResistance: Number.NaN,
      mass: Number.NaN,
      capacity: Number.NaN,
      currentLimit: Number.NaN,
      continuousCurrent: Number.NaN,
    },
    escMass: Number.NaN,
  }
}
