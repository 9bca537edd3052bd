// The state in which limits and speeds are worked out. Assumed: limits with cold windings (least resistance, so highest
// current), warm magnets (highest speed constant) and a full pack at 40 °C; speed with windings at 80 °C, magnets at 50 °C,
// speed controller at 60 °C and the pack at 40 °C; a pack starts its flight at 30 °C or, on a hotter day, at the
// temperature of the air.
import { ZERO_CELSIUS } from '../constants.js'

/** Pack temperature at which limits and speeds are worked out, K. */
export const WARM_PACK_TEMPERATURE = ZERO_CELSIUS + 40
/** Winding temperature at which speed is quoted, K. */
export const WARM_WINDING_TEMPERATURE = ZERO_CELSIUS + 80
/** Magnet temperature at which limits and speeds are worked out, K. */
export const WARM_MAGNET_TEMPERATURE = ZERO_CELSIUS + 50
/** Speed-controller temperature at which speed is quoted, K. */
export const WARM_ESC_TEMPERATURE = ZERO_CELSIUS + 60
/** Lowest temperature at which a pack starts its flight, K: carried warm. */
export const PACK_START_TEMPERATURE = ZERO_CELSIUS + 30
/** Cruise is never slower than this many times the stall speed. Common practice, no source. */
export const CRUISE_STALL_FACTOR = 1.3
/** Voltage under load at which a cell is cut off, V. Common practice, no source. */
export const CUT_OFF_VOLTAGE = 3.2
/** Passes up to this length may use the short ratings of motor and pack, s. */
export const SHORT_RATING_TIME = 15
/** Slowest level flight, as a multiple of the stall speed. Assumed. */
export const LEAST_SPEED_FACTOR = 1.05
