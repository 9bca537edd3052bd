// The one row of catalogue.csv: what the catalogue is called, its currency and date, and the receiver supply to buy when
// a speed controller has none.
import * as z from 'zod'
import type { Catalogue } from '../catalogue.js'
import { currencyCell, idCell, numberCell, priceCell, textCell } from './cell.js'
import { fromMilli } from './unit.js'

export const infoColumns = {
  name: textCell(80),
  currency: currencyCell(),
  dated: z.iso.date('must be a date written YYYY-MM-DD'),
  receiver_supply_id: idCell(),
  receiver_supply_name: textCell(80),
  receiver_supply_price: priceCell(),
  receiver_supply_mass_g: numberCell(1, 1000, 'g'),
}

export const infoRow = z.strictObject(infoColumns).transform(
  (row): Pick<Catalogue, 'name' | 'currency' | 'dated' | 'receiverSupply'> => ({
    name: row.name,
    currency: row.currency,
    dated: row.dated,
    receiverSupply: {
      id: row.receiver_supply_id,
      name: row.receiver_supply_name,
      price: row.receiver_supply_price,
      mass: fromMilli(row.receiver_supply_mass_g),
    },
  }),
)
