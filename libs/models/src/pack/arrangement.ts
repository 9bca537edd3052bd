// One or two equal packs as one source: alone, in series or side by side.
import type { Pack } from './pack.js'

export type Arrangement = 'single' | 'series' | 'parallel'

/** Arrangements in canonical order. */
export const ARRANGEMENTS: readonly Arrangement[] = ['single', 'series', 'parallel']

/** How many packs an arrangement takes. */
export function packCount(arrangement: Arrangement): number {
  return arrangement === 'single' ? 1 : 2
}

/** A source of cells in series; SI. */
export interface Source {
  readonly cells: number
  /** Charge, A·s. */
  readonly capacity: number
  /** Resistance of all cells at 25 °C, Ω; falls as they warm. */
  readonly cellResistance: number
  /** Resistance of leads and connectors, Ω. */
  readonly leadResistance: number
  /** What a cell gives above the chart of resting voltages, V; 0 but where uncertainty is worked out. */
  readonly cellVoltageShift: number
  readonly currentLimit: number
  readonly continuousCurrent: number
  readonly mass: number
  readonly heatCapacity: number
  /** K */
  readonly temperatureLimit: number
}

/** The packs of an arrangement as one source. */
export function arrange(pack: Pack, arrangement: Arrangement): Source {
  const series = arrangement === 'series' ? 2 : 1
  const parallel = arrangement === 'parallel' ? 2 : 1
  return {
    cells: pack.cells * series,
    capacity: pack.capacity * parallel,
    cellResistance: (pack.cells * pack.cellResistance * series) / parallel,
    leadResistance: (pack.leadResistance * series) / parallel,
    cellVoltageShift: 0,
    currentLimit: pack.currentLimit * parallel,
    continuousCurrent: pack.continuousCurrent * parallel,
    mass: pack.mass * series * parallel,
    heatCapacity: pack.heatCapacity * series * parallel,
    temperatureLimit: pack.temperatureLimit,
  }
}

/** Room the packs need, m: alone, or two stacked on the side that fits the bay. */
export function fitsBay(
  pack: Pick<Pack, 'length' | 'width' | 'height'>,
  arrangement: Arrangement,
  bay: { readonly length: number; readonly width: number; readonly height: number },
): boolean {
  const { length: l, width: w, height: h } = pack
  const blocks =
    arrangement === 'single'
      ? [[l, w, h]]
      : [
          [2 * l, w, h],
          [l, 2 * w, h],
          [l, w, 2 * h],
        ]
  // A pack may lie on either side, but its length stays along the fuselage.
  return blocks.some(
    ([x = 0, y = 0, z = 0]) =>
      x <= bay.length && ((y <= bay.width && z <= bay.height) || (z <= bay.width && y <= bay.height)),
  )
}
