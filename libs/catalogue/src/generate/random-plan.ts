// Plans for catalogues of any size, from a seed: families are invented one after another until there are parts enough.
// Fan sizes, cell counts and current labels are drawn so that most parts find partners.
import { newWord } from './names.js'
import type { AirframeSpec, CataloguePlan, EscFamily, FanFamily, MotorFamily, PackFamily } from './plan.js'
import { RandomStream } from './random.js'
import { SIZE_CLASSES } from './size-class.js'

export interface GenerateOptions {
  /** Whole number; the same options give the same catalogue. */
  readonly seed: number
  readonly fans: number
  readonly motors: number
  readonly escs: number
  readonly packs: number
  readonly airframes: number
}

const SIZES = SIZE_CLASSES.map((each) => each.size)
const WINDS = [1, 0.94, 1.06]
const LABELS = [40, 60, 80, 100, 120, 130, 150, 160, 180, 200, 220, 250, 300]
const CAPACITIES = [2200, 3000, 3700, 4000, 4500, 5000, 5500, 6000]
const CELLS = [3, 4, 5, 6, 7, 8, 10, 12, 14]

export function randomPlan(options: GenerateOptions): CataloguePlan {
  checkCounts(options)
  const taken = new Set<string>()
  const invent = (what: string, index: number) => {
    const random = new RandomStream(options.seed, `${what} family ${index}`)
    const family = { maker: newWord(random, taken), name: newWord(random, taken), price: random.between(0.8, 1.35) }
    return { random, family }
  }
  return {
    seed: options.seed,
    name: `Generated catalogue, seed ${options.seed}`,
    currency: 'EUR',
    dated: '2026-01-01',
    fans: filled(options.fans, 'sizes', (i) => fanFamily(invent('fan', i), i)),
    motors: filled(options.motors, 'motors', (i) => motorFamily(invent('motor', i), i)),
    escs: filled(options.escs, 'labels', (i) => escFamily(invent('esc', i), i)),
    packs: filled(options.packs, 'packs', (i) => packFamily(invent('pack', i), i)),
    airframes: Array.from({ length: options.airframes }, (_, i) => airframeSpec(invent('airframe', i), i)),
    sets: Math.max(1, Math.round(options.fans / 4)),
  }
}

interface Invented {
  readonly random: RandomStream
  readonly family: { readonly maker: string; readonly name: string; readonly price: number }
}

const LARGEST_COUNT = 5000

function checkCounts(options: GenerateOptions): void {
  for (const key of ['fans', 'motors', 'escs', 'packs', 'airframes'] as const)
    if (!Number.isInteger(options[key]) || options[key] < 1 || options[key] > LARGEST_COUNT)
      throw new RangeError(`${key} ${options[key]} must be a whole number from 1 to ${LARGEST_COUNT}`)
}

/** Families until their members are `count`, the last one cut short. */
function filled<Key extends string, Family extends { readonly [K in Key]: readonly unknown[] }>(
  count: number,
  key: Key,
  make: (index: number) => Family,
): Family[] {
  const families: Family[] = []
  for (let left = count, i = 0; left > 0; i++) {
    const family = make(i)
    const members = family[key].slice(0, left)
    left -= members.length
    families.push({ ...family, [key]: members })
  }
  return families
}

/** Sizes in steps through the whole range, starting with the middle one, so that few families already cover it. */
function rotated<T>(list: readonly T[], start: number): T[] {
  return list.map((_, i) => list[(start + i) % list.length]!)
}

function fanFamily({ random, family }: Invented, index: number): FanFamily {
  return {
    ...family,
    construction: random.pick(['plastic', 'reinforced', 'reinforced', 'alloy', 'alloy', 'billet']),
    pitch: random.pick(['coarse', 'mid', 'mid', 'fine']),
    blades: random.whole(5, 12),
    quality: random.between(-0.03, 0.03),
    sizes: rotated(SIZES, 5 + 3 * index).slice(0, 5),
  }
}

function motorFamily({ random, family }: Invented, index: number): MotorFamily {
  const winds = random.pick([WINDS, WINDS.slice(0, 2)])
  const motors = rotated(SIZE_CLASSES, 5 + 3 * index)
    .slice(0, 4)
    .flatMap(({ size, winds: aims }) => aims.flatMap(({ cells }) => winds.map((wind) => ({ size, cells, wind }))))
  return {
    ...family,
    polePairs: random.pick([2, 2, 3, 5]),
    quality: random.between(0.85, 1.15),
    timing_deg: random.pick([5, 10, 15]),
    windingLimit_c: random.pick([130, 140, 150, 155]),
    canStep: random.pick([-1, 0, 0, 1]),
    slenderness: random.between(1.45, 1.95),
    magnets: random.pick(['H', 'SH', 'SH']),
    motors,
  }
}

function escFamily({ random, family }: Invented, index: number): EscFamily {
  const cells = (
    [
      [3, 8],
      [5, 12],
      [6, 14],
      [3, 6],
    ] as const
  )[index % 4]!
  const start = cells[1] <= 6 ? 0 : 2
  const resistance = random.between(0.85, 1.2)
  const synchronous = random.share() < 0.75
  return {
    ...family,
    cells,
    resistance,
    freewheel: synchronous ? 'synchronous' : 'diode',
    edges_ns: synchronous ? 100 : 140,
    frequency_khz: random.pick([8, 16, 24, 32]),
    electricalLimit_rpm: random.pick([220_000, 240_000, 280_000, 320_000]),
    timings_deg: random.pick([
      [5, 15, 25],
      [5, 10, 15, 20, 25],
      [0, 7.5, 15, 22.5, 30],
    ]),
    supply_a: cells[1] > 8 ? 0 : random.pick([5, 8, 10]),
    labels: LABELS.slice(start, start + 8),
  }
}

function packFamily({ random, family }: Invented, index: number): PackFamily {
  const k = [random.between(0.009, 0.012), random.between(0.006, 0.008), random.between(0.014, 0.02)][index % 3]!
  const capacities = rotated(CAPACITIES, 5 + 3 * index).slice(0, 3)
  const packs = rotated(CELLS, 3 + 2 * index).flatMap((cells) =>
    capacities.map((capacity_mah) => ({ cells, capacity_mah })),
  )
  return { ...family, k, boast: random.between(1.8, 3.5), packs }
}

function airframeSpec({ random, family }: Invented, index: number): AirframeSpec {
  const place = index === 0 ? 5 : random.whole(0, SIZES.length - 1)
  const size = SIZES[place]!
  const material = index === 0 ? 'composite' : random.pick(['foam', 'composite', 'carbon'] as const)
  return {
    ...family,
    name: `${family.name} ${size}`,
    material,
    size,
    fanSizes: [SIZES[Math.max(0, place - 1)]!, SIZES[Math.min(SIZES.length - 1, place + 1)]!],
    finish: random.share(),
    launch: random.pick(['wheels', 'wheels', 'bungee']),
    scatter: 0.08,
    limits: index === 0 ? 'structure' : random.pick(['structure', 'structure', 'both', 'stated']),
    drag: index === 0 ? 'itemised' : random.pick(['itemised', 'itemised', 'built-up', 'stated']),
  }
}
