// The whole front as a file for a spreadsheet: one row a setup, RFC 4180, units in the heads. Text cells that a
// spreadsheet would take for a formula get an apostrophe in front; numbers, negative ones too, stay numbers.

import { bareSpeed, fileAmount, fileNumber, type Quantity, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import { stringify } from 'csv-stringify/sync'
import { targetSpeed } from './charts/named-members.js'
import { nearestLimit } from './performance.js'
import { kneeName, pickNames } from './pick-names.js'
import { ownedLine, partName, purchaseLine, workLine } from './setup-words.js'

type Cell = (member: Member, result: Result) => string

const number =
  (quantity: Quantity, read: (member: Member) => number | null): Cell =>
  (member) =>
    fileNumber(quantity, read(member))

const share = (read: (member: Member) => number): Cell => number('percent', (member) => read(member) * 100)

/** What is left of a limit, rounded as the letter rounds it, to the side of caution. */
const left =
  (read: (member: Member) => number): Cell =>
  (member) =>
    reserve(read(member)).replace('\u00a0%', '').replace('−', '-')

const text =
  (read: (member: Member, result: Result) => string): Cell =>
  (member, result) =>
    unformulated(read(member, result))

/** Text no spreadsheet runs. */
export function unformulated(value: string): string {
  const shown = inert(value)
  return /^\s*[=+\-@|%]/u.test(shown) || /^[\t\r\n]/u.test(value) ? `'${shown}` : shown
}

function columnsFor(currency: string): [string, Cell][] {
  const unit =
    inert(currency, 8)
      .toLowerCase()
      .replace(/[^a-z]/g, '') || 'currency'
  return [
    ['rank', number('count', (member) => member.rank)],
    ['purchase', number('count', (member) => member.purchase)],
    ['as_asked', (member) => (member.score.reaches ? 'yes' : 'no')],
    ['speed_km_h', (member, result) => bareSpeed(member.raw.speed_km_h, targetSpeed(result))],
    ['flight_time_s', number('seconds', (member) => member.raw.flight_time_s)],
    [`cost_${unit}`, (member) => fileAmount(member.raw.cost)],
    [`replacement_cost_${unit}`, (member) => fileAmount(member.replacement_cost)],
    ['below_design_load_percent', left((member) => member.raw.margin)],
    ['free_to_nearest_limit_percent', left((member) => member.figures.headroom)],
    ...comparedColumns(unit),
    ...scoreColumns,
    ['named_for', text(namedFor)],
    ...setupColumns,
    ['to_buy', text(({ shopping }) => purchaseLine(shopping))],
    ['at_hand', text(({ shopping }) => ownedLine(shopping))],
    ['clean_up_work', text(({ shopping }) => workLine(shopping))],
    ...figureColumns,
    ['first_in_airframe', text((member) => member.figures.margin_binds)],
    ['nearest_limit', text((member) => nearestLimit(member.figures)?.limit ?? '')],
    ['held_back_by', text((member) => member.binds.kind)],
    ['holds_speed_back', text((member) => member.binds.words)],
    ['why', text((member) => member.why)],
  ]
}

function comparedColumns(unit: string): [string, Cell][] {
  return [
    ['compared_speed_km_h', number('speed', (member) => member.compared.speed_km_h)],
    ['compared_flight_time_s', number('seconds', (member) => member.compared.flight_time_s)],
    [`compared_cost_${unit}`, (member) => fileAmount(member.compared.cost)],
    ['compared_below_design_load_percent', left((member) => member.compared.margin)],
  ]
}

/** How good each figure is for what was asked, from 0 to 1, and what they come to together. */
const scoreColumns: [string, Cell][] = [
  ['desirability', number('coefficient', (member) => member.score.desirability)],
  ['desirability_of_speed', number('coefficient', (member) => member.score.speed)],
  ['desirability_of_flight_time', number('coefficient', (member) => member.score.time)],
  ['desirability_of_cost', number('coefficient', (member) => member.score.cost)],
  ['desirability_of_reserve', number('coefficient', (member) => member.score.margin)],
  ['own_expression', number('coefficient', (member) => member.score.expression)],
]

function namedFor({ rank }: Member, { picks, knee }: Result): string {
  const names = picks.filter((pick) => pick.rank === rank).map(({ pick }) => pickNames[pick])
  return [...names, ...(knee?.rank === rank ? [kneeName] : [])].join(', ')
}

const setupColumns: [string, Cell][] = [
  ['fan', text((member, result) => partName(result.names, member.setup.fan))],
  ['motor', text((member, result) => partName(result.names, member.setup.motor))],
  ['speed_controller', text((member, result) => partName(result.names, member.setup.esc))],
  ['pack', text((member, result) => partName(result.names, member.setup.pack))],
  ['fan_id', text((member) => member.setup.fan)],
  ['motor_id', text((member) => member.setup.motor)],
  ['speed_controller_id', text((member) => member.setup.esc)],
  ['pack_id', text((member) => member.setup.pack)],
  ['arrangement', text((member) => member.setup.arrangement)],
  ['timing_deg', number('angle', (member) => member.setup.timing_deg)],
  ['throttle_cap_percent', share((member) => member.setup.duty)],
  ['nozzle_exit_mm', number('diameter', (member) => member.figures.nozzle_exit_mm)],
  ['pack_station_mm', number('station', (member) => member.figures.pack_station_mm)],
  ['ballast_g', number('smallMass', (member) => member.figures.ballast_kg * 1000)],
]

const figureColumns: [string, Cell][] = [
  ['speed_steady_km_h', number('speed', (member) => member.figures.speed_steady_km_h)],
  ['speed_in_run_km_h', number('speed', (member) => member.figures.speed_in_run_km_h)],
  ['speed_full_pack_km_h', number('speed', (member) => member.figures.top_full.speed_km_h)],
  ['speed_last_pass_km_h', number('speed', (member) => member.figures.top_last?.speed_km_h ?? null)],
  ['speed_dive_km_h', number('speed', (member) => member.figures.speed_dive_km_h)],
  ['speed_fastest_km_h', number('speed', (member) => member.figures.speed_fastest_km_h)],
  ['speed_allowed_km_h', number('speed', (member) => member.figures.speed_allowed_km_h)],
  ['speed_allowed_by', text((member) => member.figures.speed_allowed_by ?? '')],
  ['turn_radius_m', number('distance', (member) => member.figures.turn_radius_m)],
  ['efflux_ceiling_km_h', number('speed', (member) => member.figures.efflux_ceiling_km_h)],
  ['stall_km_h', number('speed', (member) => member.figures.stall_km_h)],
  ['stall_flaps_km_h', number('speed', (member) => member.figures.stall_flaps_km_h)],
  ['lift_off_km_h', number('speed', (member) => member.figures.lift_off_km_h)],
  ['landing_km_h', number('speed', (member) => member.figures.landing_km_h)],
  ['take_off_roll_m', number('distance', (member) => member.figures.take_off_roll_m)],
  ['mass_kg', number('mass', (member) => member.figures.mass_kg)],
  ['thrust_to_weight', number('ratio', (member) => member.figures.thrust_to_weight)],
  ['standing_thrust_n', number('force', (member) => member.figures.standing.thrust_n)],
  ['standing_current_a', number('current', (member) => member.figures.standing.pack_current_a)],
  ['standing_power_w', number('power', (member) => member.figures.standing.pack_power_w)],
  ['standing_shaft_rpm', number('rotation', (member) => member.figures.standing.shaft_rpm)],
  ['mean_current_a', number('current', (member) => member.figures.mean_current_a)],
  ['charge_used_mah', number('charge', (member) => member.figures.charge_used_mah)],
  ['winding_c', number('temperature', (member) => member.figures.temperatures.winding_c)],
  ['case_c', number('temperature', (member) => member.figures.temperatures.case_c)],
  ['speed_controller_c', number('temperature', (member) => member.figures.temperatures.esc_c)],
  ['pack_c', number('temperature', (member) => member.figures.temperatures.pack_c)],
]

export function renderCsv(result: Result): string {
  const columns = columnsFor(result.catalogue.currency)
  const rows = [...result.front].sort((a, b) => a.rank - b.rank)
  const cells = rows.map((member) => columns.map(([, cell]) => cell(member, result)))
  return stringify([columns.map(([title]) => title), ...cells], { record_delimiter: 'windows' })
}
