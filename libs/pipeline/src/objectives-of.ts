// Objectives as the models have them, m/s and turned so that less is better, in the plain units of the wire.
import type { Objectives } from '@ductwright/contract/result'
import { cents } from './costs.js'
import { plain } from './figures-of.js'

const KMH = 3.6

/** As worked out; money in whole cents. */
export function objectivesOf(raw: {
  readonly speed: number
  readonly time: number
  readonly cost: number
  readonly margin: number
}): Objectives {
  return {
    speed_km_h: plain(raw.speed * KMH),
    flight_time_s: plain(raw.time),
    cost: cents(raw.cost),
    margin: plain(raw.margin),
  }
}

/** As compared. */
export function comparedOf(cells: readonly number[]): Objectives {
  const [speed = 0, time = 0, cost = 0, margin = 0] = cells
  return {
    speed_km_h: plain(-speed * KMH) + 0,
    flight_time_s: plain(-time) + 0,
    cost: plain(cost),
    margin: plain(-margin) + 0,
  }
}
