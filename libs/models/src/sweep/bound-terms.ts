// Terms that the bounds of a box are put together from.

import type { Airframe } from '../airframe/airframe.js'
import type { FanNode } from '../evaluation/evaluator.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import type { Extreme } from './unit-columns.js'

/** Blade speed under load over that without, about. */
const LOADED_SHARE = 0.87

/** A first guess at level speed: the advance ratio without induced drag, at the blade speed under a usual load. */
export function levelStart({ advanceRatio, duct }: FanNode, train: PowerTrain): number {
  return LOADED_SHARE * advanceRatio * train.duty * train.openVoltage * train.speedConstant * duct.radius
}

/**
 * Bus current that a motor current draws at least, at the duty of a train and every higher one: without what switching,
 * freewheeling and ripple take, since that vanishes at full throttle; the bus no higher than its open voltage.
 */
export function leastBusCurrent(train: PowerTrain, current: number): number {
  return (train.duty * current + train.quiescentPower / train.openVoltage) / (1 - train.proportionalLoss)
}

/**
 * Ballast that no setup between two extremes needs more of, kg. What is left of the moments with the packs as far to one end as
 * they go rises or falls with each mass throughout, so it is greatest at a corner.
 */
export function mostBallast(airframe: Airframe, pairMass: number, least: Extreme, most: Extreme): number {
  const {
    centreOfGravity: cg,
    emptyMass,
    emptyStation,
    fanStation,
    escStation,
    packStationMin,
    packStationMax,
  } = airframe
  const bare = emptyMass * (emptyStation - cg) + pairMass * (fanStation - cg)
  const greatest = (sign: number, packStation: number) => {
    const corner = (arm: number, low: number, high: number) => Math.max(sign * arm * low, sign * arm * high)
    const esc = corner(escStation - cg, least.escMass, most.escMass)
    return sign * bare + esc + corner(packStation - cg, least.source.mass, most.source.mass)
  }
  const nose = greatest(1, packStationMin) / (cg - airframe.noseBallastStation)
  const tail = greatest(-1, packStationMax) / (airframe.tailBallastStation - cg)
  return Math.max(0, nose, tail)
}
