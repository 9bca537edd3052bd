// The duct that a fan gets in an airframe: losses behind the inlet, of the inlet at its real size, and at its lip.
import { annulusArea, meanRadius } from '../fan/annulus.js'
import type { Ducted } from '../fan/duct-flow.js'
import type { Fan } from '../fan/fan.js'
import type { Airframe } from './airframe.js'

type Duct = Pick<Airframe, 'ductLoss' | 'inletLoss' | 'inletArea' | 'ramRecovery' | 'lipLoss'>

/** Fan in the airframe's duct, in flight (the lip loss has gone). */
export function ductOf(airframe: Duct, fan: Fan, nozzleRatio: number): Ducted {
  const area = annulusArea(fan)
  return {
    fan,
    area,
    radius: meanRadius(fan),
    nozzleRatio,
    ductLoss: airframe.ductLoss + airframe.inletLoss * (area / airframe.inletArea) ** 2,
    ramRecovery: airframe.ramRecovery,
  }
}

/** The same standing still: the inlet lip adds its loss. Assumed: gone by 0.4 of the standing efflux speed. */
export function standingDuctOf(airframe: Duct, flying: Ducted): Ducted {
  return { ...flying, ductLoss: flying.ductLoss + airframe.lipLoss }
}
