// A listed pack as a row of packs.csv; leads by their resistance, whichever way they were given.
import type { ListedPack } from '../catalogue.js'
import type { packColumns } from '../rows/pack-row.js'
import type { CellsOf } from './cells.js'
import { toCelsius, toMilli, toMilliampHours } from './table-unit.js'

type PackCells = CellsOf<Omit<typeof packColumns, 'lead_gauge_awg' | 'lead_length_mm'>>

export function packCells({ part, ...listed }: ListedPack): PackCells {
  return {
    id: part.id,
    maker: listed.maker,
    name: listed.name,
    cells: part.cells,
    capacity_mah: toMilliampHours(part.capacity),
    label_rate_c: listed.labelRate,
    cell_resistance_mohm: toMilli(part.cellResistance),
    lead_resistance_mohm: toMilli(part.leadResistance),
    continuous_current_a: part.continuousCurrent,
    current_limit_a: part.currentLimit,
    connector: part.connector,
    length_mm: toMilli(part.length),
    width_mm: toMilli(part.width),
    height_mm: toMilli(part.height),
    heat_capacity_j_per_k: part.heatCapacity,
    temperature_limit_c: toCelsius(part.temperatureLimit),
    mass_g: toMilli(part.mass),
    price: listed.price,
    priced: listed.priced ?? null,
  }
}
