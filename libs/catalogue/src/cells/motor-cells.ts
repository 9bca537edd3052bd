// A listed motor as a row of motors.csv; ratings that a row may leave out are written as they were worked out.
import type { Motor } from '@ductwright/models/motor/motor'
import type { Listed } from '../catalogue.js'
import type { motorColumns } from '../rows/motor-row.js'
import { fromRpm } from '../rows/unit.js'
import { type CellsOf, tidy } from './cells.js'
import { toCelsius, toDegrees, toMilli, toRpm } from './table-unit.js'

export function motorCells({ part, ...listed }: Listed<Motor>): CellsOf<typeof motorColumns> {
  return {
    id: part.id,
    maker: listed.maker,
    name: listed.name,
    speed_constant_rpm_per_v: toRpm(part.speedConstant),
    timing_reference_deg: toDegrees(part.timingReference),
    resistance_mohm: toMilli(part.resistance),
    no_load_current_a: part.noLoadCurrent,
    no_load_current_slope_a_per_krpm: tidy(part.noLoadCurrentSlope * fromRpm(1000)),
    pole_pairs: part.polePairs,
    can_diameter_mm: toMilli(part.canDiameter),
    can_length_mm: toMilli(part.canLength),
    shaft_diameter_mm: toMilli(part.shaftDiameter),
    cells_max: part.cellsMax,
    speed_limit_rpm: toRpm(part.speedLimit),
    current_limit_a: part.currentLimit,
    power_limit_w: part.powerLimit,
    continuous_current_a: tidy(part.continuousCurrent),
    continuous_power_w: tidy(part.continuousPower),
    winding_temperature_limit_c: toCelsius(part.windingTemperatureLimit),
    magnet_temperature_limit_c: toCelsius(part.magnetTemperatureLimit),
    winding_heat_capacity_j_per_k: part.windingHeatCapacity,
    case_heat_capacity_j_per_k: part.caseHeatCapacity,
    winding_to_case_conductance_w_per_k: part.windingToCaseConductance,
    case_to_air_conductance_w_per_k: part.caseToAirConductance,
    mass_g: toMilli(part.mass),
    price: listed.price,
    priced: listed.priced ?? null,
  }
}
