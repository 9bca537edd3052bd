// The duct that a fan gets in an airframe: losses behind the inlet, of the inlet at its real size, and at its lip; and how
// the fan's losses scale in the air it runs in.
import { annulusArea, meanRadius } from '../fan/annulus.js'
import type { Ducted } from '../fan/duct-flow.js'
import { lossScale } from '../fan/efficiency-scaling.js'
import type { Fan } from '../fan/fan.js'
import type { Airframe } from './airframe.js'

type Duct = Pick<Airframe, 'ductLoss' | 'inletLoss' | 'inletArea' | 'ramRecovery' | 'lipLoss'>

/** Fan in the airframe's duct, in an air (kg/m³, m/s, Pa·s). */
export function ductOf(
  airframe: Duct,
  fan: Fan,
  nozzleRatio: number,
  air: { readonly density: number; readonly soundSpeed: number; readonly viscosity: number },
): Ducted {
  const area = annulusArea(fan)
  const radius = meanRadius(fan)
  return {
    fan,
    area,
    radius,
    nozzleRatio,
    ductLoss: airframe.ductLoss + airframe.inletLoss * (area / airframe.inletArea) ** 2,
    lipLoss: airframe.lipLoss,
    ramRecovery: airframe.ramRecovery,
    lossScale: lossScale((0.5 * fan.tipDiameter) / radius, air),
  }
}
