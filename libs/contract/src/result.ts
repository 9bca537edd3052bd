// The answer as the wire carries it: plain units with a suffix, every list in rank or canonical order, no clock and no
// machine in it, so that the same request, catalogue and model version give the same bytes. Times and counts that depend
// on how the front was found live in the receipt beside it.
import type { SetupCurves } from './curves.js'
import type { SetupChoice, SweepRequest } from './request.js'

/** A named check and how much of its limit is used; above 1 it is broken. */
export interface LimitUse {
  /** Key of the limit, such as `esc-current`. */
  readonly limit: string
  /** The limit in words, such as "speed controller current, standing". */
  readonly words: string
  readonly used: number
}

/** Every figure of one setup at one operating point. */
export interface PointFigures {
  readonly speed_km_h: number
  readonly duty: number
  readonly shaft_rpm: number
  readonly tip_mach: number
  readonly advance_ratio: number
  readonly flow_coefficient: number
  readonly efflux_m_s: number
  readonly thrust_n: number
  readonly drag_n: number
  readonly motor_current_a: number
  readonly pack_current_a: number
  readonly pack_voltage_v: number
  readonly motor_voltage_v: number
  readonly pack_power_w: number
  readonly shaft_power_w: number
  readonly motor_loss_w: number
  readonly esc_loss_w: number
  readonly fan_efficiency: number
  readonly motor_efficiency: number
  readonly propulsive_efficiency: number
  readonly froude_efficiency: number
}

/** One setup worked through every model. */
export interface SetupFigures {
  readonly mass_kg: number
  readonly ballast_kg: number
  readonly pack_station_mm: number
  /** Between these the centre of gravity stays near enough to where it is wanted; null: it takes too much ballast. */
  readonly pack_window_mm: readonly [from: number, to: number] | null
  /** In series, over all packs. */
  readonly cells: number
  readonly nozzle_exit_mm: number
  readonly stall_km_h: number
  readonly stall_flaps_km_h: number
  readonly lift_off_km_h: number
  readonly landing_km_h: number
  readonly thrust_to_weight: number
  readonly take_off_roll_m: number | null
  /** Standing, full warm pack. */
  readonly standing: PointFigures
  /** Level top speed, full warm pack: limits and margin are judged here. */
  readonly top_full: PointFigures
  /** Level top speed at the quoted charge: the speed that is compared. */
  readonly top: PointFigures
  /** Level top speed for the last pass, at the landing reserve; null when the pack no longer carries level flight then. */
  readonly top_last: PointFigures | null
  readonly cruise: PointFigures
  readonly speed_steady_km_h: number
  readonly speed_in_run_km_h: number
  readonly speed_entry_km_h: number
  /** Bottom of the dive before the run, at the quoted charge; the entry speed when there is none. */
  readonly speed_dive_km_h: number
  /** Fastest a full pack makes it fly, level or out of the dive: what the structure is judged at. */
  readonly speed_fastest_km_h: number
  /** Highest true air speed the structure allows in this air, and what sets it; null when nothing is known of it. */
  readonly speed_allowed_km_h: number | null
  readonly speed_allowed_by: string | null
  /** Tightest level turn at top speed that the wing allows, m. */
  readonly turn_radius_m: number
  readonly efflux_ceiling_km_h: number
  readonly flight_time_s: number
  readonly mean_current_a: number
  readonly charge_used_mah: number
  readonly temperatures: {
    readonly winding_c: number
    readonly case_c: number
    readonly esc_c: number
    readonly pack_c: number
  }
  readonly margin: number
  readonly margin_binds: string
  readonly margins: readonly { readonly criterion: string; readonly words: string; readonly margin: number }[]
  readonly headroom: number
  readonly limits: readonly LimitUse[]
  /** Elasticities of steady top speed: relative change per relative change. */
  readonly elasticity: { readonly power: number; readonly drag_area: number; readonly mass: number }
  /** What holds the speed back, in words. */
  readonly binds: string
  /** Largest relative residual of the balances (thrust against drag, voltages). */
  readonly residual: number
}

/** One stretch of the flight; temperatures and charge at its end. */
export interface PhaseFigures {
  readonly phase: string
  readonly words: string
  readonly start_s: number
  readonly time_s: number
  readonly speed_km_h: number
  readonly duty: number
  readonly pack_voltage_v: number
  readonly pack_current_a: number
  readonly motor_current_a: number
  readonly pack_power_w: number
  readonly charge_left: number
  readonly winding_c: number
  readonly case_c: number
  readonly esc_c: number
  readonly pack_c: number
}

/** The flight as phases, from a full pack to landing. */
export interface FlightFigures {
  readonly phases: readonly PhaseFigures[]
  readonly passes: number
  /** Why the passes ended: the wanted time was up, only approach and reserve were left, or it could not fly on. */
  readonly ended_by: 'time' | 'charge' | 'underpowered'
  readonly charge_used_mah: number
  /** What the packs gave, W·h. */
  readonly energy_used_wh: number
  /** If the passes went on to the landing reserve. */
  readonly time_to_reserve_s: number
  readonly least_pack_voltage_v: number | null
  readonly first_pass_km_h: number | null
  readonly last_pass_km_h: number | null
  readonly peak_winding_c: number
  readonly peak_case_c: number
  readonly peak_esc_c: number
  readonly peak_pack_c: number
  /** Full throttle held after the climb until the first limit or the landing reserve, and which of them. */
  readonly full_throttle_s: number
  readonly full_throttle_ends: string
  /** Cruise wanted after each pass so that every temperature limit holds; null when none is long enough. */
  readonly cool_down_s: number | null
}

/** One piece of clean-up work and what it would do to this setup. */
export interface TreatmentGain {
  readonly kind: string
  readonly words: string
  readonly price: number
  readonly hours: number
  readonly mass_g: number
  readonly gain_km_h: number
  readonly drag_area_cut_m2: number
}

/** What top speed responds to, locally. */
export interface Sensitivity {
  readonly km_h_per_100_w: number
  readonly km_h_per_10_cm2_less: number
  readonly km_h_per_100_g_less: number
  readonly km_h_per_nozzle_point_less: number
  readonly km_h_per_m_s_efflux: number
  readonly km_h_per_mohm_less: number
  readonly treatments: readonly TreatmentGain[]
  /** All work not done yet, together; null when there is none. */
  readonly all_treatments_km_h: number | null
  readonly first_move: string
}

/** What a setup does when everything scatters as it may, how it flies, and what to do next. */
export interface SetupStudy {
  readonly samples: number
  readonly seed: number
  /** 5 % and 95 % of every figure, by its path in the figures, such as `top.thrust_n`. */
  readonly bands: Readonly<Record<string, readonly [low: number, high: number]>>
  /** Odds of reaching the target; null without one. */
  readonly reaches_target: number | null
  /** Odds of flying level at all, and of holding each rating that is not certain to hold. */
  readonly flies: number
  readonly holds: readonly { readonly limit: string; readonly words: string; readonly odds: number }[]
  /** What the spread of the speed comes from, largest first, as shares of its variance. */
  readonly drivers: readonly { readonly input: string; readonly words: string; readonly share: number }[]
  readonly flight: FlightFigures | null
  readonly sensitivity: Sensitivity
  /** What the label of the pack claims against what is believable. */
  readonly pack_claim: string
}

/** One line of the shopping list. */
export interface PurchaseLine {
  readonly id: string
  readonly name: string
  readonly role: 'fan' | 'motor' | 'set' | 'esc' | 'pack' | 'receiver-supply' | 'treatment'
  readonly count: number
  readonly owned: number
  readonly buy: number
  readonly price_each: number
  readonly price: number
}

export interface Objectives {
  readonly speed_km_h: number
  readonly flight_time_s: number
  readonly cost: number
  readonly margin: number
}

/** What stops a setup from being faster. */
export type Binds = 'power' | 'efflux' | 'drag' | 'rpm' | 'current' | 'heat' | 'structure' | 'mass' | 'money'

/** One member of the Pareto set, ranked. */
export interface Member {
  readonly rank: number
  /** Same for all settings of one set of parts; 1 is the purchase of the best-ranked setup. */
  readonly purchase: number
  readonly setup: SetupChoice
  /** Rounded to the declared resolution and capped at what is wanted: what was compared. */
  readonly compared: Objectives
  /** As worked out. */
  readonly raw: Objectives
  /** Cost if nothing were owned. */
  readonly replacement_cost: number
  readonly shopping: readonly PurchaseLine[]
  readonly score: {
    readonly reaches: boolean
    readonly desirability: number
    readonly speed: number
    readonly time: number
    readonly cost: number
    readonly margin: number
    /** Value of the owner's own expression; null without one, or where it has no finite value. */
    readonly expression: number | null
  }
  readonly why: string
  readonly binds: { readonly kind: Binds; readonly words: string }
  readonly figures: SetupFigures
}

/** A setup just outside: what it breaks and by how much. */
export interface NearMiss {
  readonly setup: SetupChoice
  /** What stands in the way, in words with numbers. */
  readonly why: string
  readonly raw: Objectives | null
  readonly broken: readonly LimitUse[]
  readonly shopping: readonly PurchaseLine[]
}

/** A duty solved exactly for one pick after the sweep; a refinement outside the front. */
export interface Refinement {
  readonly duty: number
  /** The throttle cap as a current: drawn from a full warm pack, standing. */
  readonly throttle_cap_a: number
  readonly figures: SetupFigures
  readonly words: string
}

/** One way to more speed: clean-up work, or another purchase of the list instead of this one. */
export interface NextStep {
  readonly kind: 'treatment' | 'purchase'
  readonly words: string
  readonly gain_km_h: number
  /** What it costs more than the pick, and the work it takes; 0 for another purchase, whose fitting is not counted. */
  readonly price: number
  readonly hours: number
  /** Rank of the purchase; null for work. */
  readonly rank: number | null
  /** Gain per 100 of the currency, and per hour of work; null where it takes none. */
  readonly km_h_per_100: number | null
  readonly km_h_per_hour: number | null
}

/** Where the next euro or hour should go. */
export interface Advice {
  /** Best value first. */
  readonly steps: readonly NextStep[]
  /** The cheapest way to 10 km/h more: a rank of the list, or null for work or where there is no way. */
  readonly ten_km_h_more: { readonly words: string; readonly rank: number | null; readonly more_cost: number | null }
  /** What is given up for a tenth of the design load more in reserve; the rank is null when it is the same setup flown slower. */
  readonly more_margin: { readonly words: string; readonly rank: number | null }
}

/** A named pick from the front. */
export interface Pick {
  readonly pick: 'best-all-round' | 'best-for-the-money' | 'safest' | 'fastest'
  readonly rank: number
  readonly why: string
  /** The lowest duty that reaches the target; null when it is out of reach. */
  readonly for_target: Refinement | null
  /** The highest duty every limit allows. */
  readonly highest: Refinement | null
  readonly study: SetupStudy
  readonly advice: Advice
  readonly curves: SetupCurves
}

/** The setup beyond which more speed gets dear. */
export interface Knee {
  readonly rank: number
  readonly why: string
}

/** The cheapest way to a higher speed, from the step before it, the first from what is flown now. */
export interface StaircaseStep {
  readonly rank: number
  readonly speed_km_h: number
  readonly cost: number
  readonly margin: number
  readonly more_km_h: number
  readonly more_cost: number
  readonly words: string
}

/** The least that one limit alone must give for a setup to reach the target. */
export interface Relaxation {
  readonly relax: 'budget' | 'take-off-mass' | 'margin' | 'drag-area' | 'flight-time' | 'stall-speed' | 'target'
  readonly words: string
  readonly from: number
  readonly to: number
  readonly unit: string
  readonly setup: SetupChoice
  readonly raw: Objectives
  readonly shopping: readonly PurchaseLine[]
}

/** What clean-up work alone would do, with the parts that are flown now or else the best of the list. */
export interface DragWork {
  readonly speed_now_km_h: number
  readonly speed_then_km_h: number
  readonly price: number
  readonly hours: number
  readonly words: string
}

/** The airframe as it is worked with, and where its drag and its highest speed come from. */
export interface AirframeFigures {
  readonly id: string
  readonly name: string
  readonly drag_area_m2: number
  /** Solved from a measured speed, stated, or built up from the geometry; then what clean-up work took off. */
  readonly drag_basis: 'measured' | 'stated' | 'built-up'
  readonly drag_terms: readonly { readonly term: string; readonly words: string; readonly area_m2: number }[]
  readonly treatments: readonly {
    readonly kind: string
    readonly words: string
    readonly price: number
    readonly hours: number
    readonly mass_g: number
  }[]
  readonly speed_limits: readonly { readonly criterion: string; readonly words: string; readonly speed_km_h: number }[]
}

/** The air it is flown in. */
export interface AirFigures {
  readonly elevation_m: number
  readonly temperature_c: number
  readonly pressure_hpa: number
  readonly density_kg_m3: number
  readonly sound_speed_m_s: number
  readonly viscosity_upa_s: number
}

/** How many combinations one rule removed. */
export interface RuleCount {
  readonly rule: string
  readonly words: string
  readonly count: number
}

export interface Result {
  readonly format: 'ductwright-result/1'
  readonly model_version: string
  readonly catalogue: {
    readonly name: string
    readonly version: string
    readonly currency: string
    readonly dated: string
  }
  readonly request_hash: string
  /** Hash of the answer's meaning: outcome, part ids, order, compared values. */
  readonly answer_hash: string
  readonly understood: SweepRequest
  readonly airframe: AirframeFigures
  readonly air: AirFigures
  readonly outcome: 'reached' | 'short' | 'none'
  /** The answer in one or two sentences. */
  readonly headline: string
  /** What stands in the way, such as "this budget"; null when the target is reached. */
  readonly blamed: string | null
  /** What the pilot has today, when the request tells it. */
  readonly now: {
    readonly setup: SetupChoice
    readonly measured_km_h: number
    readonly drag_area_m2: number
    readonly drag_area_low_m2: number
    readonly drag_area_high_m2: number
    readonly figures: SetupFigures
    readonly words: string
  } | null
  readonly rules: {
    readonly resolution: Objectives
    readonly narrowed: boolean
    readonly speed_floor_km_h: number
    readonly words: readonly string[]
  }
  readonly counts: {
    readonly raw: number
    readonly compatible: number
    /** Combinations of parts that do not go together, by the first reason met, in the order of testing. */
    readonly misfits: readonly RuleCount[]
    readonly front: number
    readonly purchases: number
  }
  readonly front: readonly Member[]
  /** The first of the list, then the three named for something; empty when nothing is listed. */
  readonly picks: readonly Pick[]
  readonly knee: Knee | null
  readonly staircase: readonly StaircaseStep[]
  readonly nearest: readonly NearMiss[]
  /** Empty when the target is reached. */
  readonly relaxations: readonly Relaxation[]
  readonly drag_work: DragWork | null
  readonly names: Readonly<Record<string, string>>
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
}

/** How the work went; differs from run to run, so it lives beside the answer and is never hashed. */
export interface Receipt {
  readonly started: string
  readonly seconds: number
  readonly threads: number
  readonly shards: number
  readonly evaluated: number
  /** Groups of combinations put away or taken apart without working them through one by one. */
  readonly boxes: number
  /**
   * Combinations that each limit removed, in the order of testing, and how many of them as whole groups. Which of several
   * broken limits is counted depends on the search.
   */
  readonly removed: readonly (RuleCount & { readonly in_groups: number })[]
  /** Combinations put away in whole groups, because a listed setup is no worse in anything. */
  readonly dominated: number
  /** Combinations worked through that hold every limit. */
  readonly feasible: number
  /**
   * null: everything was searched, and misfits, removed, dominated and feasible together are all combinations. Else the list
   * of an earlier answer was taken over and only what changed since was searched: counts of work speak of that alone.
   */
  readonly taken_over: {
    /** Of the earlier answer. */
    readonly catalogue_version: string
    /** What was searched again, to follow "only", such as "what has one of 3 changed parts in it". */
    readonly words: string
  } | null
  readonly stages: readonly { readonly stage: string; readonly seconds: number }[]
}
