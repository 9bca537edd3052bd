// Every limit a setup is held to, in the order of testing. A limit is `used / allowed`: used is a share of the rating
// (current over rated current, temperature rise over allowed rise, …); allowed is 1, or 1 less the headroom kept free.

/** Keys in the order of testing; the first one broken is the one that is counted. */
export const LIMITS = [
  'budget',
  'take-off-mass',
  'ballast',
  'stall-speed',
  'pack-power',
  'motor-current',
  'motor-power',
  'motor-speed',
  'esc-current',
  'esc-speed',
  'pack-current',
  'tip-speed',
  'tip-mach',
  'thrust-to-weight',
  'take-off-roll',
  'level-flight',
  'structural-margin',
  'speed-floor',
  'cruise',
  'flight-time',
  'cell-voltage',
  'winding-temperature',
  'magnet-temperature',
  'esc-temperature',
  'pack-temperature',
  'convergence',
] as const

export type Limit = (typeof LIMITS)[number]

/** Index of each limit in `LIMITS`, for columns. */
export const LIMIT_INDEX: Readonly<Record<Limit, number>> = Object.fromEntries(
  LIMITS.map((limit, index) => [limit, index]),
) as Record<Limit, number>

/** Limits that keep the headroom free: currents, speeds of rotation, temperatures. */
export const HEADROOM_LIMITS: readonly Limit[] = [
  'motor-current',
  'motor-power',
  'motor-speed',
  'esc-current',
  'esc-speed',
  'pack-current',
  'tip-speed',
  'winding-temperature',
  'magnet-temperature',
  'esc-temperature',
  'pack-temperature',
]

/** Limits that do not depend on duty. */
export const DUTYLESS_LIMITS: readonly Limit[] = ['budget', 'take-off-mass', 'ballast', 'stall-speed']

/**
 * Limits that, broken at one duty, stay broken at every higher one: motor current, rotation and loads, which grow with
 * throttle. The others can be mended by more throttle, or do not depend on it, or ease at full throttle: what switching,
 * freewheeling and ripple take vanishes there, so that just below it packs give more and controller and motor may be hotter.
 */
export const RISING_LIMITS: readonly Limit[] = [
  'motor-current',
  'motor-power',
  'motor-speed',
  'esc-current',
  'esc-speed',
  'tip-speed',
  'tip-mach',
  'structural-margin',
]

/** Limits that are wishes, not ratings: however far over, a setup that holds all the rest is worth naming. */
export const WISH_LIMITS: readonly Limit[] = [
  'budget',
  'stall-speed',
  'thrust-to-weight',
  'take-off-roll',
  'speed-floor',
  'flight-time',
]

/** Tip Mach number above which the fan model does not hold. Cited from memory: 0.6 to 0.7. */
export const TIP_MACH_LIMIT = 0.7
