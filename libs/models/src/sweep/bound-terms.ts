// Terms that the bounds of a box are put together from.
import type { FanNode } from '../evaluation/evaluator.js'
import type { PowerTrain } from '../operating-point/power-train.js'

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
