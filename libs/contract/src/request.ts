// What a request means once it is read: SI units, every default filled in. `parseRequest` (parse-request.ts) makes it
// from JSON; the reply echoes it, so a pilot sees what was understood.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import type { TreatmentKind } from '@ductwright/models/drag/treatments'
import type { Circumstances } from '@ductwright/models/sweep/problem'

/** Whether a speed is the level equilibrium, what one pass of the stated run reaches, or the bottom of the dive before it. */
export type SpeedBasis = Circumstances['speedBasis']

/** One or two packs: alone, in series, or side by side. */
export type Arrangement = 'single' | 'series' | 'parallel'

/** One buildable setup in one airframe, as the wire names it (part ids, plain units). */
export interface SetupChoice {
  readonly fan: string
  readonly motor: string
  readonly esc: string
  /** Motor timing, degrees. */
  readonly timing_deg: number
  readonly pack: string
  readonly arrangement: Arrangement
  /** Nozzle exit area over fan annulus area. */
  readonly nozzle_ratio: number
  /** Throttle cap as a duty, 0…1. */
  readonly duty: number
}

/** The present setup and the speed it was measured at, from which the drag area is solved. */
export interface MeasuredPresent {
  readonly setup: SetupChoice
  /** Mean of opposite runs, or true air speed worked out from legs over the ground, m/s. */
  readonly speed: number
  readonly basis: SpeedBasis
  /** Relative standard uncertainty of the measured speed. */
  readonly speedUncertainty: number
}

/** A part at hand, with the condition of a pack where its owner measured or counted it. */
export interface OwnedPart {
  readonly id: string
  readonly count: number
  /** Measured resistance of one cell at 25 °C, Ω; null: as listed. */
  readonly cellResistance: number | null
  /** Charges and discharges so far; null: as new. */
  readonly cycles: number | null
}

/** How it is flown; a radius of null is not flown on purpose. */
export type FlightProfile = Omit<Circumstances['profile'], 'turnRadius' | 'pullUpRadius'> & {
  readonly turnRadius: number | null
  readonly pullUpRadius: number | null
}

/** Only their proportion counts. */
export interface Weights {
  readonly speed: number
  readonly time: number
  readonly cost: number
  readonly margin: number
}

export interface SweepRequest {
  readonly title: string
  /** Exactly one mail address, or none: then the answer is only read back. */
  readonly address: string | null
  readonly target: { readonly speed: number; readonly basis: SpeedBasis }
  /** In the catalogue's currency; null: no limit. */
  readonly budget: number | null
  /** Currency written in the request, to be compared with the catalogue's; null: none written. */
  readonly budgetCurrency: string | null
  readonly airframe:
    | { readonly kind: 'catalogue'; readonly id: string; readonly measured: MeasuredPresent | null }
    | {
        readonly kind: 'given'
        readonly airframe: Airframe
        readonly name: string
        readonly measured: MeasuredPresent | null
      }
  /** Clean-up work to be done on the airframe before it flies so, in canonical order. */
  readonly treatments: readonly TreatmentKind[]
  /** `limit`: the closure may not exceed it. `fixed`: flown at exactly this mass, lighter setups carry ballast up to it. kg */
  readonly mass: { readonly limit: number | null; readonly fixed: number | null }
  readonly field: {
    /** m */
    readonly elevation: number
    /** K */
    readonly temperature: number
    /** Ground available for the take-off roll, m. */
    readonly runway: number
    readonly rollingFriction: number
  }
  /** `flightTime` is what is wanted and judged for heat. */
  readonly profile: FlightProfile
  readonly run: Circumstances['run']
  readonly owned: readonly OwnedPart[]
  readonly required: readonly string[]
  readonly excluded: readonly string[]
  /** Flight time and margin count only up to what is wanted (unless the whole front is asked for). */
  readonly wanted: { readonly flightTime: number; readonly margin: number }
  readonly wishes: {
    /** How much each objective counts in the ranking; at least one above 0. */
    readonly weights: Weights
    /** Arithmetic over named quantities, the higher the better; ranks instead of the weights. As normalised text; null: none. */
    readonly expression: string | null
  }
  readonly limits: {
    readonly margin: number
    /** Kept free on every current, speed of rotation and temperature limit. */
    readonly headroom: number
    /** m/s */
    readonly stallSpeed: number
    readonly thrustToWeight: number
    /** s; null: none */
    readonly flightTime: number | null
  }
  readonly sweep: {
    readonly duties: readonly number[]
    readonly nozzleRatios: readonly number[]
    readonly arrangements: readonly Arrangement[]
    /** State of charge at which speed is quoted. */
    readonly charge: number
    /** Resolutions in objective units: m/s, s, currency, share; 0 switches one off. */
    readonly resolution: {
      readonly speed: number
      readonly time: number
      readonly cost: number
      readonly margin: number
    }
    readonly wholeFront: boolean
  }
}
