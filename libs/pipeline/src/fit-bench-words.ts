// The words of a bench fit: why there is no answer and what would bring one, what was held, how the fit compares with the
// catalogue's row, and what a bench demands in assumptions and care.
import type { BenchColumn, BenchEstimate, BenchReport } from '@ductwright/contract/bench-report'
import type { BenchRequest } from '@ductwright/contract/bench-request'
import { figure } from '@ductwright/contract/figures'
import type { Fitted, Measured } from '@ductwright/models/calibration/bench-data'
import type { Remedy } from '@ductwright/models/calibration/bench-determinacy'
import type { BenchFit, Deviation } from '@ductwright/models/calibration/bench-fit'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { REFERENCE_TIP_SPEED } from '@ductwright/models/fan/efficiency-scaling'
import { listed } from './sentences.js'

export const COLUMNS: Readonly<Record<Fitted, BenchColumn>> = {
  psi0: 'pressure_rise_at_zero_flow',
  psi1: 'pressure_rise_slope',
  etaPeak: 'peak_efficiency_percent',
}

export const READINGS = {
  shaftSpeed: 'rpm',
  thrust: 'thrust_n',
  current: 'current_a',
  voltage: 'pack_voltage_v',
  motorVoltage: 'motor_voltage_v',
} as const satisfies Readonly<Record<Measured, string>>

const KNOWN_WORDS: Readonly<Record<string, string>> = {
  psi0: 'the held pressure_rise_at_zero_flow',
  psi1: 'the held pressure_rise_slope',
  etaPeak: 'the held peak_efficiency',
  phiPeak: 'the flow coefficient of peak efficiency',
  kappa: 'the efficiency curvature',
  ductLoss: 'the duct loss of the rig',
  densityFactor: 'the air density',
  speedConstantFactor: 'the speed constant of the motor',
  thrustScale: 'the scale of the balance',
  currentScale: 'the scale of the ammeter',
  voltageScale: 'the scale of the voltmeter',
}

type Refusals = BenchReport['refused']

/** Why a fit has no answer; none when it has. */
export function refusalsOf(fit: BenchFit, request: BenchRequest): Refusals {
  switch (fit.kind) {
    case 'fitted':
      return []
    case 'undetermined': {
      const open = listed(fit.unknowns.map((unknown) => COLUMNS[unknown]))
      const cures = fit.remedies.map((remedy) => remedyWords(remedy, request))
      const words = `The readings leave ${open} undetermined. ${cures.join(' ')}`
      return [{ rule: 'undetermined', pointer: '/points', words }]
    }
    case 'inconsistent': {
      const several = fit.deviations.length > 1 ? ' One of those named is wrong; the readings cannot tell which.' : ''
      return fit.deviations.map((deviation) => ({
        rule: 'inconsistent',
        pointer: deviation.observation.kind === 'reading' ? `/points/${deviation.observation.point}` : '',
        words: `${contradiction(deviation, request)}${several}`,
      }))
    }
    case 'implausible':
      return fit.unknowns.map(({ unknown, value }) => ({
        rule: 'implausible',
        pointer: '',
        words: `${COLUMNS[unknown]} comes out at ${cell(unknown, value)}, which no fan of this kind has: check the units, the duct loss, the motor and its timing.`,
      }))
    case 'not-converged':
      return [
        { rule: 'not-converged', pointer: '/points', words: 'No fan comes near these readings: check their units.' },
      ]
  }
}

function remedyWords(remedy: Remedy, { points }: BenchRequest): string {
  const ratios = points.map(({ nozzleRatio }) => nozzleRatio)
  const span = `${Math.min(...ratios)} to ${Math.max(...ratios)}`
  const hold = 'hold pressure_rise_slope at a value with its uncertainty'
  switch (remedy) {
    case 'thrust':
      return 'Measure thrust: nothing else shows how much air flows.'
    case 'shaft-speed':
      return 'Measure rpm, or voltage and current with a known motor, at the points that have thrust.'
    case 'motor':
      return 'Name the motor and its timing, so that current gives torque.'
    case 'current':
      return 'Measure current, which gives torque.'
    case 'second-nozzle':
      return `One nozzle ratio cannot tell the pressure rise from its slope: measure with a second nozzle too, 0.2 or more away, or ${hold}.`
    case 'wider-nozzles':
      return `Nozzle ratios from ${span} are too much alike for readings as uncertain as these: measure with one further away, read more often, or ${hold}.`
    case 'more-precision':
      return 'Read more points, or read them more precisely.'
  }
}

function contradiction({ observation, deviation }: Deviation, { points }: BenchRequest): string {
  const size = Math.abs(deviation ?? 0).toFixed(1)
  const side = (deviation ?? 0) > 0 ? 'above' : 'below'
  if (observation.kind === 'known') {
    return `${capital(KNOWN_WORDS[observation.unknown] ?? observation.unknown)} lies ${size} standard deviations ${side} what the readings give: correct it, or state it less certain.`
  }
  const { point, measured } = observation
  const value = points[point]?.[measured] ?? Number.NaN
  return `${capital(readingWords(measured, value))} at point ${point + 1} lies ${size} standard deviations ${side} what all other readings give: read it again, or leave it out.`
}

const RPM = 30 / Math.PI

function readingWords(measured: Measured, value: number): string {
  switch (measured) {
    case 'thrust':
      return `the thrust of ${figure('force', value)}`
    case 'shaftSpeed':
      return `the shaft speed of ${figure('rotation', value * RPM)}`
    case 'current':
      return `the current of ${figure('current', value)}`
    default:
      return `the voltage of ${figure('voltage', value)}`
  }
}

/** What was not fitted, and with what doubt. */
export function heldWords(
  request: BenchRequest,
  estimates: readonly BenchEstimate[],
  island: { phiPeak: number; kappa: number },
): string[] {
  const { uncertainties: u, rig, held, motor } = request
  const words = [
    `Efficiency island: peak at a flow coefficient of ${coefficient(island.phiPeak)} ± ${coefficient(u.phiPeak)}, curvature ${coefficient(island.kappa)} ± ${coefficient(u.kappa)}.`,
    `Duct loss of the rig, inlet lip included: ${coefficient(rig.ductLoss)} ± ${coefficient(u.ductLoss)}. Pressure rise and duct loss are only known together.`,
    `Air: standard pressure at ${figure('distance', rig.elevation)}, ${figure('temperature', rig.temperature - ZERO_CELSIUS)}, density to ${share(u.density)}.`,
  ]
  if (motor !== null) {
    words.push(
      `Motor: ${motor} at ${figure('angle', request.timing_deg)} of timing and ${figure('temperature', rig.motorTemperature - ZERO_CELSIUS)}, speed constant to ${share(u.speedConstant)}.`,
    )
  }
  const origins = {
    held: 'the answer is that value alone',
    both: 'the answer mixes it with the readings',
    measured: 'the readings settle it without',
  }
  for (const unknown of ['psi0', 'psi1', 'etaPeak'] as const) {
    const value = held[unknown]
    const origin = estimates.find(({ column }) => column === COLUMNS[unknown])?.origin
    if (value === null || origin === undefined) continue
    words.push(
      `${COLUMNS[unknown]} held at ${cell(unknown, value.value)} ± ${cell(unknown, value.uncertainty)}: ${origins[origin]}.`,
    )
  }
  return words
}

/** A fit beside the catalogue's row. */
export function comparisonWords(estimates: readonly BenchEstimate[]): string[] {
  return estimates.flatMap((estimate) => {
    if (estimate.listed === null) return []
    const off = (estimate.value - estimate.listed) / estimate.standard_uncertainty
    const band = `${digits(estimate.column, estimate.value)} (${digits(estimate.column, estimate.low)} to ${digits(estimate.column, estimate.high)})`
    const against = `the listed ${digits(estimate.column, estimate.listed)}`
    if (Math.abs(off) <= 2) return [`${estimate.column}: ${band} agrees with ${against}.`]
    const side = off > 0 ? 'above' : 'below'
    return [`${estimate.column}: ${band} lies ${Math.abs(off).toFixed(1)} standard uncertainties ${side} ${against}.`]
  })
}

/** What the catalogue's row would show at a point, beside what was fitted. */
export function pullWords(
  point: number,
  nozzleRatio: number,
  rpm: number,
  shown: { readonly listed: Pull; readonly fitted: Pull },
): string {
  const pull = ({ thrust, shaftPower }: Pull) =>
    `${figure('force', thrust)} for ${figure('power', shaftPower)} at the shaft`
  return `At point ${point + 1} (nozzle ratio ${nozzleRatio}, ${figure('rotation', rpm)}) the listed fan would give ${pull(shown.listed)}; yours gives ${pull(shown.fitted)}.`
}

interface Pull {
  readonly thrust: number
  readonly shaftPower: number
}

/** Whether the readings agree among themselves as well as their uncertainties say. */
export function agreementWords(fit: Extract<BenchFit, { kind: 'fitted' }>): string {
  const { chiSquared, degreesOfFreedom, chiSquaredLimit, widening } = fit
  if (degreesOfFreedom === 0) return 'There are just enough readings: none checks another. Read more points.'
  const sum = `The squares of the deviations add up to ${chiSquared.toFixed(1)} over ${degreesOfFreedom} degrees of freedom`
  if (widening === 1) return `${sum}, within the ${chiSquaredLimit.toFixed(1)} that chance allows.`
  return `${sum}, more than the ${chiSquaredLimit.toFixed(1)} that chance allows: the readings scatter more than stated, and every uncertainty was widened ${widening.toFixed(2)} times.`
}

/** Cell of the fans table: four digits after the point, an efficiency in per cent with two. */
export function cell(unknown: Fitted, value: number): string {
  return digits(COLUMNS[unknown], unknown === 'etaPeak' ? 100 * value : value)
}

function digits(column: BenchColumn, value: number): string {
  return column === 'peak_efficiency_percent' ? `${value.toFixed(1)}\u00a0%` : value.toFixed(3)
}

function coefficient(value: number): string {
  return figure('coefficient', value)
}

function share(value: number): string {
  return figure('exactPercent', 100 * value)
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

export const BENCH_ASSUMPTIONS: readonly string[] = [
  'Every reading was taken standing still, steady, and at full throttle, where the controller does not switch.',
  'Errors of single readings are independent; what an instrument reads high or low throughout is counted once as its scale. Defaults are for a good hobby bench: state your own.',
  `The pressure rise is a straight line over flow. The efficiency is that at a tip speed of ${REFERENCE_TIP_SPEED} m/s in standard air; losses move with Reynolds number and tip Mach number as everywhere in these models.`,
  'A characteristic from standing runs is carried into flight, where the flow is higher than any point measured here.',
  'Bands run from 5 to 95 % of a normal distribution, propagated from the stated uncertainties.',
]

export const BENCH_CAUTIONS: readonly string[] = [
  'A fan of this size pulls with 50 to 120 N: anchor the model or the rig to something that cannot move, and check the anchor before every run.',
  'Nobody in the plane of the rotor or behind the nozzle: a blade that lets go flies there. Read instruments from the front at a distance, or behind a shield.',
  'Eye and ear protection; no loose clothing, no cables, tools or dust within reach of the inlet.',
  'Arm last. Take the link out before touching anything, for every change of nozzle too.',
  'Short runs: windings, controller and pack heat up within seconds at standing full throttle. Let them cool between points, and stop at any smell, noise or vibration.',
  'Several cells in series arc and burn: anti-spark connector, covered ends, clamp meter instead of opened leads. Charge attended; never use a swollen, hot or dropped pack.',
  'These figures are estimates from your readings, not a clearance to run faster: keep within the ratings of rotor, motor, controller and pack.',
]
