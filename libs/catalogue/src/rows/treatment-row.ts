// One row of treatments.csv: what one kind of drag treatment costs in money, mass and time. The kind is the id.
import { TREATMENTS } from '@ductwright/models/drag/treatments'
import * as z from 'zod'
import type { ListedTreatment } from '../catalogue.js'
import { choiceCell, currencyCell, numberCell, optionalDateCell, priceCell, pricedOf, textCell } from './cell.js'
import { fromMilli } from './unit.js'

export const treatmentColumns = {
  id: choiceCell(TREATMENTS),
  name: textCell(80),
  price: priceCell(),
  priced: optionalDateCell(),
  mass_g: numberCell(0, 2000, 'g'),
  hours: numberCell(0, 500, 'h'),
  currency: currencyCell(),
}

export const treatmentRow = z.strictObject(treatmentColumns).transform(
  (row): ListedTreatment => ({
    kind: row.id,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    mass: fromMilli(row.mass_g),
    hours: row.hours,
  }),
)
