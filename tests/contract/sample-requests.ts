// Requests for the tests: the least one, one with every field, and an airframe given in full. All parts are invented.

export const least = { target: { speed_km_h: 360 }, airframe: { id: 'jet-one' } }

export const setup = {
  fan: 'fan-one',
  motor: 'motor-one',
  esc: 'esc-one',
  timing_deg: 15,
  pack: 'pack-one',
  arrangement: 'series',
  nozzle_ratio: 0.88,
  duty: 1,
}

export const givenAirframe = {
  id: 'own-jet',
  name: 'Own jet',
  material: 'composite',
  drag_area_m2: 0.0052,
  span_mm: 1100,
  wing_area_dm2: 26,
  oswald_factor: 0.8,
  lift_coefficient_max: 1,
  empty_mass_g: 2350,
  take_off_mass_limit_g: 4400,
  fan_diameter_min_mm: 88,
  fan_diameter_max_mm: 105,
  exit_diameter_min_mm: 70,
  exit_diameter_max_mm: 95,
  duct_loss: 0.12,
  inlet_loss: 0.06,
  inlet_area_cm2: 62,
  lip_loss: 0.15,
  ram_recovery: 0.95,
  bay_length_mm: 320,
  bay_width_mm: 90,
  bay_height_mm: 80,
  design_speed_km_h: 430,
  design_speed_basis: 'flutter estimate over 1.5',
  root_moment_ultimate_nm: 130,
  mount_load_n: 130,
  launch: 'wheels',
  centre_of_gravity_mm: 560,
  empty_station_mm: 600,
  fan_station_mm: 700,
  esc_station_mm: 450,
  pack_station_min_mm: 250,
  pack_station_max_mm: 480,
  nose_ballast_station_mm: 40,
  tail_ballast_station_mm: 1150,
  ballast_limit_g: 300,
}

export const full = {
  title: 'Everything said',
  address: 'Pilot@Example.ORG',
  target: { speed_km_h: '324 km/h', basis: 'in-run' },
  budget: '900 EUR',
  airframe: {
    given: givenAirframe,
    measured: { setup, speed_km_h: 288, basis: 'steady', speed_uncertainty: '2 %' },
  },
  mass: { limit_kg: 4.5 },
  field: { elevation_m: 200, temperature_c: 20, runway_m: 90, rolling_friction: 0.08 },
  profile: {
    flight_time_min: 4.5,
    full_throttle_share: '30 %',
    pass_s: 12,
    cruise_speed_km_h: 144,
    reserve: 0.25,
    load_factor: 8,
  },
  run: { length_m: 300, entry_speed_share: 0.7, entry_height_m: 50 },
  owned: [{ id: 'pack-two', count: 2 }, 'fan-one'],
  required: ['fan-one', 'esc-one', 'fan-one'],
  excluded: ['motor-two'],
  wanted: { flight_time_min: 5, margin: 0.3 },
  wishes: { weights: { speed: 3, time: 0, cost: '2' }, expression: 'speed_km_h-0.05*cost' },
  limits: { margin: 0.1, headroom: 0.15, stall_speed_km_h: 72, thrust_to_weight: 0.5, flight_time_min: 3 },
  sweep: {
    duties: [1, 0.8, '90 %', 0.8],
    nozzle_ratios: [0.9, 0.85],
    arrangements: ['parallel', 'single'],
    charge: 0.8,
    resolution: { speed_km_h: 3.6, flight_time_s: 10, cost: 1, margin: 0 },
    whole_front: true,
  },
}

/** The least request with one more field, named by its path. */
export function withField(path: string, value: unknown): unknown {
  const request = structuredClone(least) as Record<string, unknown>
  const steps = path.split('.')
  let at = request
  for (const step of steps.slice(0, -1)) {
    at[step] ??= {}
    at = at[step] as Record<string, unknown>
  }
  at[steps.at(-1)!] = value
  return request
}
