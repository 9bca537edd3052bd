// One row of sets.csv: a fan sold with its motor fitted, named by the ids of both.
import * as z from 'zod'
import type { PartSet } from '../catalogue.js'
import { currencyCell, idCell, numberCell, optionalDateCell, priceCell, pricedOf, textCell } from './cell.js'
import { fromMilli } from './unit.js'

export const setColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  fan_id: idCell(),
  motor_id: idCell(),
  mass_g: numberCell(10, 10_000, 'g'),
  price: priceCell(),
  priced: optionalDateCell(),
  currency: currencyCell(),
}

export const setRow = z.strictObject(setColumns).transform(
  (row): PartSet => ({
    id: row.id,
    maker: row.maker,
    name: row.name,
    fanId: row.fan_id,
    motorId: row.motor_id,
    price: row.price,
    ...pricedOf(row),
    mass: fromMilli(row.mass_g),
  }),
)
