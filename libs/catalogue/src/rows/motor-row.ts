// One row of motors.csv: a brushless inrunner.
import type { Motor } from '@ductwright/models/motor/motor'
import * as z from 'zod'
import type { Listed } from '../catalogue.js'
import {
  currencyCell,
  idCell,
  numberCell,
  optionalDateCell,
  optionalNumberCell,
  priceCell,
  pricedOf,
  textCell,
  wholeCell,
} from './cell.js'
import { between } from './order.js'
import { fromCelsius, fromDegrees, fromMilli, fromRpm } from './unit.js'

export const motorColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  speed_constant_rpm_per_v: numberCell(50, 20_000, 'rpm/V'),
  timing_reference_deg: numberCell(0, 45, '°'),
  resistance_mohm: numberCell(0.2, 1000, 'mΩ'),
  no_load_current_a: numberCell(0, 50, 'A'),
  no_load_current_slope_a_per_krpm: numberCell(0, 5, 'A per 1000 rpm'),
  pole_pairs: wholeCell(1, 20),
  can_diameter_mm: numberCell(8, 120, 'mm'),
  can_length_mm: numberCell(10, 250, 'mm'),
  shaft_diameter_mm: numberCell(1, 15, 'mm'),
  cells_max: wholeCell(1, 30),
  speed_limit_rpm: numberCell(5000, 200_000, 'rpm'),
  current_limit_a: numberCell(2, 600, 'A'),
  power_limit_w: numberCell(20, 40_000, 'W'),
  continuous_current_a: optionalNumberCell(1, 600, 'A'),
  continuous_power_w: optionalNumberCell(10, 40_000, 'W'),
  winding_temperature_limit_c: numberCell(60, 220, '°C'),
  magnet_temperature_limit_c: numberCell(60, 250, '°C'),
  winding_heat_capacity_j_per_k: numberCell(0.1, 2000, 'J/K'),
  case_heat_capacity_j_per_k: numberCell(0.5, 5000, 'J/K'),
  winding_to_case_conductance_w_per_k: numberCell(0.05, 200, 'W/K'),
  case_to_air_conductance_w_per_k: numberCell(0.02, 100, 'W/K'),
  mass_g: numberCell(5, 5000, 'g'),
  price: priceCell(),
  priced: optionalDateCell(),
  currency: currencyCell(),
}

/** Lasting over short rating where a row gives no lasting one. Assumed: 10 kW/kg in the air stream against 15.5 for 15 s. */
export const CONTINUOUS_SHARE = 10 / 15.5

const columns = z
  .strictObject(motorColumns)
  .refine(
    (row) => row.shaft_diameter_mm < row.can_diameter_mm,
    between('can_diameter_mm', 'shaft_diameter_mm', 'must be less than'),
  )
  .refine(
    (row) => !(Number(row.continuous_current_a) > row.current_limit_a),
    between('current_limit_a', 'continuous_current_a', 'must be at most'),
  )
  .refine(
    (row) => !(Number(row.continuous_power_w) > row.power_limit_w),
    between('power_limit_w', 'continuous_power_w', 'must be at most'),
  )

export const motorRow = columns.transform(
  (row): Listed<Motor> => ({
    maker: row.maker,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    part: {
      id: row.id,
      speedConstant: fromRpm(row.speed_constant_rpm_per_v),
      timingReference: fromDegrees(row.timing_reference_deg),
      resistance: fromMilli(row.resistance_mohm),
      noLoadCurrent: row.no_load_current_a,
      noLoadCurrentSlope: row.no_load_current_slope_a_per_krpm / fromRpm(1000),
      polePairs: row.pole_pairs,
      canDiameter: fromMilli(row.can_diameter_mm),
      canLength: fromMilli(row.can_length_mm),
      shaftDiameter: fromMilli(row.shaft_diameter_mm),
      cellsMax: row.cells_max,
      speedLimit: fromRpm(row.speed_limit_rpm),
      currentLimit: row.current_limit_a,
      powerLimit: row.power_limit_w,
      continuousCurrent: row.continuous_current_a ?? CONTINUOUS_SHARE * row.current_limit_a,
      continuousPower: row.continuous_power_w ?? CONTINUOUS_SHARE * row.power_limit_w,
      windingTemperatureLimit: fromCelsius(row.winding_temperature_limit_c),
      magnetTemperatureLimit: fromCelsius(row.magnet_temperature_limit_c),
      windingHeatCapacity: row.winding_heat_capacity_j_per_k,
      caseHeatCapacity: row.case_heat_capacity_j_per_k,
      windingToCaseConductance: row.winding_to_case_conductance_w_per_k,
      caseToAirConductance: row.case_to_air_conductance_w_per_k,
      mass: fromMilli(row.mass_g),
    },
  }),
)
