// What a setup will do in the air and what breaks first when it is asked for more: the same words in the letter and in
// the report on a single setup.

import { belowDesign, duration, figure, money, percent, reserve, used, weight } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { LimitUse, Objectives, SetupFigures } from '@ductwright/contract/result'
import { beside, durationBeside, type Study } from './banded.js'
import type { Bar, Pair } from './letter.js'
import { diveWords, type Run } from './setup-words.js'

/** The circumstances a setup is judged in. */
export interface Circumstances {
  readonly charge: number
  readonly run: Run
  readonly profile: { readonly reserve: number; readonly flightTime: number }
}

/** What is compared, in one line. */
export function compared(raw: Objectives, currency: string): string {
  const price = raw.cost > 0 ? `${money(raw.cost, currency)} to pay` : 'nothing to pay'
  return [figure('speed', raw.speed_km_h), duration(raw.flight_time_s), price, belowDesign(raw.margin)].join(', ')
}

const noLastPass = 'none: the packs no longer carry level flight'

/** What the setup does, with the band of each speed and of the flight time where a study gives one. */
export function performance(figures: SetupFigures, at: Circumstances, study: Study): Pair[] {
  return [...speeds(figures, at, study), ...endurance(figures, study), ...field(figures), ...temperatures(figures, at)]
}

function speeds(figures: SetupFigures, at: Circumstances, study: Study): Pair[] {
  const speed = (path: string, value: number) => beside(study, path, 'speed', value)
  const last = figures.top_last
  return [
    {
      label: `Steady level speed, packs at ${percent(at.charge)}`,
      value: speed('speed_steady_km_h', figures.speed_steady_km_h),
    },
    {
      label: `Within a run of ${figure('distance', at.run.length)}`,
      value: `${speed('speed_in_run_km_h', figures.speed_in_run_km_h)}, entered at ${figure('speed', figures.speed_entry_km_h)}`,
    },
    ...dive(figures, at, study),
    { label: 'Steady, packs full and warm', value: speed('top_full.speed_km_h', figures.top_full.speed_km_h) },
    {
      label: `Last pass, packs at ${percent(at.profile.reserve)}`,
      value: last === null ? noLastPass : speed('top_last.speed_km_h', last.speed_km_h),
    },
  ]
}

function dive(figures: SetupFigures, at: Circumstances, study: Study): Pair[] {
  if (at.run.entryHeight === 0) return []
  const value = beside(study, 'speed_dive_km_h', 'speed', figures.speed_dive_km_h)
  return [{ label: `Out of ${diveWords(at.run)}`, value }]
}

function endurance(figures: SetupFigures, study: Study): Pair[] {
  const drawn = `${figure('charge', figures.charge_used_mah)} at ${figure('current', figures.mean_current_a)} on average`
  const standing = figures.standing
  return [
    { label: 'Flight time to the reserve', value: durationBeside(study, 'flight_time_s', figures.flight_time_s) },
    { label: 'Drawn from the packs', value: drawn },
    {
      label: 'Standing still, packs full',
      value: `${figure('force', standing.thrust_n)}, ${figure('current', standing.pack_current_a)}, ${figure('power', standing.pack_power_w)}`,
    },
  ]
}

function field(figures: SetupFigures): Pair[] {
  const roll = figures.take_off_roll_m
  return [
    { label: 'Flying mass', value: weight(figures.mass_kg) },
    { label: 'Thrust over weight', value: figure('ratio', figures.thrust_to_weight) },
    {
      label: 'Stalls at',
      value: `${figure('speed', figures.stall_km_h)}, ${figure('speed', figures.stall_flaps_km_h)} with flaps`,
    },
    { label: 'Take-off roll', value: roll === null ? 'none: launched' : figure('distance', roll) },
  ]
}

function temperatures(figures: SetupFigures, at: Circumstances): Pair[] {
  const { winding_c, case_c, esc_c, pack_c } = figures.temperatures
  return [
    {
      label: `Hottest within ${duration(at.profile.flightTime)}`,
      value: [
        `motor winding ${figure('temperature', winding_c)}`,
        `motor case ${figure('temperature', case_c)}`,
        `speed controller ${figure('temperature', esc_c)}`,
        `pack ${figure('temperature', pack_c)}`,
      ].join(', '),
    },
  ]
}

/** Which load is nearest to what the airframe is designed for. */
export function structureSentence(figures: SetupFigures): string {
  return `First in the airframe: ${bindingMargin(figures)}, ${belowDesign(figures.margin)}.`
}

function bindingMargin(figures: SetupFigures): string {
  const binding = figures.margins.find((margin) => margin.criterion === figures.margin_binds)
  return inert(binding?.words ?? figures.margin_binds, 120)
}

/** The most used of the ratings of motor, speed controller, packs and fan. */
export function limitSentence(figures: SetupFigures): string {
  const nearest = nearestLimit(figures)
  if (nearest === undefined) return 'No rating of any part is known for this setup.'
  return `First in the power system: ${inert(nearest.words, 120)}, ${used(nearest.used)} of its limit used (${reserve(figures.headroom)} free).`
}

/** The same two as one short phrase. */
export function breaksFirst(figures: SetupFigures): string {
  const nearest = nearestLimit(figures)
  const structure = `${bindingMargin(figures)}, ${belowDesign(figures.margin)}`
  return nearest === undefined
    ? structure
    : `${structure}; then ${inert(nearest.words, 120)}, ${used(nearest.used)} used`
}

// The rest of the limits are wishes (budget, runway, stall speed…): nothing breaks when they are reached.
const ofParts = /^(motor|esc|pack|tip|winding|magnet)-/

export function nearestLimit(figures: SetupFigures): LimitUse | undefined {
  return byUse(figures.limits.filter(({ limit }) => ofParts.test(limit)))[0]
}

/** The ratings of the parts, the most used first. */
export function ratingBars(figures: SetupFigures): Bar[] {
  return limitBars(figures.limits.filter(({ limit }) => ofParts.test(limit))).slice(0, 5)
}

export function limitBars(limits: readonly LimitUse[]): Bar[] {
  return byUse(limits).map((limit, at) => ({
    label: inert(limit.words, 120),
    share: limit.used,
    shown: `${used(limit.used)} used`,
    strong: at === 0 || limit.used > 1,
  }))
}

function byUse(limits: readonly LimitUse[]): LimitUse[] {
  return [...limits].sort((a, b) => b.used - a.used || (a.limit < b.limit ? -1 : 1))
}

/** What a tenth of power, drag or mass is worth, from the slopes at this point. */
export function sensitivitySentence(figures: SetupFigures): string {
  const tenth = (slope: number) => figure('speed', slope * 0.1 * figures.speed_steady_km_h)
  const { power, drag_area, mass } = figures.elasticity
  return [
    `Ten per cent less drag is worth about ${tenth(-drag_area)}`,
    `ten per cent more power about ${tenth(power)}`,
    `ten per cent less mass about ${tenth(-mass)}.`,
  ].join(', ')
}
