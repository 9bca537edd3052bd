// A fan in an airframe's duct with a nozzle: everything that depends on these and the air alone, computed once.
import { ductOf } from '../airframe/duct-of.js'
import { ceilingAdvanceRatio } from '../fan/duct-flow.js'
import type { Fan } from '../fan/fan.js'
import { levelAdvanceRatio } from '../operating-point/level.js'
import { standingDuct } from '../operating-point/standing.js'
import type { Circumstances } from '../sweep/problem.js'
import type { FanNode } from './evaluator.js'

/** Works out the duct state of a fan at a nozzle ratio. */
export function fanNode(circumstances: Circumstances, fan: Fan, nozzleRatio: number): FanNode {
  const { airframe, density } = circumstances
  const duct = ductOf(airframe, fan, nozzleRatio, circumstances)
  return {
    duct,
    standing: standingDuct(duct, density),
    advanceRatio: levelAdvanceRatio(duct, airframe.dragArea, ceilingAdvanceRatio(duct)),
  }
}
