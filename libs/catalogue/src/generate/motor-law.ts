// Figures of an invented motor from its family, the fan size it goes behind, and the cell count its wind is meant for.
// The can decides the mass, the mass decides the motor constant, limits and heat, the wind decides the speed constant.
// Assumed: every law, such as Kv²·R = 1/Km² with Km² growing as mass to the 5/3.
import type { motorColumns } from '../rows/motor-row.js'
import { CONTINUOUS_SHARE } from '../rows/motor-row.js'
import { type MotorFamily, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toPrice, toStep } from './rounding.js'
import { ROOMY_SIZE, type SizeClass, sizeClass } from './size-class.js'

export type MotorCells = Row<typeof motorColumns>
type MotorChoice = MotorFamily['motors'][number]

/** Mean density of a can with winding, magnets and shaft, kg/m³. */
const DENSITY = 4500
/** Shaft speed over speed constant times nominal volts (3.57 per cell) of a fan's standing point. */
const LOADED_VOLTS_PER_CELL = 3.57
/** Input for 15 s in airflow that heats a winding of the reference limit to it, W/kg; heat grows as power squared. */
const POWER_PER_MASS = 15_500
const REFERENCE_LIMIT_C = 150
const AIR_C = 30
/** Highest temperature of neodymium magnets by grade, °C; from memory. */
const MAGNET_LIMIT_C = { M: 100, H: 120, SH: 150 }
const RPM = Math.PI / 30

export function motorCells(family: MotorFamily, choice: MotorChoice, seed: number, currency: string): MotorCells {
  const kind = sizeClass(choice.size)
  const random = new RandomStream(
    seed,
    `motor ${family.maker} ${family.name} ${choice.size} ${choice.cells} ${choice.wind}`,
  )
  const can = can_(family, kind, seed)
  const kv = speedConstant(family, kind, choice)
  const kvSi = kv * RPM
  const mass = can.mass
  const constantSquared = 6.5e-3 * (mass / 0.33) ** (5 / 3) * family.quality
  const power = random.around(
    POWER_PER_MASS * mass * Math.sqrt((family.windingLimit_c - AIR_C) / (REFERENCE_LIMIT_C - AIR_C)),
    0.04,
  )
  const label = `${can.diameter}${can.length}-${kv}`
  return {
    id: slug('motor', family.name, label),
    maker: family.maker,
    name: `${family.name} ${label}`,
    speed_constant_rpm_per_v: kv,
    timing_reference_deg: family.timing_deg,
    resistance_mohm: toDigits(random.around(1000 / (kvSi * kvSi * constantSquared), 0.05), 3),
    no_load_current_a: toDigits(random.around(kvSi * mass * 0.058, 0.08), 3),
    no_load_current_slope_a_per_krpm: toDigits(random.around(kvSi * mass * 1.39e-5 * 1000 * RPM, 0.08), 3),
    pole_pairs: family.polePairs,
    can_diameter_mm: can.diameter,
    can_length_mm: can.length,
    shaft_diameter_mm: kind.shaft_mm,
    cells_max: choice.cells + (choice.cells >= 6 ? 2 : 1),
    speed_limit_rpm: toStep(random.around(52_000 * (90 / choice.size) ** 0.6, 0.05), 500),
    current_limit_a: toStep(power / (choice.cells * 3.35), choice.size < 70 ? 1 : 5),
    power_limit_w: toStep(power, 50),
    continuous_current_a: toStep((CONTINUOUS_SHARE * power) / (choice.cells * 3.35), choice.size < 70 ? 1 : 5),
    continuous_power_w: toStep(CONTINUOUS_SHARE * power, 50),
    winding_temperature_limit_c: family.windingLimit_c,
    magnet_temperature_limit_c: MAGNET_LIMIT_C[family.magnets],
    winding_heat_capacity_j_per_k: toDigits(0.2 * mass * 385, 3),
    case_heat_capacity_j_per_k: toDigits(0.8 * mass * 480, 3),
    winding_to_case_conductance_w_per_k: toDigits(random.around(7 * (mass / 0.33), 0.1), 3),
    case_to_air_conductance_w_per_k: toDigits(random.around(2.5 * (mass / 0.33) ** (2 / 3), 0.1), 3),
    mass_g: Math.round(1000 * mass),
    price: toPrice(family.price * random.around(20 + 300 * mass, 0.05)),
    currency,
  }
}

/** One can for all winds of a family in a size, as makers do. */
function can_(family: MotorFamily, kind: SizeClass, seed: number) {
  const random = new RandomStream(seed, `can ${family.maker} ${family.name} ${kind.size}`)
  const diameter = kind.can + Math.min(family.canStep, kind.size >= ROOMY_SIZE ? 1 : 0)
  const length = Math.round(diameter * Math.min(2, Math.max(1.3, random.around(family.slenderness, 0.03))))
  const volume = (Math.PI / 4) * (diameter / 1000) ** 2 * (length / 1000)
  return { diameter, length, mass: Math.round(1000 * random.around(DENSITY * volume, 0.03)) / 1000 }
}

/**
 * Speed constant of a choice, rounded as makers round it. Where an earlier wind of the same can already has that number,
 * the next free one, since the number is the name.
 */
function speedConstant(family: MotorFamily, kind: SizeClass, choice: MotorChoice): number {
  const taken = new Set<number>()
  for (const other of family.motors.filter(({ size }) => size === kind.size)) {
    let kv = rounded(windSpeedConstant(kind, other))
    while (taken.has(kv)) kv = rounded(kv + stepOf(kv))
    if (other.cells === choice.cells && other.wind === choice.wind) return kv
    taken.add(kv)
  }
  throw new RangeError(`motor family ${family.name} has no ${choice.size} mm motor for ${choice.cells} cells`)
}

function windSpeedConstant(kind: SizeClass, { cells, wind }: MotorChoice): number {
  const aim = kind.winds.find((each) => each.cells === cells)
  if (aim === undefined) {
    const known = kind.winds.map((each) => each.cells).join(', ')
    throw new RangeError(`a ${kind.size} mm fan is not flown on ${cells} cells; choose from ${known}`)
  }
  const rpm = aim.tipSpeed / ((kind.size / 2000) * RPM)
  return (wind * rpm) / (cells * LOADED_VOLTS_PER_CELL)
}

function stepOf(kv: number): number {
  return kv < 1000 ? 5 : kv < 2500 ? 10 : 50
}

function rounded(kv: number): number {
  return toStep(kv, stepOf(kv))
}
