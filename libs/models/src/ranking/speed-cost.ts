// Speed against money: the setups that no cheaper one outruns, and the knee among them, beyond which more speed gets dear.
// The knee is the member farthest from the line through the two ends, with both axes counted from end to end as 0 to 1.
// Source: Das 1999, the knee as the point of the front farthest from the hull of the ends; here with two objectives.

export interface SpeedCost {
  readonly speed: number
  readonly cost: number
}

/** Indices of those that none beats in both, by rising cost; of equals the first. */
export function speedCostFront(points: readonly SpeedCost[]): number[] {
  const at = (index: number): SpeedCost => points[index] as SpeedCost
  const order = points
    .map((_, index) => index)
    .sort((a, b) => at(a).cost - at(b).cost || at(b).speed - at(a).speed || a - b)
  let fastest = Number.NEGATIVE_INFINITY
  return order.filter((index) => {
    const isFaster = at(index).speed > fastest
    if (isFaster) fastest = at(index).speed
    return isFaster
  })
}

/** Place of the knee in a front by rising cost and speed; null when it has no bulge toward cheap and fast. */
export function kneePlace(front: readonly SpeedCost[]): number | null {
  const [first, last] = [front[0], front.at(-1)]
  if (first === undefined || last === undefined || !(last.cost > first.cost) || !(last.speed > first.speed)) return null
  // The distance from the line is this excess over √2, so the farthest has the largest excess.
  const excesses = front.map(
    ({ speed, cost }) =>
      (speed - first.speed) / (last.speed - first.speed) - (cost - first.cost) / (last.cost - first.cost),
  )
  const most = Math.max(...excesses)
  // Rounding alone makes no knee.
  return most > 1e-9 ? excesses.indexOf(most) : null
}
