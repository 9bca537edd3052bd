// Believable answers for the report's tests: invented parts, figures of the right size that hang together loosely. Only
// their shape matters here; what the models really say is tested elsewhere.
import type { SetupChoice, SweepRequest } from '@ductwright/contract/request'
import type {
  Member,
  NearMiss,
  Pick,
  PointFigures,
  PurchaseLine,
  Result,
  SetupFigures,
} from '@ductwright/contract/result'
import type { SetupReport } from '@ductwright/contract/setup'
import { advice, dragWork, knee, relaxations, staircase } from './fixture-advice.js'
import { curves } from './fixture-curves.js'
import { air, airframe, study } from './fixture-study.js'

export interface Wish {
  readonly outcome?: Result['outcome']
  readonly members?: number
  readonly hostile?: boolean
}

/** Names that try what names can try. */
export const hostileNames = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(2)>',
  '=HYPERLINK("http://evil.example","open")',
  '@SUM(1+1)*cmd|/C calc',
  'Pack\u202Eslaoc\u2066 twisted\u2069\u200F',
  'Line\r\nBcc: other@evil.example\r\n\r\nbody',
  '\u001b[31mred\u001b[0m\u0000nul\u0007',
  '\t-1+2 tabbed',
  '{{constructor}}<%= 7*7 %>',
  '風扇風扇風扇 wide 🛩️ and z\u0300\u0301\u0302\u0303\u0304algo',
] as const

function named(plain: string, at: number, hostile: boolean): string {
  return hostile ? `${hostileNames[at % hostileNames.length]} ${at}` : plain
}

function names(hostile: boolean): Record<string, string> {
  const plain: Record<string, string> = { 'seal-gaps': 'Seal the hinge gaps with film' }
  const kinds = [
    ['fan', 'Merle 90 / 12 blades', 'Merle 80 / 11 blades', 'Corvid 90 HX'],
    ['motor', 'Halden 3668 1600', 'Halden 3674 1450', 'Sollan 36-4 1750'],
    ['esc', 'Lindo 160', 'Lindo 200', 'Ostra 180 S'],
    ['pack', 'Brisk 6S 5000', 'Brisk 6S 4000', 'Fjeld 6S 5800'],
  ] as const
  let at = 0
  for (const [kind, ...of] of kinds) {
    of.forEach((name, index) => {
      plain[`${kind}-${index}`] = named(name, at++, hostile)
    })
  }
  return plain
}

function point(speed: number, duty: number, charge: number): PointFigures {
  const amps = 118 * duty ** 2 * charge - speed * 0.05
  const volts = 46 * charge - amps * 0.03
  return {
    speed_km_h: speed,
    duty,
    shaft_rpm: 41_250 * duty,
    tip_mach: 0.571,
    advance_ratio: speed / 900,
    flow_coefficient: 0.62,
    efflux_m_s: 128.4,
    thrust_n: 62.31 - speed * 0.08,
    drag_n: 0.00026 * speed ** 2,
    motor_current_a: amps / duty,
    pack_current_a: amps,
    pack_voltage_v: volts,
    motor_voltage_v: volts * duty,
    pack_power_w: amps * volts,
    shaft_power_w: amps * volts * 0.87,
    motor_loss_w: amps * volts * 0.1,
    esc_loss_w: amps * volts * 0.03,
    fan_efficiency: 0.76,
    motor_efficiency: 0.894,
    propulsive_efficiency: 0.6123,
    froude_efficiency: 0.82,
  }
}

export function figures(speed: number, duty: number, margin: number): SetupFigures {
  return {
    mass_kg: 4.316,
    ballast_kg: 0.085,
    pack_station_mm: 412.4,
    pack_window_mm: [403.2, 421.6],
    cells: 12,
    nozzle_exit_mm: 78.46,
    stall_km_h: 61.2,
    stall_flaps_km_h: 54.6,
    lift_off_km_h: 73.4,
    landing_km_h: 71.1,
    thrust_to_weight: 1.472,
    take_off_roll_m: 38.7,
    standing: point(0, duty, 1),
    top_full: point(speed + 9, duty, 1),
    top: point(speed, duty, 0.95),
    top_last: point(speed - 21, duty, 0.86),
    cruise: point(160, 0.52, 0.95),
    speed_steady_km_h: speed,
    speed_in_run_km_h: speed - 4.2,
    speed_entry_km_h: speed * 0.9,
    speed_dive_km_h: speed + 14.7,
    speed_fastest_km_h: speed + 16.3,
    speed_allowed_km_h: 431.8,
    speed_allowed_by: 'wing-flutter',
    turn_radius_m: 88.3,
    efflux_ceiling_km_h: speed + 96,
    flight_time_s: 282 - (speed - 330) * 0.6,
    mean_current_a: 52.4,
    charge_used_mah: 4000.4,
    temperatures: { winding_c: 104.2, case_c: 78.9, esc_c: 71.3, pack_c: 47.6 },
    margin,
    margin_binds: 'wing-flutter',
    margins: [
      { criterion: 'wing-flutter', words: 'flutter of the wing', margin },
      { criterion: 'servo-torque', words: 'torque of the servos at full speed', margin: margin + 0.08 },
      { criterion: 'wing-bending', words: 'wing bending in the hardest turn', margin: margin + 0.14 },
      { criterion: 'fan-mount', words: 'thrust on the fan mount', margin: margin + 0.22 },
    ],
    headroom: 0.0712,
    limits: [
      { limit: 'esc-current', words: 'speed controller current', used: 0.9288 },
      { limit: 'winding-temperature', words: 'motor winding temperature', used: 0.802 },
      { limit: 'magnet-temperature', words: 'magnet temperature', used: 0.781 },
      { limit: 'pack-current', words: 'pack current', used: 0.744 },
      { limit: 'tip-speed', words: 'fan tip speed', used: 0.861 },
      { limit: 'speed-floor', words: 'speed floor', used: 0.985 },
      { limit: 'pack-temperature', words: 'pack temperature', used: 0.69 },
      { limit: 'take-off-roll', words: 'take-off roll', used: 0.258 },
    ],
    elasticity: { power: 0.31, drag_area: -0.33, mass: -0.03 },
    binds: 'speed controller current stops the throttle at 92 %; it flies at 78 % of its efflux speed',
    residual: 3.2e-10,
  }
}

function setup(at: number, duty: number): SetupChoice {
  return {
    fan: `fan-${at % 3}`,
    motor: `motor-${(at + 1) % 3}`,
    esc: `esc-${(at >> 1) % 3}`,
    timing_deg: 10 + 5 * (at % 3),
    pack: `pack-${at % 3}`,
    arrangement: at % 4 === 3 ? 'single' : 'series',
    nozzle_ratio: 0.88,
    duty,
  }
}

function shopping(choice: SetupChoice, known: Readonly<Record<string, string>>): PurchaseLine[] {
  const line = (id: string, role: PurchaseLine['role'], count: number, owned: number, price: number): PurchaseLine => {
    const buy = Math.max(0, count - owned)
    return { id, name: known[id] ?? id, role, count, owned, buy, price_each: price, price: buy * price }
  }
  return [
    line(choice.fan, 'fan', 1, 0, 189),
    line(choice.motor, 'motor', 1, 0, 242.5),
    line(choice.esc, 'esc', 1, 0, 328.95),
    line(choice.pack, 'pack', 2, 2, 118),
    line('seal-gaps', 'treatment', 1, 0, 10.9),
  ]
}

function member(at: number, reaches: boolean, known: Readonly<Record<string, string>>): Member {
  const speed = (reaches ? 362.4 : 341.3) - at * 0.12
  const margin = 0.252 - at * 0.0004
  const choice = setup(at, 0.92 - (at % 9) * 0.02)
  const list = shopping(choice, known)
  const cost = list.reduce((sum, line) => sum + line.price, 0) + at
  const worked = figures(speed, choice.duty, margin)
  const raw = { speed_km_h: speed, flight_time_s: worked.flight_time_s, cost, margin }
  return {
    rank: at + 1,
    purchase: Math.floor(at / 3) + 1,
    setup: choice,
    compared: {
      speed_km_h: Math.round(speed / 2) * 2,
      flight_time_s: 270,
      cost: Math.round(cost / 5) * 5,
      margin: 0.25,
    },
    raw,
    replacement_cost: cost + 236,
    shopping: list,
    score: { reaches, desirability: 0.81, speed: 1, time: 0.97, cost: 0.55, margin: 0.99, expression: null },
    why: at === 0 ? 'Best all round: reaches the target with the reserve wanted.' : `${at} EUR dearer than the first.`,
    binds: { kind: 'current', words: worked.binds },
    figures: worked,
  }
}

export const understood: SweepRequest = {
  title: 'Composite sport jet toward 360 km/h',
  address: 'pilot@example.org',
  target: { speed: 100, basis: 'steady' },
  budget: 1200,
  budgetCurrency: 'EUR',
  airframe: { kind: 'catalogue', id: 'airframe-0', measured: null },
  treatments: ['seal-gaps'],
  mass: { limit: 5, fixed: null },
  field: { elevation: 200, temperature: 293.15, runway: 150, rollingFriction: 0.05 },
  profile: {
    flightTime: 270,
    fullThrottleShare: 0.25,
    passTime: 10,
    cruiseSpeed: 44.4,
    reserve: 0.2,
    loadFactor: 12,
    turnRadius: 90,
    pullUpRadius: null,
    climbHeight: 50,
    approachTime: 25,
  },
  run: { length: 500, entrySpeedShare: 0.9, entryHeight: 20, diveAngle: Math.PI / 6 },
  owned: [{ id: 'pack-0', count: 2, cellResistance: 0.0014, cycles: 40 }],
  required: [],
  excluded: ['esc-2'],
  wanted: { flightTime: 270, margin: 0.25 },
  wishes: { weights: { speed: 2, time: 1, cost: 1, margin: 1 }, expression: null },
  limits: { margin: 0.1, headroom: 0.05, stallSpeed: 20, thrustToWeight: 0.7, flightTime: 180 },
  sweep: {
    duties: [0.8, 0.9, 1],
    nozzleRatios: [0.84, 0.88, 0.92],
    arrangements: ['single', 'series'],
    charge: 0.8,
    resolution: { speed: 2 / 3.6, time: 5, cost: 5, margin: 0.02 },
    wholeFront: false,
  },
}

const cautions = [
  'Follow your national aviation authority, your club and the site: this letter quotes no legal limits.',
  'These are estimates with an uncertainty, not a clearance to fly; the flutter and mount figures describe an airframe nobody has tested.',
  'Raise the speed in steps of at most 10 %. After each flight tug at hinges, servos, mounts and joiner; at any buzz: throttle off, climb gently, land.',
  'A throttle cap is a transmitter setting: lifted, every limit here is void.',
  'On the bench 62 N pull free: anchor the model, nobody in the rotor plane or behind, eye and ear protection, arm last.',
  '50 V arcs and burns: use an anti-spark plug; packs in series only if matched in type, age and charge.',
  'Charge attended, in balance mode, in a fire-resistant container; never use a swollen, hot or crashed pack.',
] as const

const headlines: Readonly<Record<Result['outcome'], string>> = {
  reached:
    'Yes: 360 km/h is within reach of the Skarv composite. The best setup does 362 km/h, 4:23 min, 771.35 EUR to pay, 25 % below the design load.',
  short:
    'Not with this airframe: 360 km/h is beyond it within these limits. The fastest setup of the Skarv composite does 341 km/h, 773.35 EUR to pay.',
  none: 'Not with this airframe: no setup of this catalogue comes near 360 km/h within the limits given.',
}

function nearMiss(at: number, known: Readonly<Record<string, string>>): NearMiss {
  const choice = setup(at, 0.96)
  return {
    setup: choice,
    why: 'Over by 2.4 % on speed controller current.',
    raw: at === 0 ? null : { speed_km_h: 363, flight_time_s: 266, cost: 792.4, margin: -0.031 },
    broken: [{ limit: 'esc-current', words: 'speed controller current', used: 1.024 }],
    shopping: shopping(choice, known),
  }
}

function picks(front: readonly Member[], hostile: boolean): Pick[] {
  const words = 'Just enough for the target.'
  const refined = { duty: 0.913, throttle_cap_a: 96.4, figures: figures(360.1, 0.913, 0.257), words }
  const naming = namer(hostile)
  const pick = (name: Pick['pick'], at: number, why: string, target: Pick['for_target'], highest: Pick['highest']) => {
    const { rank, figures: worked } = front[Math.min(at, front.length - 1)]!
    const own = { study: study(worked, naming), advice: advice(rank, naming), curves: curves(worked, naming) }
    return { pick: name, rank, why, for_target: target, highest, ...own }
  }
  return [
    pick('best-all-round', 0, 'The best of everything you asked for.', refined, refined),
    pick('best-for-the-money', 0, 'The cheapest that does all you asked.', refined, refined),
    pick('safest', 1, 'Farthest from the design load of all that come near.', null, null),
    pick('fastest', 2, 'Nothing left is faster.', null, refined),
  ]
}

/** Words as they are, or one of the hostile names in their place. */
function namer(hostile: boolean) {
  return (plain: string, at: number) => named(plain, at, hostile)
}

export function answer(wish: Wish = {}): Result {
  const { outcome = 'reached', members = 24, hostile = false } = wish
  const known = names(hostile)
  const count = outcome === 'none' ? 0 : members
  const front = Array.from({ length: count }, (_, at) => member(at, outcome === 'reached', known))
  return {
    format: 'ductwright-result/1',
    model_version: '2026.1',
    catalogue: { name: 'Demonstration catalogue', version: 'c4f1a9d2'.repeat(8), currency: 'EUR', dated: '2026-11-01' },
    request_hash: 'a1b2c3d4e5f60718'.repeat(4),
    answer_hash: '9f8e7d6c5b4a3921'.repeat(4),
    understood: { ...understood, title: named(understood.title, 5, hostile) },
    airframe: {
      ...airframe,
      name: named(airframe.name, 4, hostile),
      treatments: airframe.treatments.map((work) => ({ ...work, words: named(work.words, 7, hostile) })),
    },
    air,
    outcome,
    headline: headlines[outcome],
    blamed: outcome === 'reached' ? null : 'this airframe',
    now: {
      setup: setup(3, 1),
      measured_km_h: 300,
      drag_area_m2: 0.009234,
      drag_area_low_m2: 0.0087,
      drag_area_high_m2: 0.0098,
      figures: figures(300, 1, 0.49),
      words: 'Today: 300 km/h measured both ways; the drag area follows from it.',
    },
    rules: {
      resolution: { speed_km_h: 2, flight_time_s: 5, cost: 5, margin: 0.02 },
      narrowed: true,
      speed_floor_km_h: 306,
      words: ['Flight time counts up to 4:30 min, the distance to the design load up to 25 %.'],
    },
    counts: {
      raw: 1_234_500,
      compatible: 310_212,
      misfits: [
        { rule: 'motor-bore', words: 'motor too fat for the fan', count: 522_174 },
        { rule: 'battery-bay', words: 'packs that do not fit the battery bay', count: 402_114 },
      ],
      front: count,
      purchases: Math.ceil(count / 3),
    },
    front,
    picks: count === 0 ? [] : picks(front, hostile),
    knee: knee(front, namer(hostile)),
    staircase: staircase(front, namer(hostile)),
    nearest: outcome === 'reached' ? [] : [nearMiss(0, known), nearMiss(1, known)],
    relaxations: outcome === 'reached' ? [] : relaxations(nearMiss(0, known), namer(hostile)),
    drag_work: dragWork(namer(hostile)),
    names: known,
    assumptions: ['Fan efficiency does not fall with size below 70 mm.', 'The nozzle turns the flow without loss.'],
    cautions,
  }
}

/** The same with an airframe whose wing flutters from that speed on. */
export function allowing(result: Result, speed_km_h: number): Result {
  const speed_limits = [{ criterion: 'wing-flutter', words: 'flutter of the wing', speed_km_h }]
  return { ...result, airframe: { ...result.airframe, speed_limits } }
}

export function setupReport(wish: { readonly refused?: boolean; readonly hostile?: boolean } = {}): SetupReport {
  const result = answer({ hostile: wish.hostile ?? false })
  const { airframe, mass, field, profile, run, limits, owned, title, sweep } = result.understood
  const best = result.front[0]!
  const refused = wish.refused ?? false
  return {
    format: 'ductwright-setup/1',
    model_version: result.model_version,
    catalogue: result.catalogue,
    understood: {
      title,
      airframe,
      setup: best.setup,
      treatments: result.understood.treatments,
      target: result.understood.target.speed,
      mass,
      field,
      profile,
      run,
      limits,
      owned,
      charge: sweep.charge,
    },
    airframe: result.airframe,
    air: result.air,
    refused: refused
      ? [{ rule: 'cell-count', words: 'The pack has 12 cells, the speed controller takes 8 at most.' }]
      : [],
    figures: refused ? null : best.figures,
    study: refused ? null : result.picks[0]!.study,
    shopping: best.shopping,
    cost: best.raw.cost,
    replacement_cost: best.replacement_cost,
    names: result.names,
    assumptions: result.assumptions,
    cautions: result.cautions,
  }
}
