// Schemas of the answers, for describing the API and for checking answers; the interfaces in result.ts and setup.ts say
// what each field means. Checked against them when compiled, in both directions.
import { z } from 'zod'
import { setupCurves } from './curves-schema.js'
import type { Receipt, Result } from './result.js'
import type { Same } from './same-shape.js'
import type { SetupReport } from './setup.js'
import { chosenSetup, understoodRequest, understoodSetup } from './understood-schema.js'

const hash = z.string().regex(/^[0-9a-f]{64}$/)
const count = z.int().min(0)

const limitUse = z
  .strictObject({ limit: z.string(), words: z.string(), used: z.number() })
  .meta({ description: 'A named limit and the share of it that is used; above 1 it is broken.' })

export const pointFigures = z
  .strictObject({
    speed_km_h: z.number(),
    duty: z.number(),
    shaft_rpm: z.number(),
    tip_mach: z.number(),
    advance_ratio: z.number(),
    flow_coefficient: z.number(),
    efflux_m_s: z.number(),
    thrust_n: z.number(),
    drag_n: z.number(),
    motor_current_a: z.number(),
    pack_current_a: z.number(),
    pack_voltage_v: z.number(),
    motor_voltage_v: z.number(),
    pack_power_w: z.number(),
    shaft_power_w: z.number(),
    motor_loss_w: z.number(),
    esc_loss_w: z.number(),
    fan_efficiency: z.number(),
    motor_efficiency: z.number(),
    propulsive_efficiency: z.number(),
    froude_efficiency: z.number(),
  })
  .meta({ description: 'Every figure of one setup at one operating point.' })

export const setupFigures = z
  .strictObject({
    mass_kg: z.number(),
    ballast_kg: z.number(),
    pack_station_mm: z.number(),
    pack_window_mm: z.tuple([z.number(), z.number()]).nullable(),
    cells: count,
    nozzle_exit_mm: z.number(),
    stall_km_h: z.number(),
    stall_flaps_km_h: z.number(),
    lift_off_km_h: z.number(),
    landing_km_h: z.number(),
    thrust_to_weight: z.number(),
    take_off_roll_m: z.number().nullable(),
    standing: pointFigures,
    top_full: pointFigures,
    top: pointFigures,
    top_last: pointFigures.nullable(),
    cruise: pointFigures,
    speed_steady_km_h: z.number(),
    speed_in_run_km_h: z.number(),
    speed_entry_km_h: z.number(),
    speed_dive_km_h: z.number(),
    speed_fastest_km_h: z.number(),
    speed_allowed_km_h: z.number().nullable(),
    speed_allowed_by: z.string().nullable(),
    turn_radius_m: z.number(),
    efflux_ceiling_km_h: z.number(),
    flight_time_s: z.number(),
    mean_current_a: z.number(),
    charge_used_mah: z.number(),
    temperatures: z.strictObject({
      winding_c: z.number(),
      case_c: z.number(),
      esc_c: z.number(),
      pack_c: z.number(),
    }),
    margin: z.number(),
    margin_binds: z.string(),
    margins: z.array(z.strictObject({ criterion: z.string(), words: z.string(), margin: z.number() })),
    headroom: z.number(),
    limits: z.array(limitUse),
    elasticity: z.strictObject({ power: z.number(), drag_area: z.number(), mass: z.number() }),
    binds: z.string(),
    residual: z.number(),
  })
  .meta({ description: 'One setup worked through every model.' })

const phase = z.strictObject({
  phase: z.string(),
  words: z.string(),
  start_s: z.number(),
  time_s: z.number(),
  speed_km_h: z.number(),
  duty: z.number(),
  pack_voltage_v: z.number(),
  pack_current_a: z.number(),
  motor_current_a: z.number(),
  pack_power_w: z.number(),
  charge_left: z.number(),
  winding_c: z.number(),
  case_c: z.number(),
  esc_c: z.number(),
  pack_c: z.number(),
})

const flight = z
  .strictObject({
    phases: z.array(phase),
    passes: count,
    ended_by: z.enum(['time', 'charge', 'underpowered']),
    charge_used_mah: z.number(),
    energy_used_wh: z.number(),
    time_to_reserve_s: z.number(),
    least_pack_voltage_v: z.number().nullable(),
    first_pass_km_h: z.number().nullable(),
    last_pass_km_h: z.number().nullable(),
    peak_winding_c: z.number(),
    peak_case_c: z.number(),
    peak_esc_c: z.number(),
    peak_pack_c: z.number(),
    full_throttle_s: z.number(),
    full_throttle_ends: z.string(),
    cool_down_s: z.number().nullable(),
  })
  .meta({ description: 'The flight as phases, from a full pack to landing.' })

const work = { kind: z.string(), words: z.string(), price: z.number(), hours: z.number(), mass_g: z.number() }

const sensitivity = z
  .strictObject({
    km_h_per_100_w: z.number(),
    km_h_per_10_cm2_less: z.number(),
    km_h_per_100_g_less: z.number(),
    km_h_per_nozzle_point_less: z.number(),
    km_h_per_m_s_efflux: z.number(),
    km_h_per_mohm_less: z.number(),
    treatments: z.array(z.strictObject({ ...work, gain_km_h: z.number(), drag_area_cut_m2: z.number() })),
    all_treatments_km_h: z.number().nullable(),
    first_move: z.string(),
  })
  .meta({ description: 'What top speed responds to, and the first move that follows.' })

export const setupStudy = z
  .strictObject({
    samples: count,
    seed: count,
    bands: z.record(z.string(), z.tuple([z.number(), z.number()])),
    reaches_target: z.number().nullable(),
    flies: z.number(),
    holds: z.array(z.strictObject({ limit: z.string(), words: z.string(), odds: z.number() })),
    drivers: z.array(z.strictObject({ input: z.string(), words: z.string(), share: z.number() })),
    flight: flight.nullable(),
    sensitivity,
    pack_claim: z.string(),
  })
  .meta({ description: 'Bands, odds, the flight as phases, and what top speed responds to.' })

const purchaseLine = z
  .strictObject({
    id: z.string(),
    name: z.string(),
    role: z.enum(['fan', 'motor', 'set', 'esc', 'pack', 'receiver-supply', 'treatment']),
    count,
    owned: count,
    buy: count,
    price_each: z.number(),
    price: z.number(),
  })
  .meta({ description: 'One line of the shopping list.' })

const objectives = z
  .strictObject({ speed_km_h: z.number(), flight_time_s: z.number(), cost: z.number(), margin: z.number() })
  .meta({ description: 'The four objectives.' })

const score = z.strictObject({
  reaches: z.boolean(),
  desirability: z.number(),
  speed: z.number(),
  time: z.number(),
  cost: z.number(),
  margin: z.number(),
  expression: z.number().nullable(),
})

const binds = z.strictObject({
  kind: z.enum(['power', 'efflux', 'drag', 'rpm', 'current', 'heat', 'structure', 'mass', 'money']),
  words: z.string(),
})

export const member = z
  .strictObject({
    rank: z.int().min(1),
    purchase: z.int().min(1),
    setup: chosenSetup,
    compared: objectives,
    raw: objectives,
    replacement_cost: z.number(),
    shopping: z.array(purchaseLine),
    score,
    why: z.string(),
    binds,
    figures: setupFigures,
  })
  .meta({ description: 'One member of the Pareto set, ranked.' })

const nearMiss = z
  .strictObject({
    setup: chosenSetup,
    why: z.string(),
    raw: objectives.nullable(),
    broken: z.array(limitUse),
    shopping: z.array(purchaseLine),
  })
  .meta({ description: 'A setup just outside: what it breaks and by how much.' })

const refinement = z
  .strictObject({ duty: z.number(), throttle_cap_a: z.number(), figures: setupFigures, words: z.string() })
  .meta({ description: 'A duty solved exactly for one pick, after the sweep.' })

const rankOrNull = z.int().min(1).nullable()

const nextStep = z.strictObject({
  kind: z.enum(['treatment', 'purchase']),
  words: z.string(),
  gain_km_h: z.number(),
  price: z.number(),
  hours: z.number(),
  rank: rankOrNull,
  km_h_per_100: z.number().nullable(),
  km_h_per_hour: z.number().nullable(),
})

const advice = z
  .strictObject({
    steps: z.array(nextStep),
    ten_km_h_more: z.strictObject({ words: z.string(), rank: rankOrNull, more_cost: z.number().nullable() }),
    more_margin: z.strictObject({ words: z.string(), rank: rankOrNull }),
  })
  .meta({ description: 'Where the next money or hour of work should go.' })

const pick = z
  .strictObject({
    pick: z.enum(['best-all-round', 'best-for-the-money', 'safest', 'fastest']),
    rank: z.int().min(1),
    why: z.string(),
    for_target: refinement.nullable(),
    highest: refinement.nullable(),
    study: setupStudy,
    advice,
    curves: setupCurves,
  })
  .meta({ description: 'A named pick from the front.' })

const knee = z
  .strictObject({ rank: z.int().min(1), why: z.string() })
  .meta({ description: 'The setup beyond which more speed gets dear.' })

const staircaseStep = z
  .strictObject({
    rank: z.int().min(1),
    speed_km_h: z.number(),
    cost: z.number(),
    margin: z.number(),
    more_km_h: z.number(),
    more_cost: z.number(),
    words: z.string(),
  })
  .meta({ description: 'The cheapest way to a higher speed.' })

const relaxation = z
  .strictObject({
    relax: z.enum(['budget', 'take-off-mass', 'margin', 'drag-area', 'flight-time', 'stall-speed', 'target']),
    words: z.string(),
    from: z.number(),
    to: z.number(),
    unit: z.string(),
    setup: chosenSetup,
    raw: objectives,
    shopping: z.array(purchaseLine),
  })
  .meta({ description: 'The least that one limit alone must give for a setup to reach the target.' })

const dragWork = z
  .strictObject({
    speed_now_km_h: z.number(),
    speed_then_km_h: z.number(),
    price: z.number(),
    hours: z.number(),
    words: z.string(),
  })
  .meta({ description: 'What clean-up work alone would do.' })

const catalogue = z.strictObject({ name: z.string(), version: hash, currency: z.string(), dated: z.string() })

const airframe = z.strictObject({
  id: z.string(),
  name: z.string(),
  drag_area_m2: z.number(),
  drag_basis: z.enum(['measured', 'stated', 'built-up']),
  drag_terms: z.array(z.strictObject({ term: z.string(), words: z.string(), area_m2: z.number() })),
  treatments: z.array(z.strictObject(work)),
  speed_limits: z.array(z.strictObject({ criterion: z.string(), words: z.string(), speed_km_h: z.number() })),
})

const air = z.strictObject({
  elevation_m: z.number(),
  temperature_c: z.number(),
  pressure_hpa: z.number(),
  density_kg_m3: z.number(),
  sound_speed_m_s: z.number(),
  viscosity_upa_s: z.number(),
})

const present = z
  .strictObject({
    setup: chosenSetup,
    measured_km_h: z.number(),
    drag_area_m2: z.number(),
    drag_area_low_m2: z.number(),
    drag_area_high_m2: z.number(),
    figures: setupFigures,
    words: z.string(),
  })
  .meta({ description: 'What the pilot has today, and the drag area solved from it.' })

const rules = z.strictObject({
  resolution: objectives,
  narrowed: z.boolean(),
  speed_floor_km_h: z.number(),
  words: z.array(z.string()),
})

const ruleCount = z.strictObject({ rule: z.string(), words: z.string(), count })

const counts = z.strictObject({
  raw: count,
  compatible: count,
  misfits: z.array(ruleCount),
  front: count,
  purchases: count,
})

const closing = {
  names: z.record(z.string(), z.string()),
  assumptions: z.array(z.string()),
  cautions: z.array(z.string()),
}

export const resultSchema = z
  .strictObject({
    format: z.literal('ductwright-result/1'),
    model_version: z.string(),
    catalogue,
    request_hash: hash,
    answer_hash: hash,
    understood: understoodRequest,
    airframe,
    air,
    outcome: z.enum(['reached', 'short', 'none']),
    headline: z.string(),
    blamed: z.string().nullable(),
    now: present.nullable(),
    rules,
    counts,
    front: z.array(member),
    picks: z.array(pick),
    knee: knee.nullable(),
    staircase: z.array(staircaseStep),
    nearest: z.array(nearMiss),
    relaxations: z.array(relaxation),
    drag_work: dragWork.nullable(),
    ...closing,
  })
  .meta({ description: 'The answer to a sweep request.' })

export const setupReportSchema = z
  .strictObject({
    format: z.literal('ductwright-setup/1'),
    model_version: z.string(),
    catalogue,
    understood: understoodSetup,
    airframe,
    air,
    refused: z.array(z.strictObject({ rule: z.string(), words: z.string() })),
    figures: setupFigures.nullable(),
    study: setupStudy.nullable(),
    shopping: z.array(purchaseLine),
    cost: z.number(),
    replacement_cost: z.number(),
    ...closing,
  })
  .meta({ description: 'One setup worked through on its own.' })

export const receiptSchema = z
  .strictObject({
    started: z.string(),
    seconds: z.number(),
    threads: count,
    shards: count,
    evaluated: count,
    boxes: count,
    removed: z.array(ruleCount.extend({ in_groups: count })),
    dominated: count,
    feasible: count,
    taken_over: z.strictObject({ catalogue_version: z.string(), words: z.string() }).nullable().meta({
      description:
        'null: everything was searched. Else the list of an earlier answer was taken over, and counts speak of what was searched again.',
    }),
    stages: z.array(z.strictObject({ stage: z.string(), seconds: z.number() })),
  })
  .meta({ description: 'How the work went; differs from run to run and is no part of the answer.' })

/** Does not compile when a schema and its interface differ. */
export const resultAgrees: readonly [
  Same<Result, z.output<typeof resultSchema>>,
  Same<SetupReport, z.output<typeof setupReportSchema>>,
  Same<Receipt, z.output<typeof receiptSchema>>,
] = [true, true, true]
