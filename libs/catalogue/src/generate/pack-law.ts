// Figures of an invented lithium-polymer pack from its family, cell count and capacity. One quality number, k = cell
// resistance times capacity, drives resistance, believable current, mass and price; the label boasts beyond it.
// Assumed: every law, the currents a soldered bullet stands for 15 s, and the wire that goes into it.
import { believableRate } from '@ductwright/models/pack/believable-rate'
import { contactResistance, wireResistance } from '@ductwright/models/pack/leads'
import type { packColumns } from '../rows/pack-row.js'
import { type PackFamily, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toPrice, toStep } from './rounding.js'

export type PackCells = Row<typeof packColumns>

/** Bullet, the continuous current up to which makers fit it and what it stands for 15 s, A, and the gauge of its lead. */
export const BULLETS = [
  { connector: 'bullet 4 mm', fittedUpTo: 75, limit_a: 120, gauge_awg: 12 },
  { connector: 'bullet 5.5 mm', fittedUpTo: 130, limit_a: 180, gauge_awg: 10 },
  { connector: 'bullet 6.5 mm', fittedUpTo: 200, limit_a: 260, gauge_awg: 10 },
  { connector: 'bullet 8 mm', fittedUpTo: Number.POSITIVE_INFINITY, limit_a: 340, gauge_awg: 8 },
] as const

/** Mean density of a wrapped pack, g/cm³. */
const DENSITY = 1.95
/** Up to this many cells lie in one stack; more lie in two, end to end. */
const ONE_STACK = 8

export function packCells(
  family: PackFamily,
  { cells, capacity_mah }: PackFamily['packs'][number],
  seed: number,
  currency: string,
): PackCells {
  const random = new RandomStream(seed, `pack ${family.maker} ${family.name} ${cells} ${capacity_mah}`)
  const charge = capacity_mah / 1000
  const k = random.around(family.k, 0.05)
  const mass = random.around(cells * charge * (0.0205 + 3e-5 / k) + 0.03, 0.03)
  const rate = believableRate(k / charge, 3600 * charge)
  const continuous = Math.round(rate * charge)
  const bullet = BULLETS.find((each) => continuous <= each.fittedUpTo)!
  const label = toStep(rate * family.boast, 5)
  return {
    id: slug('pack', family.name, `${cells}s`, capacity_mah),
    maker: family.maker,
    name: `${family.name} ${cells}S ${capacity_mah} mAh ${label}C`,
    cells,
    capacity_mah,
    label_rate_c: label,
    cell_resistance_mohm: toDigits((1000 * k) / charge, 3),
    lead_resistance_mohm: '',
    lead_gauge_awg: bullet.gauge_awg,
    lead_length_mm: leadLength(bullet, toStep(random.between(0.9, 1.3) + (charge < 3 ? 0.6 : 0), 0.1)),
    continuous_current_a: continuous,
    current_limit_a: Math.min(Math.round(1.5 * continuous), bullet.limit_a),
    connector: bullet.connector,
    ...dimensions(cells, charge, mass),
    heat_capacity_j_per_k: Math.round(0.92 * mass * 1050),
    temperature_limit_c: 60,
    mass_g: Math.round(1000 * mass),
    price: toPrice(family.price * random.around(cells * charge * (1.6 + 0.016 / k), 0.05)),
    currency,
  }
}

/** Length at which both leads and both contacts have a resistance, mm in fives. */
function leadLength({ connector, gauge_awg }: (typeof BULLETS)[number], resistance_mohm: number): number {
  const wire = resistance_mohm / 2 - 1000 * contactResistance(connector)
  return toStep(wire / wireResistance(gauge_awg, 1), 5)
}

function dimensions(cells: number, charge: number, mass: number) {
  const stacks = cells > ONE_STACK ? 2 : 1
  const length = 88 + 13 * charge
  const width = 28 + 3.8 * charge
  const volume = (mass * 1e6) / DENSITY / stacks
  return {
    length_mm: Math.round(length * stacks),
    width_mm: Math.round(width),
    height_mm: Math.round(volume / (length * width)),
  }
}
