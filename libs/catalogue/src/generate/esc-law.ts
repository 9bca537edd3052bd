// Figures of an invented speed controller from its family and the current on its label.
// Assumed: every law. The label is what it stands for 15 s; heat stores and conductances make about 45 % of it the
// honest continuous current.
import type { escColumns } from '../rows/esc-row.js'
import { type EscFamily, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toPrice, toStep } from './rounding.js'

export type EscCells = Row<typeof escColumns>

/** Labels up to this come with bullets fitted; above it the leads are left bare. */
const LARGEST_FITTED = 80

export function escCells(family: EscFamily, label: number, seed: number, currency: string): EscCells {
  const random = new RandomStream(seed, `esc ${family.maker} ${family.name} ${label}`)
  const [cellsMin, cellsMax] = family.cells
  const scale = label / 160
  const waits = new RandomStream(seed, `esc dead time ${family.maker} ${family.name} ${label}`)
  return {
    id: slug('esc', family.name, label),
    maker: family.maker,
    name: `${family.name} ${label} (${cellsMin}-${cellsMax}S)`,
    resistance_mohm: toDigits(random.around((family.resistance * 220) / label, 0.05), 3),
    resistance_rise_percent_per_k: toStep(random.between(0.55, 0.7), 0.05),
    quiescent_power_w: toStep(random.around(1.2 + 2.8 * scale, 0.1), 0.1),
    proportional_loss_percent: toStep(random.around(0.3, 0.2), 0.02),
    switching_time_ns: toStep(random.around(family.edges_ns, 0.15), 5),
    switching_frequency_khz: family.frequency_khz,
    freewheel: family.freewheel,
    diode_drop_v: toStep(random.between(0.7, 0.9), 0.05),
    dead_time_ns: family.freewheel === 'synchronous' ? toStep(waits.between(200, 500), 10) : '',
    cells_min: cellsMin,
    cells_max: cellsMax,
    current_limit_a: label,
    electrical_speed_limit_rpm: family.electricalLimit_rpm,
    timings_deg: family.timings_deg.join(' '),
    receiver_supply_current_a: family.supply_a,
    connector: label <= LARGEST_FITTED && cellsMax <= 8 ? 'bullet 4 mm' : 'open',
    board_heat_capacity_j_per_k: toDigits(random.around(20 * scale, 0.08), 3),
    sink_heat_capacity_j_per_k: toDigits(random.around(60 * scale, 0.08), 3),
    board_to_sink_conductance_w_per_k: toDigits(random.around(1.5 * scale, 0.08), 3),
    sink_to_air_conductance_w_per_k: toDigits(random.around(0.35 * scale ** (2 / 3), 0.08), 3),
    board_temperature_limit_c: random.pick([110, 115, 120]),
    mass_g: Math.round(1000 * random.around(0.025 + 0.0011 * label * Math.sqrt(cellsMax / 12), 0.08)),
    price: toPrice(family.price * random.around(label * (0.55 + 0.07 * Math.max(0, cellsMax - 6)), 0.06)),
    currency,
  }
}
