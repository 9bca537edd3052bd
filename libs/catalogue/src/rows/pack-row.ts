// One row of packs.csv: a lithium-polymer pack. The label's rating stands beside the believable one and is never used
// as a limit: a label is a claim. A lasting current far above what the cells' resistance allows is refused. The leads are
// stated by gauge and length, or by their resistance where somebody measured it.
import { believableCurrent } from '@ductwright/models/pack/believable-rate'
import { CONTACT_CONNECTORS, leadsResistance } from '@ductwright/models/pack/leads'
import * as z from 'zod'
import type { ListedPack } from '../catalogue.js'
import {
  currencyCell,
  idCell,
  numberCell,
  optionalDateCell,
  optionalNumberCell,
  optionalWholeCell,
  priceCell,
  pricedOf,
  textCell,
  wholeCell,
} from './cell.js'
import { between } from './order.js'
import { fromCelsius, fromMilli, fromMilliampHours } from './unit.js'

/** How far a stated lasting current may lie above the believable one: good makes do better than the one law for all. */
const BELIEVABLE_FACTOR = 1.6

export const packColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  cells: wholeCell(1, 20),
  capacity_mah: numberCell(100, 50_000, 'mAh'),
  label_rate_c: numberCell(1, 300, 'C'),
  cell_resistance_mohm: numberCell(0.1, 200, 'mΩ'),
  lead_resistance_mohm: optionalNumberCell(0, 20, 'mΩ'),
  lead_gauge_awg: optionalWholeCell(0, 24),
  lead_length_mm: optionalNumberCell(10, 2000, 'mm'),
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
  priced: optionalDateCell(),
  currency: currencyCell(),
}

const LEADS = ['lead_gauge_awg', 'lead_length_mm'] as const

const columns = z
  .strictObject(packColumns)
  .refine(
    (row) => row.continuous_current_a <= row.current_limit_a,
    between('continuous_current_a', 'current_limit_a', 'must be no less than'),
  )
  .superRefine(checkBelievable)
  .superRefine(checkLeads)

interface PackCurrents {
  readonly continuous_current_a: number
  readonly cell_resistance_mohm: number
}

function checkBelievable(row: PackCurrents, context: z.RefinementCtx): void {
  // A resistance out of its range has its own fault.
  if (row.cell_resistance_mohm <= 0) return
  const believable = believableCurrent(fromMilli(row.cell_resistance_mohm))
  if (row.continuous_current_a <= BELIEVABLE_FACTOR * believable) return
  const path = ['continuous_current_a']
  const most = Math.floor(BELIEVABLE_FACTOR * believable)
  const cells = `cells of ${row.cell_resistance_mohm} mΩ`
  const message = `must be at most ${most} A, ${BELIEVABLE_FACTOR} times what ${cells} can be believed to give all the time`
  context.addIssue({ code: 'custom', path, message, params: { rule: 'believable-current' } })
}

interface PackLeads {
  readonly connector: string
  readonly lead_resistance_mohm?: number | undefined
  readonly lead_gauge_awg?: number | undefined
  readonly lead_length_mm?: number | undefined
}

/** The resistance, or gauge and length with a connector whose contacts are listed; not both. */
function checkLeads(row: PackLeads, context: z.RefinementCtx): void {
  const refuse = (column: string, message: string) =>
    context.addIssue({ code: 'custom', path: [column], message, params: { rule: 'leads' } })
  const given = LEADS.filter((column) => row[column] !== undefined)
  if (row.lead_resistance_mohm !== undefined) {
    for (const column of given) refuse(column, 'cannot stand beside lead_resistance_mohm: give one of the two')
    return
  }
  const wanted = 'must be given, or lead_resistance_mohm in its place'
  for (const column of LEADS.filter((name) => !given.includes(name))) refuse(column, wanted)
  if (given.length === LEADS.length && !CONTACT_CONNECTORS.includes(row.connector))
    refuse('connector', `must be one of ${CONTACT_CONNECTORS.join(', ')}, or lead_resistance_mohm be given`)
}

function leadOhms(row: PackLeads): number {
  if (row.lead_resistance_mohm !== undefined) return fromMilli(row.lead_resistance_mohm)
  const { connector, lead_gauge_awg: gauge = Number.NaN, lead_length_mm: length = Number.NaN } = row
  return leadsResistance({ gauge, length: fromMilli(length), connector })
}

export const packRow = columns.transform(
  (row): ListedPack => ({
    maker: row.maker,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    labelRate: row.label_rate_c,
    part: {
      id: row.id,
      cells: row.cells,
      capacity: fromMilliampHours(row.capacity_mah),
      cellResistance: fromMilli(row.cell_resistance_mohm),
      leadResistance: leadOhms(row),
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
