// How far the use of a rating scatters between equal-looking setups, from part tolerances carried through the models by
// quasi-Monte Carlo over believable setups (uncertainty/): the median over 60 of them; the tests draw it again. A limit is
// judged at its 95 % value: what is used may be that much higher than worked out and still keep the rating. Where a pilot
// keeps more headroom than that, the headroom decides. Wishes (budget, stall, thrust to weight, roll, flight time, speed)
// are judged as worked out; their odds stand in the study. Loads have their own factors, in structure/.
import type { Limit } from './limits.js'

/** Standard deviations between the middle and the 95 % value of a normal distribution. */
export const GUARD = 1.645

/**
 * Scatter of each guarded limit's use: what its 95 % value lies above the nominal one, relative, over 1.645. For the
 * skewed uses of temperature limits that is more than their standard deviation.
 */
export const LIMIT_SCATTER: Readonly<Partial<Record<Limit, number>>> = {
  'motor-current': 0.0975,
  'motor-power': 0.095,
  'motor-speed': 0.0225,
  'esc-current': 0.0975,
  'esc-speed': 0.0225,
  'pack-current': 0.0975,
  'tip-speed': 0.0225,
  'tip-mach': 0.023,
  'winding-temperature': 0.25,
  'magnet-temperature': 0.235,
  'esc-temperature': 0.22,
  'pack-temperature': 0.127,
  'cell-voltage': 0.22,
}

/** Share of a rating that may be used so that its 95 % value still holds. */
export function guardedShare(limit: Limit): number {
  return 1 / (1 + GUARD * (LIMIT_SCATTER[limit] ?? 0))
}
