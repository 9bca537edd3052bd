// The flight of one setup for its report: phase by phase as a table, then what it comes to.
import { bare, clock, duration, figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { FlightFigures, PhaseFigures } from '@ductwright/contract/result'
import type { Block, Pair, Section } from './letter.js'
import { coolDown, endedBy, fullThrottle, landBy } from './study-words.js'

type Column = readonly [title: string, read: (phase: PhaseFigures) => string]

// Short heads: fourteen columns have to fit on one line.
const columns: readonly Column[] = [
  ['', (phase) => inert(phase.phase, 40)],
  ['from', (phase) => clock(phase.start_s)],
  ['s', (phase) => bare('seconds', phase.time_s)],
  ['km/h', (phase) => bare('speed', phase.speed_km_h)],
  ['thr. %', (phase) => bare('percent', phase.duty * 100)],
  ['V', (phase) => bare('voltage', phase.pack_voltage_v)],
  ['A', (phase) => bare('current', phase.pack_current_a)],
  ['motor A', (phase) => bare('current', phase.motor_current_a)],
  ['W', (phase) => bare('power', phase.pack_power_w)],
  ['left %', (phase) => bare('percent', phase.charge_left * 100)],
  ['wind.', (phase) => bare('temperature', phase.winding_c)],
  ['case', (phase) => bare('temperature', phase.case_c)],
  ['ctrl', (phase) => bare('temperature', phase.esc_c)],
  ['pack', (phase) => bare('temperature', phase.pack_c)],
]

const key =
  'Throttle, pack voltage and current, motor current and power from the packs are those of the phase; charge left and the temperatures (°C: winding and case of the motor, speed controller, pack) are those at its end.'

export function flightSection(flight: FlightFigures | null, reserve: number): Section {
  const heading = 'The flight, phase by phase'
  if (flight === null) return { heading, blocks: [{ kind: 'paragraph', text: 'This setup cannot fly the profile.' }] }
  const table: Block = {
    kind: 'grid',
    columns: columns.map(([title], at) => ({ title, align: at === 0 ? 'left' : 'right' })),
    rows: flight.phases.map((phase) => columns.map(([, read]) => read(phase))),
  }
  return {
    heading,
    blocks: [{ kind: 'paragraph', text: key }, table, { kind: 'pairs', pairs: sums(flight, reserve) }],
  }
}

function sums(flight: FlightFigures, reserve: number): Pair[] {
  return [
    { label: 'Passes', value: `${figure('count', flight.passes)}${passSpeeds(flight)}` },
    { label: 'No more passes because', value: endedBy(flight) },
    {
      label: 'Drawn from the packs',
      value: `${figure('charge', flight.charge_used_mah)}, ${figure('energy', flight.energy_used_wh)}`,
    },
    { label: 'Lowest pack voltage', value: figure('voltage', flight.least_pack_voltage_v) },
    { label: 'Hottest', value: peaks(flight) },
    { label: 'Full throttle', value: fullThrottle(flight) },
    { label: 'Cool-down', value: coolDown(flight) },
    { label: 'Flown on to the reserve', value: `${duration(flight.time_to_reserve_s)} from take-off to landing` },
    { label: 'Land', value: landBy(flight, reserve) },
  ]
}

function passSpeeds(flight: FlightFigures): string {
  if (flight.first_pass_km_h === null) return ''
  return `, the first at ${figure('speed', flight.first_pass_km_h)}, the last at ${figure('speed', flight.last_pass_km_h)}`
}

function peaks(flight: FlightFigures): string {
  return [
    `motor winding ${figure('temperature', flight.peak_winding_c)}`,
    `motor case ${figure('temperature', flight.peak_case_c)}`,
    `speed controller ${figure('temperature', flight.peak_esc_c)}`,
    `pack ${figure('temperature', flight.peak_pack_c)}`,
  ].join(', ')
}
