// A plan made into the CSV tables of a catalogue.
import { stringify } from 'csv-stringify/sync'
import {
  airframeTable,
  dragTable,
  escTable,
  fanTable,
  infoTable,
  motorTable,
  packTable,
  setTable,
  structureTable,
  type Table,
  treatmentTable,
} from '../tables.js'
import { airframeCells } from './airframe-law.js'
import { dragCells } from './drag-law.js'
import { escCells } from './esc-law.js'
import { fanCells } from './fan-law.js'
import { motorCells } from './motor-law.js'
import { packCells } from './pack-law.js'
import type { CataloguePlan } from './plan.js'
import { setCells } from './set-law.js'
import { structureCells } from './structure-law.js'
import { treatmentCells } from './treatment-law.js'

/** File name → CSV text, separated by commas, one line feed after each row. */
export function catalogueFiles(plan: CataloguePlan): Record<string, string> {
  const { seed, currency } = plan
  const fans = plan.fans.flatMap((family) => family.sizes.map((size) => fanCells(family, size, seed, currency)))
  const motors = plan.motors.flatMap((family) =>
    family.motors.map((choice) => motorCells(family, choice, seed, currency)),
  )
  const escs = plan.escs.flatMap((family) => family.labels.map((label) => escCells(family, label, seed, currency)))
  const packs = plan.packs.flatMap((family) => family.packs.map((choice) => packCells(family, choice, seed, currency)))
  const airframes = plan.airframes.map((spec) => airframeCells(spec, seed, currency))
  const sets = setCells(fans, motors, plan.sets, seed, currency)
  return Object.fromEntries([
    csv(infoTable, [infoCells(plan)]),
    csv(fanTable, fans),
    csv(motorTable, motors),
    csv(escTable, escs),
    csv(packTable, packs),
    csv(airframeTable, airframes),
    csv(
      structureTable,
      plan.airframes.filter(({ limits }) => limits !== 'stated').map((spec) => structureCells(spec, seed)),
    ),
    csv(
      dragTable,
      plan.airframes.filter(({ drag }) => drag !== 'stated').map((spec) => dragCells(spec, seed)),
    ),
    csv(setTable, sets),
    csv(treatmentTable, treatmentCells(seed, currency)),
  ])
}

function infoCells({ name, currency, dated }: CataloguePlan) {
  return {
    name,
    currency,
    dated,
    receiver_supply_id: 'receiver-supply-buffer-10a',
    receiver_supply_name: 'Receiver supply 10 A with buffer pack',
    receiver_supply_price: 39.9,
    receiver_supply_mass_g: 85,
  }
}

function csv(
  table: Table<unknown>,
  rows: readonly Readonly<Record<string, string | number>>[],
): readonly [string, string] {
  const columns = table.columns.filter((column) => column !== 'priced')
  return [table.file, stringify([...rows], { header: true, columns, record_delimiter: '\n' })]
}
