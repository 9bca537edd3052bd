// What a row of a certificate asks of a unit: on which sides of which columns it must keep to the box, for the proof to hold of
// it as of the units that were in the box. From the order of the bounds (bounds.ts): each proof looks at the best unit, the
// worst or both, and a unit that is no better than the one or no worse than the other does no better than what was proved.
import { LIMIT_INDEX as AT, LIMITS, type Limit } from '../evaluation/limits.js'
import { type Column, NO_BETTER, NO_WORSE, type Sides, sidesOf } from './unit-columns.js'

const BOTH = NO_BETTER | NO_WORSE
const MASSES: readonly Column[] = ['source mass', 'esc mass']
const RATINGS: readonly Column[] = [
  'esc currentLimit',
  'esc electricalSpeedLimit',
  'source currentLimit',
  'source continuousCurrent',
]

/** Whether voltage, resistance and losses hang on a column: the rest are masses, ratings and the charge. */
function isElectrical(column: Column): boolean {
  return ![...MASSES, ...RATINGS, 'source capacity'].includes(column)
}

/** The sides of what is beaten: objectives know no ratings, and charge is bounded from above only. */
export const BEATEN_SIDES = sidesOf((column) => {
  if (RATINGS.includes(column)) return 0
  return column === 'source capacity' ? NO_BETTER : BOTH
})

/** Too slow, as the best unit is at the least mass; out of a dive, one as heavy as the worst is that fast. */
const slow = sidesOf((column) => (MASSES.includes(column) ? BOTH : isElectrical(column) ? NO_BETTER : 0))
/** Too weak, as the best unit is at the least mass. */
const lacks = sidesOf((column) => (isElectrical(column) || MASSES.includes(column) ? NO_BETTER : 0))
/** Too heavy at the least mass. */
const heavy = sidesOf((column) => (MASSES.includes(column) ? NO_BETTER : 0))
/** A motor or fan driven too hard, as even the worst unit drives it, or a rating of the unit as good as the best. */
const drivenBeyond = (rating: Column | null) =>
  sidesOf((column) => (isElectrical(column) ? NO_WORSE : column === rating ? NO_BETTER : 0))
const driven = drivenBeyond(null)

const SIDES: Partial<Record<Limit, Sides>> = {
  budget: sidesOf(() => 0),
  'take-off-mass': heavy,
  'stall-speed': heavy,
  'thrust-to-weight': lacks,
  'speed-floor': slow,
  'motor-current': driven,
  'motor-power': driven,
  'motor-speed': driven,
  'tip-speed': driven,
  'tip-mach': driven,
  'esc-current': drivenBeyond('esc currentLimit'),
  'esc-speed': drivenBeyond('esc electricalSpeedLimit'),
}

/** By index of the limit; of those not named above, all sides. */
export const LIMIT_SIDES: readonly Sides[] = LIMITS.map((limit) => SIDES[limit] ?? sidesOf(() => BOTH))

/** Whether a reason speaks of what a setup costs at least. */
export function isCostly(reason: number): boolean {
  return reason < 0 || reason === AT.budget
}
