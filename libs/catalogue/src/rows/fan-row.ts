// One row of fans.csv: a ducted fan without its motor.
import type { Fan } from '@ductwright/models/fan/fan'
import * as z from 'zod'
import type { Listed } from '../catalogue.js'
import { currencyCell, idCell, numberCell, optionalDateCell, priceCell, pricedOf, textCell } from './cell.js'
import { between } from './order.js'
import { fromMilli, fromPercent } from './unit.js'

export const fanColumns = {
  id: idCell(),
  maker: textCell(60),
  name: textCell(80),
  tip_diameter_mm: numberCell(30, 200, 'mm'),
  hub_diameter_mm: numberCell(10, 150, 'mm'),
  pressure_rise_at_zero_flow: numberCell(0.3, 1.2, ''),
  pressure_rise_slope: numberCell(0.1, 2, ''),
  peak_efficiency_percent: numberCell(40, 92, '%'),
  peak_efficiency_flow_coefficient: numberCell(0.2, 1.5, ''),
  efficiency_curvature: numberCell(0, 2, ''),
  tip_speed_limit_m_s: numberCell(50, 300, 'm/s'),
  motor_can_limit_mm: numberCell(8, 120, 'mm'),
  shaft_bore_mm: numberCell(1, 15, 'mm'),
  mass_g: numberCell(5, 5000, 'g'),
  price: priceCell(),
  priced: optionalDateCell(),
  currency: currencyCell(),
}

const columns = z
  .strictObject(fanColumns)
  .refine((row) => row.hub_diameter_mm < row.tip_diameter_mm * 0.8, {
    path: ['hub_diameter_mm'],
    error: 'must be less than 0.8 of tip_diameter_mm',
    params: { rule: 'order' },
  })
  .refine(
    (row) => row.motor_can_limit_mm <= row.hub_diameter_mm,
    between('hub_diameter_mm', 'motor_can_limit_mm', 'must be no more than'),
  )

export const fanRow = columns.transform(
  (row): Listed<Fan> => ({
    maker: row.maker,
    name: row.name,
    price: row.price,
    ...pricedOf(row),
    part: {
      id: row.id,
      tipDiameter: fromMilli(row.tip_diameter_mm),
      hubDiameter: fromMilli(row.hub_diameter_mm),
      psi0: row.pressure_rise_at_zero_flow,
      psi1: row.pressure_rise_slope,
      etaPeak: fromPercent(row.peak_efficiency_percent),
      phiPeak: row.peak_efficiency_flow_coefficient,
      kappa: row.efficiency_curvature,
      tipSpeedLimit: row.tip_speed_limit_m_s,
      motorCanLimit: fromMilli(row.motor_can_limit_mm),
      shaftBore: fromMilli(row.shaft_bore_mm),
      mass: fromMilli(row.mass_g),
    },
  }),
)
