// One setup worked through, for a terminal: every quantity with its unit and the band it scatters in, what is lost, how
// hot it gets, how far the airframe and each part are from their limits, how the flight goes, what it costs and what all
// of it rests on.

import { figure, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { SetupFigures } from '@ductwright/contract/result'
import type { SetupReport } from '@ductwright/contract/setup'
import { airWords, doneBlocks, dragBlocks, dragSentence, speedLimitPairs } from './airframe-words.js'
import { bandedPairs, bandNote, bracketed, durationBeside, type Row, type Study } from './banded.js'
import type { Block, Pair, Section } from './letter.js'
import { sectionsText, softened, wrap } from './plain.js'
import { flightSection } from './report-flight.js'
import { limitSections } from './report-limits.js'
import { pointSections } from './report-points.js'
import { packClaimSection, responseSection, spreadSection } from './report-study.js'
import { cautionsSection } from './section-basis.js'
import { partsLine, runWords, settings } from './setup-words.js'
import { costSentence, shoppingGrid } from './shopping.js'
import { oddsWords } from './study-words.js'

const width = 100

const speeds: readonly Row<SetupFigures>[] = [
  ['Steady level speed', 'speed_steady_km_h', 'speed'],
  ['Within the run', 'speed_in_run_km_h', 'speed'],
  ['Entering the run', 'speed_entry_km_h', 'speed'],
  ['At the bottom of the dive', 'speed_dive_km_h', 'speed'],
  ['Fastest, pack full, level or diving', 'speed_fastest_km_h', 'speed'],
  ['Structure allows', 'speed_allowed_km_h', 'speed'],
  ['Efflux allows at most', 'efflux_ceiling_km_h', 'speed'],
  ['Tightest turn at top speed, radius', 'turn_radius_m', 'distance'],
]

const drawn: readonly Row<SetupFigures>[] = [
  ['Mean current', 'mean_current_a', 'current'],
  ['Drawn from the packs', 'charge_used_mah', 'charge'],
]

const weights: readonly Row<SetupFigures>[] = [
  ['Flying mass', 'mass_kg', 'mass'],
  ['Ballast', 'ballast_kg', 'smallMass', 1000],
  ['Middle of the packs behind the nose', 'pack_station_mm', 'station'],
  ['Nozzle exit, across', 'nozzle_exit_mm', 'diameter'],
  ['Thrust over weight', 'thrust_to_weight', 'ratio'],
  ['Stalls at', 'stall_km_h', 'speed'],
  ['Stalls at, flaps down', 'stall_flaps_km_h', 'speed'],
  ['Lifts off at', 'lift_off_km_h', 'speed'],
  ['Comes in to land at', 'landing_km_h', 'speed'],
]

export function renderSetupReport(report: SetupReport): string {
  const title = wrap(`${inert(report.understood.title, 120)}: ${inert(report.airframe.name, 80)}`, width)
  const sections = [
    ...(report.refused.length > 0 ? [refusedSection(report)] : []),
    ...(report.figures === null ? [] : worked(report, report.figures)),
    ...studied(report),
    dragSection(report),
    airSection(report),
    costSection(report),
    assumedSection(report),
    cautionsSection(report.cautions),
  ]
  const foot = `Catalogue ${inert(report.catalogue.name, 80)}, version ${inert(report.catalogue.version, 80)}. Models ${inert(report.model_version, 40)}.`
  const head = softened([...title, ...wrap(partsLine(report.understood.setup, report.names), width)].join('\n'))
  return `${head}\n${sectionsText(sections, width)}\n\n${wrap(foot, width).join('\n')}\n`
}

function refusedSection(report: SetupReport): Section {
  return {
    heading: 'This setup cannot be built or flown',
    blocks: [{ kind: 'list', items: report.refused.map((refusal) => inert(refusal.words)) }],
  }
}

function worked(report: SetupReport, figures: SetupFigures): Section[] {
  const { understood, study } = report
  return [
    { heading: 'Set to', blocks: [{ kind: 'pairs', pairs: settings(understood.setup, figures) }] },
    doesSection(report, figures),
    ...pointSections(figures, study, understood),
    { heading: 'Weights and field', blocks: [{ kind: 'pairs', pairs: onTheField(figures, study) }] },
    ...limitSections(report, figures),
  ]
}

function doesSection({ understood, study }: SetupReport, figures: SetupFigures): Section {
  const sure = study === null ? '' : oddsWords(study, understood.target)
  const time = durationBeside(study, 'flight_time_s', figures.flight_time_s)
  const pairs: Pair[] = [
    ...(sure === '' ? [] : [{ label: 'How sure', value: sure }]),
    ...bandedPairs(speeds, figures, '', study),
    { label: 'The run', value: runWords(understood.run) },
    { label: 'Flight time to the reserve', value: time },
    ...bandedPairs(drawn, figures, '', study),
    {
      label: 'Free to the nearest limit',
      value: `${reserve(figures.headroom)}${bracketed(study, 'headroom', 'percent', 100)}`,
    },
    { label: 'Holds the speed back', value: inert(figures.binds, 300) },
    { label: 'Balances close to', value: `${residual(figures.residual)} of their size` },
  ]
  const note: Block[] = study === null ? [] : [{ kind: 'paragraph', text: bandNote }]
  return { heading: 'What it does', blocks: [...note, { kind: 'pairs', pairs }] }
}

function onTheField(figures: SetupFigures, study: Study): Pair[] {
  const roll: Row<SetupFigures> = ['Take-off roll', 'take_off_roll_m', 'distance']
  const launched = { label: 'Take-off roll', value: 'none: launched' }
  const last = figures.take_off_roll_m === null ? [launched] : bandedPairs([roll], figures, '', study)
  return [...bandedPairs(weights, figures, '', study), ...last]
}

function residual(value: number): string {
  return Number.isFinite(value) ? value.toExponential(0).replace('e', ' × 10^') : 'not known'
}

function studied({ figures, study, understood, catalogue }: SetupReport): Section[] {
  const flown = study === null ? [] : [flightSection(study.flight, understood.profile.reserve), spreadSection(study)]
  const response = figures === null ? [] : [responseSection(figures, study, catalogue.currency)]
  return [...flown, ...response, ...(study === null ? [] : [packClaimSection(study)])]
}

function dragSection({ airframe, catalogue }: SetupReport): Section {
  const limits = speedLimitPairs(airframe)
  const allowed: Block[] = [
    { kind: 'paragraph', text: 'Speeds that the airframe allows in this air:' },
    { kind: 'pairs', pairs: limits },
  ]
  return {
    heading: 'Drag and speeds of the airframe',
    blocks: [
      { kind: 'paragraph', text: dragSentence(airframe) },
      ...dragBlocks(airframe),
      ...doneBlocks(airframe, catalogue.currency),
      ...(limits.length === 0 ? [] : allowed),
    ],
  }
}

function airSection({ air }: SetupReport): Section {
  const pairs = [
    { label: 'Field', value: airWords(air) },
    { label: 'Speed of sound', value: figure('efflux', air.sound_speed_m_s) },
    { label: 'Viscosity', value: figure('viscosity', air.viscosity_upa_s) },
  ]
  return { heading: 'The air it flies in', blocks: [{ kind: 'pairs', pairs }] }
}

function costSection(report: SetupReport): Section {
  const { shopping, cost, replacement_cost, catalogue } = report
  const sentence = costSentence(cost, replacement_cost, catalogue.currency)
  const list: Block[] = shopping.length === 0 ? [] : [shoppingGrid(shopping, catalogue.currency)]
  return { heading: 'Cost', blocks: [...list, { kind: 'paragraph', text: sentence }] }
}

function assumedSection(report: SetupReport): Section {
  return { heading: 'Assumed', blocks: [{ kind: 'list', items: report.assumptions.map((words) => inert(words)) }] }
}
