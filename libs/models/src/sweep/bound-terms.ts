// Terms that the bounds of a box are put together from.

import { STANDARD_GRAVITY } from '../constants.js'
import type { FanNode } from '../evaluation/evaluator.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import type { Circumstances } from './problem.js'

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
 * The most that a compared speed can be at a level speed (m/s) that nothing betters: never above that one, but out of a dive
 * never above what the height adds to the faster of level speed and entry.
 */
export function mostCompared(steady: number, { run, speedBasis }: Circumstances): number {
  if (speedBasis === 'steady') return steady
  const entry = steady * Math.max(1, run.entrySpeedShare)
  return Math.sqrt(entry * entry + 2 * STANDARD_GRAVITY * run.entryHeight)
}
