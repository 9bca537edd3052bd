// Rows that only a buyer needs, as they would be written: a set, a treatment, and the one row of the catalogue itself.
import type { Catalogue, ListedTreatment, PartSet } from '../catalogue.js'
import type { infoColumns } from '../rows/info-row.js'
import type { setColumns } from '../rows/set-row.js'
import type { treatmentColumns } from '../rows/treatment-row.js'
import type { Cell, CellsOf } from './cells.js'
import { toMilli } from './table-unit.js'

export function setCells(set: PartSet): CellsOf<typeof setColumns> {
  return {
    id: set.id,
    maker: set.maker,
    name: set.name,
    fan_id: set.fanId,
    motor_id: set.motorId,
    mass_g: toMilli(set.mass),
    price: set.price,
    priced: set.priced ?? null,
  }
}

export function treatmentCells(treatment: ListedTreatment): CellsOf<typeof treatmentColumns> {
  return {
    id: treatment.kind,
    name: treatment.name,
    price: treatment.price,
    priced: treatment.priced ?? null,
    mass_g: toMilli(treatment.mass),
    hours: treatment.hours,
  }
}

export function infoCells(
  catalogue: Pick<Catalogue, 'name' | 'currency' | 'dated' | 'receiverSupply'>,
): CellsOf<typeof infoColumns> & { readonly currency: Cell } {
  const { name, currency, dated, receiverSupply } = catalogue
  return {
    name,
    currency,
    dated,
    receiver_supply_id: receiverSupply.id,
    receiver_supply_name: receiverSupply.name,
    receiver_supply_price: receiverSupply.price,
    receiver_supply_mass_g: toMilli(receiverSupply.mass),
  }
}
