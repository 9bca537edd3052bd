// Small random sweeps from a seed: a generated catalogue of a few parts and a request that draws on everything a request
// can say, so that shortcuts and merges are tested on questions nobody thought of.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { parseRequest } from '@ductwright/contract/parse-request'
import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { speedLimits } from '@ductwright/models/structure/speed-limits'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'

export const quiet = { progress() {}, cancelled: () => false }

export interface RandomSweep {
  readonly catalogue: Catalogue
  readonly request: Record<string, unknown>
  readonly prepared: Prepared
}

export function randomSweep(seed: number): RandomSweep {
  const random = new RandomStream(seed, 'random sweep')
  const catalogue = generateCatalogue({
    seed,
    fans: random.whole(3, 4),
    motors: random.whole(3, 5),
    escs: 3,
    packs: random.whole(3, 4),
    airframes: 1,
  })
  const request = randomRequest(catalogue, random)
  return { catalogue, request, prepared: prepare(parseRequest(request), catalogue) }
}

const DUTIES = [
  [0.7, 0.85, 1],
  [0.5, 0.6, 0.7, 0.8, 0.9, 1],
  [0.62, 0.98],
  [0.55, 0.75, 0.95],
]

function randomRequest(catalogue: Catalogue, random: RandomStream): Record<string, unknown> {
  const airframe = catalogue.airframes[0]?.part
  const limits = airframe === undefined ? [] : speedLimits(airframe, standardAtmosphere(0))
  const design = Math.min(...limits.map(({ speed }) => speed)) * 3.6
  const mass = airframe?.takeOffMassLimit ?? 4
  const entryHeight = random.pick([0, 0, 0, 20, 50, 100])
  const bases = entryHeight > 0 ? ['steady', 'in-run', 'dive', 'dive'] : ['steady', 'steady', 'in-run']
  const sometimes = (share: number, fields: Record<string, unknown>) => (random.share() < share ? fields : {})
  const fixed = random.share() < 0.25
  return {
    target: { speed_km_h: random.around(0.7 * design, 0.4), basis: random.pick(bases) },
    airframe: { id: airframe?.id },
    ...(airframe?.dragGeometry ? sometimes(0.3, { treatments: ['polish', 'seal-gaps'] }) : {}),
    ...sometimes(0.4, { budget: random.pick([60, 250, 400, 600, 900]) }),
    ...(fixed ? { mass: { fixed_kg: mass * random.between(0.8, 1) } } : {}),
    field: { elevation_m: random.between(0, 1500), temperature_c: random.between(-5, 35), runway_m: 150 },
    profile: {
      flight_time_min: random.between(1.5, 5),
      full_throttle_share: random.between(0.1, 0.6),
      pass_s: random.pick([8, 12, 25]),
      cruise_speed_km_h: 90,
      load_factor: random.between(2, 8),
      ...sometimes(0.3, { turn_radius_m: random.between(40, 150), pull_up_radius_m: random.between(60, 200) }),
    },
    run: {
      length_m: random.between(150, 1000),
      // In tenths, so that entries at just the level speed are among them.
      entry_speed_share: Math.round(10 * random.between(0.4, 1.2)) / 10,
      entry_height_m: entryHeight,
      dive_angle_deg: random.between(10, 60),
    },
    wanted: { margin: random.pick([0.1, 0.25, 0.5]) },
    limits: {
      headroom: random.pick([0, 0.1, 0.2]),
      margin: random.pick([0, 0, 0.1]),
      stall_speed_km_h: 110,
      thrust_to_weight: random.pick([0, 0.3, 0.5]),
      ...sometimes(0.3, { flight_time_min: 2 }),
    },
    sweep: {
      duties: random.pick(DUTIES),
      nozzle_ratios: [random.between(0.78, 0.86), random.between(0.87, 0.95)],
      whole_front: random.share() < 0.4,
      ...sometimes(0.4, { resolution: { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 } }),
    },
  }
}
