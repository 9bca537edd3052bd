// One setup studied: bands of every figure and odds of every limit from a seeded run over all tolerances, the flight as
// phases, what top speed responds to and the first move, and what the pack's label claims.
import type { Catalogue, ListedPack } from '@ductwright/catalogue/catalogue'
import { figure } from '@ductwright/contract/figures'
import type { OwnedPart, SetupChoice } from '@ductwright/contract/request'
import type { SetupFigures, SetupStudy } from '@ductwright/contract/result'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { believableRate } from '@ductwright/models/pack/believable-rate'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { STANDARD_SAMPLES, type Study, studySetup } from '@ductwright/models/uncertainty/study'
import {
  MEASURED_CELL_RESISTANCE,
  measuredDragArea,
  Tolerances,
  type VariedInput,
} from '@ductwright/models/uncertainty/tolerances'
import type { AirframeChoice } from './airframe-choice.js'
import { numbersOf } from './figure-paths.js'
import { figuresOf, plain } from './figures-of.js'
import { flightFigures, timelineOf } from './flight-figures.js'
import { LIMIT_WORDS } from './limit-words.js'
import { isMeasured } from './pack-condition.js'
import { sensitivityOf } from './sensitivity-of.js'

/** One seed for all, so that the same request gives the same bytes. */
const SEED = 1
/** Inputs that explain less of the spread than this are not named. */
const WORTH_NAMING = 0.02

const INPUT_WORDS: Readonly<Record<VariedInput, string>> = {
  'fan-pressure-rise': 'pressure rise of the fan',
  'fan-efficiency': 'efficiency of the fan',
  'duct-loss': 'losses of duct and inlet',
  'ram-recovery': 'ram recovery of the inlet',
  'motor-speed-constant': 'speed constant of the motor',
  'motor-resistance': 'resistance of the motor',
  'no-load-current': 'no-load current of the motor',
  'motor-cooling': 'cooling of the motor',
  'esc-resistance': 'resistance of the speed controller',
  'esc-cooling': 'cooling of the speed controller',
  'cell-resistance': 'resistance of the cells',
  'cell-voltage': 'voltage of the cells',
  capacity: 'capacity of the pack',
  'drag-area': 'drag area of the airframe',
  'oswald-factor': 'span efficiency of the wing',
  'take-off-mass': 'take-off mass',
  'lift-coefficient': 'highest lift coefficient',
  'air-temperature': 'air temperature',
  'air-pressure': 'air pressure',
  'wing-stiffness': 'torsional stiffness of the wing',
  'tail-stiffness': 'torsional stiffness of the tail',
  'linkage-stiffness': 'stiffness of the linkages',
  'servo-torque': 'torque of the servos',
  'wing-strength': 'bending strength of the wing',
  'mount-strength': 'strength of the fan mount',
}

/** What is studied. */
export interface Studied {
  readonly circumstances: Circumstances
  readonly setup: SetupChoice
  readonly parts: Parts
  readonly duty: number
  readonly detail: SetupDetail
  readonly figures: SetupFigures
  readonly chosen: AirframeChoice
  readonly catalogue: Catalogue
  readonly owned: readonly OwnedPart[]
  /** m/s; null: none */
  readonly target: number | null
}

export function studyOf(studied: Studied): SetupStudy {
  const { circumstances, parts, duty, detail, setup, target, chosen, catalogue } = studied
  const paths = [...numbersOf(studied.figures).keys()]
  const { fan } = parts.node.duct
  const study = studySetup(
    { fan, nozzleRatio: setup.nozzle_ratio, parts, circumstances },
    duty,
    { seed: SEED, tolerances: tolerancesOf(studied), targetSpeed: target ?? 0 },
    (sample) => {
      const numbers = numbersOf(figuresOf(sample, fan, setup.nozzle_ratio, ''))
      return paths.map((path) => numbers.get(path) ?? Number.NaN)
    },
  )
  return {
    samples: STANDARD_SAMPLES,
    seed: SEED,
    bands: bandsOf(paths, study),
    reaches_target: target === null ? null : plain(study.reaches),
    flies: plain(study.flies),
    holds: study.limits.flatMap(({ limit, holds }) =>
      holds === null || holds === 1 ? [] : [{ limit, words: LIMIT_WORDS[limit], odds: plain(holds) }],
    ),
    drivers: study.speedDrivers
      .filter(({ share }) => share >= WORTH_NAMING)
      .map(({ input, share }) => ({ input, words: INPUT_WORDS[input], share: plain(share) })),
    flight: flightFigures(timelineOf(circumstances, parts, duty, detail)),
    sensitivity: sensitivityOf(detail, chosen, catalogue),
    pack_claim: packClaim(listedPack(catalogue, setup.pack)),
  }
}

/** Tolerances of the table, narrowed where the owner has measured. */
function tolerancesOf({ chosen, setup, owned }: Studied): Tolerances {
  const { present } = chosen
  return Tolerances.standard.with({
    ...(present === null ? {} : { 'drag-area': measuredDragArea(present.estimate) }),
    ...(isMeasured(setup.pack, owned) ? { 'cell-resistance': MEASURED_CELL_RESISTANCE } : {}),
  })
}

function bandsOf(paths: readonly string[], study: Study): SetupStudy['bands'] {
  return Object.fromEntries(
    paths.flatMap((path, i) => {
      const band = study.bands[i] ?? null
      return band === null ? [] : [[path, [plain(band.low), plain(band.high)] as const]]
    }),
  )
}

function listedPack(catalogue: Catalogue, id: string): ListedPack {
  const pack = catalogue.packs.find(({ part }) => part.id === id)
  if (pack === undefined) throw new RangeError(`part ${id} is not in the catalogue`)
  return pack
}

/** The label is a claim; what a pack can be believed to give follows from its resistance. */
function packClaim({ part, labelRate }: ListedPack): string {
  const amperes = (part.capacity / 3600) * labelRate
  const believable = believableRate(part.cellResistance, part.capacity)
  return `The label claims ${figure('count', labelRate)} C, which would be ${figure('current', amperes)}; from its resistance about ${figure('count', believable)} C is believable. Limits here: ${figure('current', part.continuousCurrent)} lasting, ${figure('current', part.currentLimit)} in passes.`
}
