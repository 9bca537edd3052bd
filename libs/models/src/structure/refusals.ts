// What the structural models refuse: a quantity that is no number, or lies outside the range in which its formula means
// anything. Each message names the quantity, the rule with its unit, and the value.

/** @throws RangeError unless the value is above 0 and finite */
export function requirePositive(quantity: string, value: number, unit: string): void {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return
  throw new RangeError(`${quantity} must be finite and above 0${unit === '' ? '' : ` ${unit}`}, got ${value}`)
}

/** @throws RangeError unless the value is above `low` and at most `high` */
export function requireBetween(quantity: string, value: number, low: number, high: number): void {
  if (value > low && value <= high) return
  throw new RangeError(`${quantity} must be above ${low} and at most ${high}, got ${value}`)
}
