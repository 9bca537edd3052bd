// A listed fan as a row of fans.csv.
import type { Fan } from '@ductwright/models/fan/fan'
import type { Listed } from '../catalogue.js'
import type { fanColumns } from '../rows/fan-row.js'
import type { CellsOf } from './cells.js'
import { toMilli, toPercent } from './table-unit.js'

export function fanCells({ part, ...listed }: Listed<Fan>): CellsOf<typeof fanColumns> {
  return {
    id: part.id,
    maker: listed.maker,
    name: listed.name,
    tip_diameter_mm: toMilli(part.tipDiameter),
    hub_diameter_mm: toMilli(part.hubDiameter),
    pressure_rise_at_zero_flow: part.psi0,
    pressure_rise_slope: part.psi1,
    peak_efficiency_percent: toPercent(part.etaPeak),
    peak_efficiency_flow_coefficient: part.phiPeak,
    efficiency_curvature: part.kappa,
    tip_speed_limit_m_s: part.tipSpeedLimit,
    motor_can_limit_mm: toMilli(part.motorCanLimit),
    shaft_bore_mm: toMilli(part.shaftBore),
    mass_g: toMilli(part.mass),
    price: listed.price,
    priced: listed.priced ?? null,
  }
}
