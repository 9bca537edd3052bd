// The whole question in SI units and plain data: candidates sorted by id, circumstances, limits and what is compared.
// It can be cloned between threads; the same problem gives the same answer everywhere.
import type { Airframe } from '../airframe/airframe.js'
import type { Esc } from '../esc/esc.js'
import type { Fan } from '../fan/fan.js'
import type { Motor } from '../motor/motor.js'
import type { Arrangement } from '../pack/arrangement.js'
import type { Pack } from '../pack/pack.js'

/** What every combination shares. */
export interface Circumstances {
  readonly airframe: Airframe
  /** Air over the field: kg/m³, m/s, K, Pa, Pa·s. */
  readonly density: number
  readonly soundSpeed: number
  readonly airTemperature: number
  readonly pressure: number
  readonly viscosity: number
  readonly mass: { readonly limit: number; readonly fixed: number | null }
  readonly runway: number
  readonly rollingFriction: number
  readonly profile: {
    /** Flight time over which heat is judged, s. */
    readonly flightTime: number
    readonly fullThrottleShare: number
    /** Length of one full-throttle pass, s. */
    readonly passTime: number
    /** Cruise speed between passes, m/s; never below 1.3 × stall. */
    readonly cruiseSpeed: number
    /** Share of the charge left at landing. */
    readonly reserve: number
    /** Load factor of the hardest turn or pull-up, whatever the speed. */
    readonly loadFactor: number
    /** Tightest level turn and tightest pull-up flown at top speed, m; Infinity: only the load factor counts. */
    readonly turnRadius: number
    readonly pullUpRadius: number
    /** Height of the first climb, m, and time of the approach, s. */
    readonly climbHeight: number
    readonly approachTime: number
  }
  readonly run: {
    /** m */
    readonly length: number
    /** Speed at entry as a share of the steady speed. */
    readonly entrySpeedShare: number
    /** Height given up in a dive before the run, m, and the angle of that dive, rad. */
    readonly entryHeight: number
    readonly diveAngle: number
  }
  readonly limits: {
    /** Infinity: none */
    readonly budget: number
    readonly margin: number
    readonly headroom: number
    readonly stallSpeed: number
    readonly thrustToWeight: number
    /** 0: none */
    readonly flightTime: number
    /** 0: none */
    readonly speedFloor: number
  }
  /** State of charge at which speed is quoted. */
  readonly charge: number
  /** The speed that is compared: level equilibrium, what one run reaches, or the bottom of the dive before it. */
  readonly speedBasis: 'steady' | 'in-run' | 'dive'
}

/** What one combination is made of, ready to be weighed and priced. */
export interface Candidates {
  readonly fans: readonly Fan[]
  readonly motors: readonly Motor[]
  readonly escs: readonly Esc[]
  readonly packs: readonly Pack[]
  readonly arrangements: readonly Arrangement[]
  readonly nozzleRatios: readonly number[]
  /** Ascending. */
  readonly duties: readonly number[]
  /** Cost still to be paid and mass of fan i with motor k, at i·motors + k: the cheapest cover, sets included. */
  readonly pairCost: readonly number[]
  readonly pairMass: readonly number[]
  /** Cost and mass of each speed controller, with a receiver supply where it has none. */
  readonly escCost: readonly number[]
  readonly escMass: readonly number[]
  /** Cost of pack i for one and for two of it, at 2·i and 2·i + 1. */
  readonly packCost: readonly number[]
  /** Cost of every combination: clean-up work on the airframe. */
  readonly fixedCost: number
}

/** How objectives are compared: resolutions (0: off) and what is wanted (Infinity: the more the better). */
export interface Comparison {
  readonly resolution: { readonly speed: number; readonly time: number; readonly cost: number; readonly margin: number }
  readonly wantedTime: number
  readonly wantedMargin: number
  readonly targetSpeed: number
}

export interface SweepProblem {
  readonly circumstances: Circumstances
  readonly candidates: Candidates
  readonly comparison: Comparison
}

/** Whether time counts only up to what is wanted: then few setups make up the front. */
export function isNarrowed({ comparison }: SweepProblem): boolean {
  return comparison.wantedTime < Number.POSITIVE_INFINITY
}
