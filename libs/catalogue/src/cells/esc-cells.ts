// A listed speed controller as a row of escs.csv. Of synchronous freewheeling the part keeps the mean drop of the dead
// times only, not the drop and the dead time it was made of, so that mean stands in a column of its own.
import type { Esc } from '@ductwright/models/esc/esc'
import type { Listed } from '../catalogue.js'
import type { escColumns } from '../rows/esc-row.js'
import { type Cell, type CellsOf, tidy } from './cells.js'
import { toCelsius, toDegrees, toKilo, toMilli, toNano, toPercent, toRpm } from './table-unit.js'

type EscCells = CellsOf<Omit<typeof escColumns, 'dead_time_ns'>> & { readonly dead_time_drop_v: Cell }

export function escCells({ part, ...listed }: Listed<Esc>): EscCells {
  const diode = part.freewheelResistanceShare < 1
  return {
    id: part.id,
    maker: listed.maker,
    name: listed.name,
    resistance_mohm: toMilli(part.resistance),
    resistance_rise_percent_per_k: toPercent(part.resistanceTemperatureCoefficient),
    quiescent_power_w: part.quiescentPower,
    proportional_loss_percent: toPercent(part.proportionalLoss),
    switching_time_ns: toNano(part.switchingTime),
    switching_frequency_khz: toKilo(part.switchingFrequency),
    freewheel: diode ? 'diode' : 'synchronous',
    diode_drop_v: diode ? part.freewheelDrop : null,
    dead_time_drop_v: diode ? null : tidy(part.deadTimeDrop),
    cells_min: part.cellsMin,
    cells_max: part.cellsMax,
    current_limit_a: part.currentLimit,
    electrical_speed_limit_rpm: toRpm(part.electricalSpeedLimit),
    timings_deg: part.timings.map(toDegrees).join(' '),
    receiver_supply_current_a: part.receiverSupplyCurrent,
    connector: part.connector,
    board_heat_capacity_j_per_k: part.boardHeatCapacity,
    sink_heat_capacity_j_per_k: part.sinkHeatCapacity,
    board_to_sink_conductance_w_per_k: part.boardToSinkConductance,
    sink_to_air_conductance_w_per_k: part.sinkToAirConductance,
    board_temperature_limit_c: toCelsius(part.boardTemperatureLimit),
    mass_g: toMilli(part.mass),
    price: listed.price,
    priced: listed.priced ?? null,
  }
}
