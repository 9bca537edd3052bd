// A believable study, airframe and air to go with the fixture's figures: bands about every figure, a flight of two passes,
// clean-up work. Only shape and size matter here; what the models really say is tested elsewhere.
import type {
  AirFigures,
  AirframeFigures,
  FlightFigures,
  PhaseFigures,
  Sensitivity,
  SetupFigures,
  SetupStudy,
} from '@ductwright/contract/result'

export const airframe: AirframeFigures = {
  id: 'airframe-0',
  name: 'Skarv composite',
  drag_area_m2: 0.009234,
  drag_basis: 'measured',
  drag_terms: [
    { term: 'wing-friction', words: 'skin of the wing', area_m2: 0.003612 },
    { term: 'body-friction', words: 'skin of the fuselage', area_m2: 0.003048 },
    { term: 'control-gaps', words: 'hinge gaps', area_m2: 0.00131 },
    { term: 'gear', words: 'landing gear', area_m2: 0.00173 },
  ],
  treatments: [{ kind: 'seal-gaps', words: 'Seal the hinge gaps with film', price: 10.9, hours: 4.5, mass_g: 16 }],
  speed_limits: [
    { criterion: 'wing-flutter', words: 'flutter of the wing', speed_km_h: 431.8 },
    { criterion: 'servo-torque', words: 'torque of the servos at full speed', speed_km_h: 462.3 },
  ],
}

export const air: AirFigures = {
  elevation_m: 203,
  temperature_c: 21.3,
  pressure_hpa: 989.6,
  density_kg_m3: 1.1712,
  sound_speed_m_s: 344.2,
  viscosity_upa_s: 18.19,
}

/** Six per cent to either side of every number; a list goes by the key of its items. */
function bandsOf(figures: SetupFigures): SetupStudy['bands'] {
  const bands: Record<string, readonly [number, number]> = {}
  const note = (path: string, value: unknown): void => {
    if (typeof value === 'number') bands[path] = [value - Math.abs(value) * 0.06, value + Math.abs(value) * 0.07]
    else if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) note(path === '' ? key : `${path}.${key}`, inner)
    }
  }
  note('', figures)
  for (const { criterion, margin } of figures.margins) note(`margins.${criterion}`, margin)
  for (const { limit, used } of figures.limits) note(`limits.${limit}`, used)
  delete bands['residual']
  delete bands['cells']
  return bands
}

function phase(name: string, words: string, start: number, time: number, speed: number, charge: number): PhaseFigures {
  return {
    phase: name,
    words,
    start_s: start,
    time_s: time,
    speed_km_h: speed,
    duty: 0.4 + speed / 700,
    pack_voltage_v: 49.9 - speed / 70 - start / 90,
    pack_current_a: speed / 3.1,
    motor_current_a: speed / 2.9,
    pack_power_w: speed * 14.3,
    charge_left: charge,
    winding_c: 41.6 + start / 4,
    case_c: 36.4 + start / 5,
    esc_c: 34.8 + start / 6,
    pack_c: 31.2 + start / 16,
  }
}

const flight: FlightFigures = {
  phases: [
    phase('take-off', 'take-off', 0, 3.4, 51.4, 0.995),
    phase('climb', 'climb', 3.4, 6.2, 142, 0.975),
    phase('pass', 'first pass', 9.6, 10, 366, 0.93),
    phase('turn', 'turn', 19.6, 5.1, 161, 0.92),
    phase('cruise', 'cruise', 24.7, 25, 160, 0.87),
    phase('pass', 'last pass', 213.4, 10, 338, 0.24),
    phase('approach', 'approach', 223.4, 25.5, 80, 0.21),
  ],
  passes: 7,
  ended_by: 'time',
  charge_used_mah: 3950,
  energy_used_wh: 151.4,
  time_to_reserve_s: 287,
  least_pack_voltage_v: 41.36,
  first_pass_km_h: 366.2,
  last_pass_km_h: 338.4,
  peak_winding_c: 106.4,
  peak_case_c: 81.2,
  peak_esc_c: 72.7,
  peak_pack_c: 48.9,
  full_throttle_s: 42.6,
  full_throttle_ends: 'motor winding temperature',
  cool_down_s: 18.3,
}

const sensitivity: Sensitivity = {
  km_h_per_100_w: 1.94,
  km_h_per_10_cm2_less: 13.2,
  km_h_per_100_g_less: 0.62,
  km_h_per_nozzle_point_less: 0.83,
  km_h_per_m_s_efflux: 2.27,
  km_h_per_mohm_less: 0.71,
  treatments: [
    {
      kind: 'polish',
      words: 'Fill, sand and polish the skin',
      price: 42.9,
      hours: 24.5,
      mass_g: 81,
      gain_km_h: 8.6,
      drag_area_cut_m2: 0.00064,
    },
    {
      kind: 'hide-horns',
      words: 'Move horns and linkages inside',
      price: 37.9,
      hours: 8.5,
      mass_g: 19,
      gain_km_h: 5.4,
      drag_area_cut_m2: 0.00041,
    },
  ],
  all_treatments_km_h: 14.3,
  first_move: 'Clean it up before you buy power: hiding the horns gains 5 km/h for 37.90 EUR.',
}

/** The study of a setup with these figures; words of clean-up work as given, for names that try what names can try. */
export function study(figures: SetupFigures, named: (plain: string, at: number) => string): SetupStudy {
  const treatments = sensitivity.treatments.map((work, at) => ({ ...work, words: named(work.words, at) }))
  return {
    samples: 256,
    seed: 20_261,
    bands: bandsOf(figures),
    reaches_target: 0.63,
    flies: 0.97,
    holds: [
      { limit: 'esc-current', words: 'speed controller current', odds: 0.83 },
      { limit: 'winding-temperature', words: 'motor winding temperature', odds: 0.957 },
    ],
    drivers: [
      { input: 'drag-area', words: 'drag area', share: 0.58 },
      { input: 'fan-efficiency', words: 'fan efficiency', share: 0.17 },
      { input: 'motor-speed-constant', words: 'speed constant of the motor', share: 0.11 },
      { input: 'cell-resistance', words: 'resistance of the cells', share: 0.03 },
    ],
    flight,
    sensitivity: { ...sensitivity, treatments, first_move: named(sensitivity.first_move, 6) },
    pack_claim: named('The label claims 65 C; 38 C is believable for cells of this resistance.', 3),
  }
}
