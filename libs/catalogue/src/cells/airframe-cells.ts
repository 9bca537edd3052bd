// A listed airframe as a row of airframes.csv. A drag area that was built up is left empty, as the table leaves it; the
// span efficiency and the lift with flaps are written as they were worked out.
import type { ListedAirframe } from '../catalogue.js'
import type { airframeColumns } from '../rows/airframe-fields.js'
import { type CellsOf, tidy } from './cells.js'
import { toKilometresPerHour, toMilli, toSquareCentimetres, toSquareDecimetres } from './table-unit.js'

export function airframeCells({ part, ...listed }: ListedAirframe): CellsOf<typeof airframeColumns> {
  return {
    id: part.id,
    maker: listed.maker,
    name: listed.name,
    material: listed.material,
    drag_area_m2: part.dragBasis === 'built-up' ? null : part.dragArea,
    span_mm: toMilli(part.span),
    wing_area_dm2: toSquareDecimetres(part.wingArea),
    oswald_factor: tidy(part.oswald),
    lift_coefficient_max: part.liftCoefficientMax,
    lift_coefficient_max_flaps: part.liftCoefficientMaxFlaps,
    empty_mass_g: toMilli(part.emptyMass),
    take_off_mass_limit_g: toMilli(part.takeOffMassLimit),
    fan_diameter_min_mm: toMilli(part.fanDiameterMin),
    fan_diameter_max_mm: toMilli(part.fanDiameterMax),
    exit_diameter_min_mm: toMilli(part.exitDiameterMin),
    exit_diameter_max_mm: toMilli(part.exitDiameterMax),
    duct_loss: part.ductLoss,
    inlet_loss: part.inletLoss,
    inlet_area_cm2: toSquareCentimetres(part.inletArea),
    lip_loss: part.lipLoss,
    ram_recovery: part.ramRecovery,
    bay_length_mm: toMilli(part.bayLength),
    bay_width_mm: toMilli(part.bayWidth),
    bay_height_mm: toMilli(part.bayHeight),
    design_speed_km_h: part.designSpeed === null ? null : toKilometresPerHour(part.designSpeed),
    design_speed_basis: listed.designSpeedBasis,
    root_moment_ultimate_nm: part.rootMomentUltimate,
    mount_load_n: part.mountLoad,
    launch: part.launch,
    centre_of_gravity_mm: toMilli(part.centreOfGravity),
    empty_station_mm: toMilli(part.emptyStation),
    fan_station_mm: toMilli(part.fanStation),
    esc_station_mm: toMilli(part.escStation),
    pack_station_min_mm: toMilli(part.packStationMin),
    pack_station_max_mm: toMilli(part.packStationMax),
    nose_ballast_station_mm: toMilli(part.noseBallastStation),
    tail_ballast_station_mm: toMilli(part.tailBallastStation),
    ballast_limit_g: toMilli(part.ballastLimit),
    price: listed.price,
    priced: listed.priced ?? null,
  }
}
