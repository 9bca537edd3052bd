// One setup studied: bands of every figure and odds of every limit from a seeded run over all tolerances, the flight as
// phases, what top speed responds to and the first move, and what the pack's label claims.
import type { Catalogue, ListedPack, ListedTreatment } from '@ductwright/catalogue/catalogue'
import { figure } from '@ductwright/contract/figures'
import type { OwnedPart, SetupChoice } from '@ductwright/contract/request'
import type { FlightFigures, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { Limit } from '@ductwright/models/evaluation/limits'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { Timeline } from '@ductwright/models/flight/timeline'
import { believableRate } from '@ductwright/models/pack/believable-rate'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { STANDARD_SAMPLES, type Study, studySetup } from '@ductwright/models/uncertainty/study'
import {
  MEASURED_CELL_RESISTANCE,
  measuredDragArea,
  type ToleranceChange,
  Tolerances,
  type VariedInput,
} from '@ductwright/models/uncertainty/tolerances'
import type { AirframeChoice } from './airframe-choice.js'
import { figureReader, numbersOf } from './figure-paths.js'
import { figuresOf, plain } from './figures-of.js'
import { flightFigures } from './flight-figures.js'
import { LIMIT_WORDS } from './limit-words.js'
import { isMeasured } from './pack-condition.js'
import { sensitivityOf } from './sensitivity-of.js'
import type { WorkGains } from './work-gain.js'

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

/** What is studied, as far as it is no matter of money: all that its figures follow from. */
export interface StudiedPhysics {
  readonly circumstances: Circumstances
  readonly parts: Parts
  readonly duty: number
  readonly nozzleRatio: number
  /** m/s; null: none */
  readonly target: number | null
  /** Where the owner has measured. */
  readonly narrowed: Readonly<Partial<Record<VariedInput, ToleranceChange>>>
}

/** What its words follow from besides. */
export interface Studied {
  readonly setup: SetupChoice
  readonly detail: SetupDetail
  readonly figures: SetupFigures
  readonly target: number | null
  readonly catalogue: Catalogue
  /** Work not done yet, and what it would bring. */
  readonly open: readonly ListedTreatment[]
  readonly gains: WorkGains
}

/** What comes out whatever the parts cost, in plain units. */
export interface PhysicsStudy {
  /** By the paths of all figures but the share of the budget. */
  readonly bands: SetupStudy['bands']
  readonly reaches: number
  readonly flies: number
  readonly holds: readonly { readonly limit: Limit; readonly odds: number }[]
  readonly drivers: readonly { readonly input: VariedInput; readonly share: number }[]
  readonly flight: FlightFigures
}

/** Of a setup without budget and cost, with its detail and flight. */
export function physicsStudy(physics: StudiedPhysics, detail: SetupDetail, timeline: Timeline): PhysicsStudy {
  const { circumstances, parts, duty, nozzleRatio, target, narrowed } = physics
  const { fan } = parts.node.duct
  const unrounded = (of: SetupDetail) => figuresOf(of, fan, nozzleRatio, '', (value) => value)
  const paths = [...numbersOf(unrounded(detail)).keys()]
  const numbers = figureReader(paths)
  const study = studySetup(
    { fan, nozzleRatio, parts, circumstances },
    duty,
    { seed: SEED, tolerances: Tolerances.standard.with(narrowed), targetSpeed: target ?? 0, round: plain },
    (sample) => numbers(unrounded(sample)),
  )
  return {
    bands: bandsOf(paths, study),
    reaches: plain(study.reaches),
    flies: plain(study.flies),
    holds: study.limits.flatMap(({ limit, holds }) =>
      holds === null || holds === 1 ? [] : [{ limit, odds: plain(holds) }],
    ),
    drivers: study.speedDrivers
      .filter(({ share }) => share >= WORTH_NAMING)
      .map(({ input, share }) => ({ input, share: plain(share) })),
    flight: flightFigures(timeline),
  }
}

/** The whole study, in words and with what work and label say. */
export function studyOf(studied: Studied, physics: PhysicsStudy): SetupStudy {
  const { target, catalogue, setup } = studied
  return {
    samples: STANDARD_SAMPLES,
    seed: SEED,
    bands: withBudgetBand(physics.bands, studied.figures),
    reaches_target: target === null ? null : physics.reaches,
    flies: physics.flies,
    holds: physics.holds.map(({ limit, odds }) => ({ limit, words: LIMIT_WORDS[limit], odds })),
    drivers: physics.drivers.map(({ input, share }) => ({ input, words: INPUT_WORDS[input], share })),
    flight: physics.flight,
    sensitivity: sensitivityOf(studied.detail, studied.open, studied.gains, catalogue.currency),
    pack_claim: packClaim(listedPack(catalogue, setup.pack)),
  }
}

/** Tolerances narrowed where the owner has measured. */
export function narrowedTolerances(
  { present }: AirframeChoice,
  pack: string,
  owned: readonly OwnedPart[],
): StudiedPhysics['narrowed'] {
  return {
    ...(present === null ? {} : { 'drag-area': measuredDragArea(present.estimate) }),
    ...(isMeasured(pack, owned) ? { 'cell-resistance': MEASURED_CELL_RESISTANCE } : {}),
  }
}

/** Prices are sure: the share of the budget has a band without width, in its place among the limits. */
function withBudgetBand(bands: SetupStudy['bands'], figures: SetupFigures): SetupStudy['bands'] {
  const used = figures.limits.find(({ limit }) => limit === 'budget')?.used
  if (used === undefined || Object.keys(bands).length === 0) return bands
  const all: SetupStudy['bands'] = { ...bands, 'limits.budget': [used, used] }
  const entries = [...numbersOf(figures).keys()].flatMap((path) => {
    const band = all[path]
    return band === undefined ? [] : [[path, band] as const]
  })
  return Object.fromEntries(entries)
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
