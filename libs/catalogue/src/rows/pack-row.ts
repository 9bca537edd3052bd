// One row of packs.csv: a lithium-polymer pack. The label's rating stands beside the believable one and is never used
// as a limit: a label is a claim.
import * as z from 'zod'
import type { ListedPack } from '../catalogue.js'
import { currencyCell, idCell, numberCell, priceCell, textCell, wholeCell } from './cell.js'
import { between } from './order.js'
import { fromCelsius, fromMilli, fromMilliampHours } from './unit.js'

export const packColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  cells: wholeCell(1, 20),
  capacity_mah: numberCell(100, 50_000, 'mAh'),
  label_rate_c: numberCell(1, 300, 'C'),
  cell_resistance_mohm: numberCell(0.1, 200, 'mΩ'),
  lead_resistance_mohm: numberCell(0, 20, 'mΩ'),
  continuous_current_a: numberCell(1, 800, 'A'),
  current_limit_a: numberCell(1, 800, 'A'),
  connector: textCell(40),
  length_mm: numberCell(10, 800, 'mm'),
  width_mm: numberCell(5, 300, 'mm'),
  height_mm: numberCell(5, 300, 'mm'),
  heat_capacity_j_per_k: numberCell(5, 20_000, 'J/K'),
  temperature_limit_c: numberCell(40, 80, '°C'),
  mass_g: numberCell(10, 10_000, 'g'),
  price: priceCell(),
  currency: currencyCell(),
}

const columns = z
  .strictObject(packColumns)
  .refine(
    (row) => row.continuous_current_a <= row.current_limit_a,
    between('continuous_current_a', 'current_limit_a', 'must be no less than'),
  )

export const packRow = columns.transform(
  (row): ListedPack => ({
    maker: row.maker,
    name: row.name,
    price: row.price,
    labelRate: row.label_rate_c,
    part: {
      id: row.id,
      cells: row.cells,
      capacity: fromMilliampHours(row.capacity_mah),
      cellResistance: fromMilli(row.cell_resistance_mohm),
      leadResistance: fromMilli(row.lead_resistance_mohm),
      continuousCurrent: row.continuous_current_a,
      currentLimit: row.current_limit_a,
      connector: row.connector,
      length: fromMilli(row.length_mm),
      width: fromMilli(row.width_mm),
      height: fromMilli(row.height_mm),
      heatCapacity: row.heat_capacity_j_per_k,
      temperatureLimit: fromCelsius(row.temperature_limit_c),
      mass: fromMilli(row.mass_g),
    },
  }),
)
