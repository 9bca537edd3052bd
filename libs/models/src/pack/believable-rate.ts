// What a pack can be believed to give for as long as its charge lasts, whatever its label claims: the current that costs
// a cell about 0.28 V over its own resistance. With k the product of cell resistance and charge (Ω·Ah) that is a rate of
// 0.28/k per hour: 47 C for a very good cell (k .006), 31 C for a middling one (.009), 16 C for a poor one (.0175).
// Assumed: the 0.28 V, one figure for every make; common practice, no source.

/** Voltage a cell may lose over its own resistance all the time, V. */
const LASTING_DROP = 0.28
const SECONDS_PER_HOUR = 3600

/**
 * Believable continuous current, A: the one that loses 0.28 V over a cell.
 * @param cellResistance of one cell at 25 °C, Ω
 * @throws RangeError unless the resistance is above 0
 */
export function believableCurrent(cellResistance: number): number {
  if (!(cellResistance > 0 && cellResistance < Number.POSITIVE_INFINITY))
    throw new RangeError(`cell resistance must be above 0 Ω, got ${cellResistance}`)
  return LASTING_DROP / cellResistance
}

/**
 * Believable continuous rate, 1/h as C ratings are written: the believable current over the charge.
 * @param cellResistance of one cell at 25 °C, Ω
 * @param capacity rated charge, A·s
 * @throws RangeError unless both are above 0
 */
export function believableRate(cellResistance: number, capacity: number): number {
  if (!(capacity > 0 && capacity < Number.POSITIVE_INFINITY))
    throw new RangeError(`capacity must be above 0 A·s, got ${capacity}`)
  return (believableCurrent(cellResistance) * SECONDS_PER_HOUR) / capacity
}
