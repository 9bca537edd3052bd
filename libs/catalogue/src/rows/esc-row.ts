// One row of escs.csv: an electronic speed controller. While the throttle is not full, the motor current freewheels through
// a diode half of the time, or through a second transistor but for two dead times in each period, in which the diode
// inside that transistor carries it.
import type { Esc } from '@ductwright/models/esc/esc'
import * as z from 'zod'
import type { Listed } from '../catalogue.js'
import {
  choiceCell,
  currencyCell,
  idCell,
  listCell,
  numberCell,
  optionalDateCell,
  optionalNumberCell,
  priceCell,
  pricedOf,
  textCell,
  wholeCell,
} from './cell.js'
import { between } from './order.js'
import { fromCelsius, fromDegrees, fromKilo, fromMilli, fromNano, fromPercent, fromRpm } from './unit.js'

export const escColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  resistance_mohm: numberCell(0.1, 100, 'mΩ'),
  resistance_rise_percent_per_k: numberCell(0, 2, '% per K'),
  quiescent_power_w: numberCell(0, 50, 'W'),
  proportional_loss_percent: numberCell(0, 10, '%'),
  switching_time_ns: numberCell(1, 5000, 'ns'),
  switching_frequency_khz: numberCell(1, 200, 'kHz'),
  freewheel: choiceCell(['diode', 'synchronous']),
  diode_drop_v: numberCell(0.1, 3, 'V'),
  dead_time_ns: optionalNumberCell(0, 5000, 'ns'),
  cells_min: wholeCell(1, 30),
  cells_max: wholeCell(1, 30),
  current_limit_a: numberCell(2, 600, 'A'),
  electrical_speed_limit_rpm: numberCell(20_000, 2_000_000, 'rpm'),
  timings_deg: listCell(0, 45, 8, '°'),
  receiver_supply_current_a: numberCell(0, 50, 'A'),
  connector: textCell(40),
  board_heat_capacity_j_per_k: numberCell(0.2, 1000, 'J/K'),
  sink_heat_capacity_j_per_k: numberCell(0.2, 5000, 'J/K'),
  board_to_sink_conductance_w_per_k: numberCell(0.01, 100, 'W/K'),
  sink_to_air_conductance_w_per_k: numberCell(0.005, 50, 'W/K'),
  board_temperature_limit_c: numberCell(60, 180, '°C'),
  mass_g: numberCell(2, 3000, 'g'),
  price: priceCell(),
  priced: optionalDateCell(),
  currency: currencyCell(),
}

const columns = z
  .strictObject(escColumns)
  .refine((row) => row.cells_min <= row.cells_max, between('cells_min', 'cells_max', 'must be no less than'))
  .refine((row) => row.freewheel === 'synchronous' || (row.dead_time_ns ?? 0) === 0, {
    path: ['dead_time_ns'],
    error: 'must be empty or 0 where freewheel is diode: there is no second transistor to wait for',
    params: { rule: 'freewheel' },
  })
  .refine((row) => row.freewheel === 'diode' || (row.dead_time_ns ?? 0) > 0, {
    path: ['dead_time_ns'],
    error: 'must be given, above 0, where freewheel is synchronous: without it the bridge shorts the pack',
    params: { rule: 'freewheel' },
  })

type EscFields = z.output<typeof columns>

/** Drops and share of the path resistance while freewheeling; a dead time comes twice in each period. */
function freewheeling(row: EscFields) {
  if (row.freewheel === 'diode')
    return { freewheelDrop: row.diode_drop_v, deadTimeDrop: 0, freewheelResistanceShare: 0.5 }
  const deadShare = 2 * fromNano(row.dead_time_ns ?? 0) * fromKilo(row.switching_frequency_khz)
  return { freewheelDrop: 0, deadTimeDrop: deadShare * row.diode_drop_v, freewheelResistanceShare: 1 }
}

export const escRow = columns.transform(
  (row): Listed<Esc> => ({
    maker: row.maker,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    part: {
      id: row.id,
      resistance: fromMilli(row.resistance_mohm),
      resistanceTemperatureCoefficient: fromPercent(row.resistance_rise_percent_per_k),
      quiescentPower: row.quiescent_power_w,
      proportionalLoss: fromPercent(row.proportional_loss_percent),
      switchingTime: fromNano(row.switching_time_ns),
      switchingFrequency: fromKilo(row.switching_frequency_khz),
      ...freewheeling(row),
      cellsMin: row.cells_min,
      cellsMax: row.cells_max,
      currentLimit: row.current_limit_a,
      electricalSpeedLimit: fromRpm(row.electrical_speed_limit_rpm),
      timings: row.timings_deg.map(fromDegrees),
      receiverSupplyCurrent: row.receiver_supply_current_a,
      connector: row.connector,
      boardHeatCapacity: row.board_heat_capacity_j_per_k,
      sinkHeatCapacity: row.sink_heat_capacity_j_per_k,
      boardToSinkConductance: row.board_to_sink_conductance_w_per_k,
      sinkToAirConductance: row.sink_to_air_conductance_w_per_k,
      boardTemperatureLimit: fromCelsius(row.board_temperature_limit_c),
      mass: fromMilli(row.mass_g),
    },
  }),
)
