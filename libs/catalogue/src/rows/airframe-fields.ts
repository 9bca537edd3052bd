// The columns of airframes.csv and the order that must hold between them. Some may be left empty where another table says
// what they would: see airframe-of.ts.
import * as z from 'zod'
import {
  choiceCell,
  currencyCell,
  idCell,
  numberCell,
  numericCells,
  optionalDateCell,
  optionalNumberCell,
  priceCell,
  textCell,
} from './cell.js'
import { between } from './order.js'

const station = () => numberCell(0, 6000, 'mm')

export const airframeColumns = {
  id: idCell(),
  maker: textCell(60).default('own build'),
  name: textCell(80),
  material: choiceCell(['foam', 'composite', 'carbon']),
  drag_area_m2: optionalNumberCell(0.0005, 0.1, 'm²'),
  span_mm: numberCell(300, 4000, 'mm'),
  wing_area_dm2: numberCell(3, 300, 'dm²'),
  oswald_factor: optionalNumberCell(0.3, 1, ''),
  lift_coefficient_max: numberCell(0.4, 3, ''),
  lift_coefficient_max_flaps: optionalNumberCell(0.4, 4, ''),
  empty_mass_g: numberCell(100, 25_000, 'g'),
  take_off_mass_limit_g: numberCell(200, 35_000, 'g'),
  fan_diameter_min_mm: numberCell(30, 200, 'mm'),
  fan_diameter_max_mm: numberCell(30, 200, 'mm'),
  exit_diameter_min_mm: numberCell(15, 200, 'mm'),
  exit_diameter_max_mm: numberCell(15, 200, 'mm'),
  duct_loss: numberCell(0, 1.5, ''),
  inlet_loss: numberCell(0, 1, ''),
  inlet_area_cm2: numberCell(3, 600, 'cm²'),
  lip_loss: numberCell(0, 1, ''),
  ram_recovery: numberCell(0.4, 1, ''),
  bay_length_mm: numberCell(30, 2000, 'mm'),
  bay_width_mm: numberCell(15, 600, 'mm'),
  bay_height_mm: numberCell(10, 600, 'mm'),
  design_speed_km_h: optionalNumberCell(60, 1000, 'km/h'),
  design_speed_basis: textCell(200),
  root_moment_ultimate_nm: numberCell(1, 5000, 'N·m'),
  mount_load_n: numberCell(2, 2000, 'N'),
  launch: choiceCell(['wheels', 'bungee']),
  centre_of_gravity_mm: station(),
  empty_station_mm: station(),
  fan_station_mm: station(),
  esc_station_mm: station(),
  pack_station_min_mm: station(),
  pack_station_max_mm: station(),
  nose_ballast_station_mm: station(),
  tail_ballast_station_mm: station(),
  ballast_limit_g: numberCell(0, 5000, 'g'),
  price: priceCell().default(0).register(numericCells, { unit: '' }),
  currency: currencyCell().optional(),
  priced: optionalDateCell(),
}

export const airframeFields = z
  .strictObject(airframeColumns)
  .refine(
    (row) => row.empty_mass_g < row.take_off_mass_limit_g,
    between('empty_mass_g', 'take_off_mass_limit_g', 'must be more than'),
  )
  .refine(
    (row) => row.fan_diameter_min_mm <= row.fan_diameter_max_mm,
    between('fan_diameter_min_mm', 'fan_diameter_max_mm', 'must be no less than'),
  )
  .refine(
    (row) => row.exit_diameter_min_mm <= row.exit_diameter_max_mm,
    between('exit_diameter_min_mm', 'exit_diameter_max_mm', 'must be no less than'),
  )
  .refine(
    (row) => row.exit_diameter_min_mm < row.fan_diameter_max_mm,
    between('fan_diameter_max_mm', 'exit_diameter_min_mm', 'must be less than'),
  )
  .refine(
    (row) => row.pack_station_min_mm <= row.pack_station_max_mm,
    between('pack_station_min_mm', 'pack_station_max_mm', 'must be no less than'),
  )
  .refine(
    (row) => row.nose_ballast_station_mm < row.centre_of_gravity_mm,
    between('centre_of_gravity_mm', 'nose_ballast_station_mm', 'must be less than'),
  )
  .refine(
    (row) => row.tail_ballast_station_mm > row.centre_of_gravity_mm,
    between('centre_of_gravity_mm', 'tail_ballast_station_mm', 'must be more than'),
  )
  .refine(
    (row) => (row.lift_coefficient_max_flaps ?? row.lift_coefficient_max) >= row.lift_coefficient_max,
    between('lift_coefficient_max', 'lift_coefficient_max_flaps', 'must be no less than'),
  )

/** The columns of one airframe, read and in order between themselves. */
export type AirframeFields = z.output<typeof airframeFields>
