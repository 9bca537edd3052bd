// Steady climb: the power left over after drag lifts the weight. The best climb is the speed of the greatest rate, found by
// golden section: the rate has one maximum between the stall and top speed.
// Left out: the little less lift, and so induced drag, that a steep climb needs; acceleration into it.

/** Climb speed, m/s: V·(T − D)/W; never more than the flight speed itself, which is a climb straight up. */
export function climbSpeed(speed: number, thrust: number, drag: number, weight: number): number {
  return Math.min(speed, (speed * (thrust - drag)) / weight)
}

/** The steady climb of the greatest rate; m/s. */
export interface BestClimb {
  readonly speed: number
  readonly rate: number
}

const GOLDEN = (Math.sqrt(5) - 1) / 2

/**
 * Best climb between two flight speeds.
 * @param slowest least speed flown, m/s
 * @param fastest level top speed, m/s, where the rate is 0
 * @param excess thrust less drag at a speed, N
 * @param weight N
 * @throws RangeError when the range is empty
 */
export function bestClimb(
  slowest: number,
  fastest: number,
  excess: (speed: number) => number,
  weight: number,
): BestClimb {
  if (!(slowest < fastest)) {
    throw new RangeError(
      `speeds of a climb must lie between ${slowest} m/s and top speed, got a top speed of ${fastest}`,
    )
  }
  const rate = (speed: number): number => climbSpeed(speed, excess(speed), 0, weight)
  let low = slowest
  let high = fastest
  let left = high - GOLDEN * (high - low)
  let right = low + GOLDEN * (high - low)
  let atLeft = rate(left)
  let atRight = rate(right)
  // Near enough even where a climb straight up cuts the top off in a corner.
  while (high - low > 1e-4 * fastest) {
    if (atLeft >= atRight) {
      high = right
      right = left
      atRight = atLeft
      left = high - GOLDEN * (high - low)
      atLeft = rate(left)
    } else {
      low = left
      left = right
      atLeft = atRight
      right = low + GOLDEN * (high - low)
      atRight = rate(right)
    }
  }
  const ends = [slowest, 0.5 * (low + high)].map((speed) => ({ speed, rate: rate(speed) }))
  return ends.reduce((best, next) => (next.rate > best.rate ? next : best))
}
