// The flight on the card: speeds to know, passes and laps between them, when to be down, how warm things get.
import { clockRange, duration, figure, type Quantity } from '@ductwright/contract/figures'
import type { SweepRequest } from '@ductwright/contract/request'
import type { FlightFigures, Result, SetupFigures, SetupStudy } from '@ductwright/contract/result'
import { allowedBy } from '../airframe-words.js'
import { beside } from '../banded.js'
import type { Pair, Section } from '../letter.js'
import { coolDown, fullThrottle, landBy } from '../study-words.js'

type Heat = readonly [label: string, peak: 'peak_case_c' | 'peak_esc_c' | 'peak_pack_c', path: string]

const heats: readonly Heat[] = [
  ['motor case', 'peak_case_c', 'temperatures.case_c'],
  ['controller', 'peak_esc_c', 'temperatures.esc_c'],
  ['packs', 'peak_pack_c', 'temperatures.pack_c'],
]

export function flightSection(figures: SetupFigures, study: SetupStudy, result: Result): Section {
  const { flight } = study
  const { profile, run } = result.understood
  const flown = flight === null ? [timeOnly(figures, study)] : flightPairs(flight, profile, run)
  const pairs = [...speeds(figures, study, result), ...flown, ...temperatures(flight, figures, study)]
  return { heading: 'In the air', blocks: [{ kind: 'pairs', pairs }] }
}

function speeds(figures: SetupFigures, study: SetupStudy, result: Result): Pair[] {
  const speed = (key: 'stall_km_h' | 'lift_off_km_h' | 'landing_km_h' | 'speed_steady_km_h') =>
    beside(study, key, 'speed', figures[key])
  const roll = figures.take_off_roll_m
  const flaps =
    figures.stall_flaps_km_h === figures.stall_km_h ? '' : `, ${figure('speed', figures.stall_flaps_km_h)} with flaps`
  return [
    { label: 'Stalls at', value: `${speed('stall_km_h')}${flaps}` },
    {
      label: 'Lifts off at',
      value: `${speed('lift_off_km_h')}, ${roll === null ? 'launched' : `after ${figure('distance', roll)}`}`,
    },
    { label: 'Land at', value: speed('landing_km_h') },
    { label: 'Top speed, level', value: speed('speed_steady_km_h') },
    ...neverExceed(figures, result),
  ]
}

function neverExceed(figures: SetupFigures, { airframe }: Result): Pair[] {
  const allowed = figures.speed_allowed_km_h
  if (allowed === null) return []
  return [{ label: 'Never above', value: `${figure('speed', allowed)}: ${allowedBy(figures, airframe)}` }]
}

function timeOnly(figures: SetupFigures, { bands }: SetupStudy): Pair {
  const band = bands['flight_time_s']
  const spread = band === undefined ? '' : ` (${clockRange(...band)})`
  return { label: 'Flight time to the reserve', value: `${duration(figures.flight_time_s)}${spread}` }
}

function flightPairs(flight: FlightFigures, profile: SweepRequest['profile'], run: SweepRequest['run']): Pair[] {
  const passes = `${figure('count', flight.passes)} of ${figure('seconds', passTime(flight))}`
  return [
    { label: 'Passes', value: `${passes}; ${fullThrottle(flight)}` },
    { label: 'Between them', value: laps(flight, run) },
    { label: 'Land', value: landBy(flight, profile.reserve) },
  ]
}

function passTime({ phases }: FlightFigures): number {
  return phases.find(({ phase }) => phase === 'pass')?.time_s ?? 0
}

/** Cooling wanted after a pass as whole laps: there and back along the run with its two half turns, at cruise speed. */
function laps(flight: FlightFigures, run: SweepRequest['run']): string {
  const words = coolDown(flight)
  const turn = flight.phases.find(({ phase }) => phase === 'turn')
  const cool = flight.cool_down_s
  if (turn === undefined || cool === null || !(cool > 0)) return words
  const lap = (2 * run.length) / (turn.speed_km_h / 3.6) + 2 * turn.time_s
  const count = Math.ceil(cool / lap - 1e-6)
  const circuits = `${figure('count', count)} ${count === 1 ? 'lap' : 'laps'} of ${figure('seconds', lap)}`
  return `${words}: ${circuits} at ${figure('speed', turn.speed_km_h)}, along the run and back`
}

function temperatures(flight: FlightFigures | null, figures: SetupFigures, study: SetupStudy): Pair[] {
  const quantity: Quantity = 'temperature'
  const { case_c, esc_c, pack_c } = figures.temperatures
  const peaks = flight ?? { peak_case_c: case_c, peak_esc_c: esc_c, peak_pack_c: pack_c }
  const list = heats.map(([label, key, path]) => `${label} ${beside(study, path, quantity, peaks[key])}`)
  return [{ label: 'After landing, at most', value: list.join(', ') }]
}
