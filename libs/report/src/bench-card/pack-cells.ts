// Cells in series of a setup, from two of its points with a full warm pack: voltage falls in a straight line with
// current, and without current a full cell rests at 4.2 V (widely used chart, no single source). null when the two
// currents are too close to tell, or when no whole number of cells fits.
import type { SetupFigures } from '@ductwright/contract/result'

/** Resting voltage of a full cell, V. */
const FULL_CELL = 4.2
/** Least difference of the two currents, relative, that six digits of each can resolve. */
const LEAST_DIFFERENCE = 1e-3
/** How far from a whole number of cells the two points may lie. */
const TOLERANCE = 0.15

export function cellsInSeries({ standing, top_full: flying }: SetupFigures): number | null {
  const difference = standing.pack_current_a - flying.pack_current_a
  if (!(Math.abs(difference) > LEAST_DIFFERENCE * standing.pack_current_a)) return null
  const resistance = (flying.pack_voltage_v - standing.pack_voltage_v) / difference
  const cells = (standing.pack_voltage_v + standing.pack_current_a * resistance) / FULL_CELL
  const whole = Math.round(cells)
  return whole >= 1 && Math.abs(cells - whole) <= TOLERANCE ? whole : null
}
