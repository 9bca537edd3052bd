// One setup in words: part names, arrangement of the packs, and what is set on the bench and in the transmitter.

import { figure, percent, weight, within } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { SetupChoice, SweepRequest } from '@ductwright/contract/request'
import type { PurchaseLine, SetupFigures } from '@ductwright/contract/result'
import type { Pair } from './letter.js'

export type Names = Readonly<Record<string, string>>

const longestName = 60
// The dot stays at the end of its line.
const between = '\u00a0· '

/** The name shown for a part; its id where the catalogue gives none. */
export function partName(names: Names, id: string): string {
  return inert(Object.hasOwn(names, id) ? (names[id] ?? id) : id, longestName)
}

export const arrangements = {
  single: 'one pack',
  series: 'two packs in series',
  parallel: 'two packs side by side',
} as const

export function packsOf(setup: SetupChoice, names: Names): string {
  const name = partName(names, setup.pack)
  return setup.arrangement === 'single'
    ? name
    : `2\u00a0×\u00a0${name} ${setup.arrangement === 'series' ? 'in series' : 'side by side'}`
}

/** All parts of a setup in one line. */
export function partsLine(setup: SetupChoice, names: Names): string {
  const parts = [partName(names, setup.fan), partName(names, setup.motor), partName(names, setup.esc)]
  return [...parts, packsOf(setup, names)].join(between)
}

/** The settings of a setup in one line. */
export function settingsLine(setup: SetupChoice, figures: SetupFigures): string {
  const timing = `timing ${figure('angle', setup.timing_deg)}`
  return `${timing}, ${capWords(setup.duty)}, nozzle exit ${figure('diameter', figures.nozzle_exit_mm)}`
}

/** The settings of a setup that has not been worked through, in one line. */
export function choiceLine({ timing_deg, duty, nozzle_ratio: ratio }: SetupChoice): string {
  return `timing ${figure('angle', timing_deg)}, ${capWords(duty)}, nozzle exit ${percent(ratio)} of the fan's annulus area`
}

/** A cap in words; full throttle needs none. */
function capWords(duty: number): string {
  return duty >= 1 ? 'no throttle cap' : `throttle cap ${percent(duty)}`
}

/** What to set, one pair a setting. */
export function settings(setup: SetupChoice, figures: SetupFigures): Pair[] {
  const pairs = [
    { label: 'Motor timing', value: figure('angle', setup.timing_deg) },
    { label: 'Throttle cap', value: throttleCap(setup.duty) },
    { label: 'Nozzle exit', value: nozzle(setup, figures) },
    { label: 'Packs', value: `${arrangements[setup.arrangement]}, ${figure('count', figures.cells)} cells in series` },
    { label: 'Middle of the packs', value: packPlace(figures) },
  ]
  return figures.ballast_kg > 0 ? [...pairs, { label: 'Ballast', value: weight(figures.ballast_kg) }] : pairs
}

function throttleCap(duty: number): string {
  return duty >= 1 ? 'none, full throttle' : `${percent(duty)}, set in the transmitter`
}

function packPlace({ pack_station_mm, pack_window_mm: window }: SetupFigures): string {
  const place = `${figure('station', pack_station_mm)} behind the nose`
  const bounds = window === null ? '' : within('station', ...window)
  return bounds === '' ? place : `${place}, ${bounds} keeps the balance`
}

function nozzle(setup: SetupChoice, figures: SetupFigures): string {
  const ratio = figure('percent', setup.nozzle_ratio * 100)
  return `${figure('diameter', figures.nozzle_exit_mm)} across (${ratio} of the fan's annulus area)`
}

export type Run = Omit<SweepRequest['run'], 'entrySpeedShare'>

/** The dive before a run. */
export function diveWords(run: Run): string {
  return `a dive of ${figure('distance', run.entryHeight)} at ${figure('angle', (run.diveAngle * 180) / Math.PI)}`
}

/** The timed run and what goes before it. */
export function runWords(run: SweepRequest['run']): string {
  const length = figure('distance', run.length)
  return run.entryHeight > 0
    ? `${length}, after ${diveWords(run)}`
    : `${length}, entered level at ${percent(run.entrySpeedShare)} of the steady speed`
}

const roles: Readonly<Record<PurchaseLine['role'], string>> = {
  fan: 'fan',
  motor: 'motor',
  set: 'fan with motor',
  esc: 'speed controller',
  pack: 'pack',
  'receiver-supply': 'receiver supply',
  treatment: 'clean-up work',
}

export function roleName(role: PurchaseLine['role']): string {
  return roles[role]
}

/** The parts to be bought, in one line; clean-up work is told apart from them. */
export function purchaseLine(shopping: readonly PurchaseLine[]): string {
  const bought = shopping.filter(({ role, buy }) => role !== 'treatment' && buy > 0)
  return bought.length === 0 ? 'nothing: you own every part' : namedLine(bought, ({ buy }) => buy)
}

/** The parts at hand that the setup uses, in one line; empty when there are none. */
export function ownedLine(shopping: readonly PurchaseLine[]): string {
  return namedLine(
    shopping.filter(({ owned }) => owned > 0),
    ({ owned }) => owned,
  )
}

/** What to buy and what is there. */
export function buyLine(shopping: readonly PurchaseLine[]): string {
  const owned = ownedLine(shopping)
  return owned === '' ? purchaseLine(shopping) : `${purchaseLine(shopping)}; you have ${owned}`
}

/** The clean-up work that the setup counts on, in one line; empty when there is none. */
export function workLine(shopping: readonly PurchaseLine[]): string {
  return namedLine(
    shopping.filter(({ role }) => role === 'treatment'),
    () => 1,
  )
}

function namedLine(lines: readonly PurchaseLine[], count: (line: PurchaseLine) => number): string {
  const times = (line: PurchaseLine) => (count(line) > 1 ? `${count(line)}\u00a0×\u00a0` : '')
  return lines.map((line) => `${times(line)}${inert(line.name, longestName)}`).join(between)
}
