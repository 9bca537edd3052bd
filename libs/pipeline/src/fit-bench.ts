// A fan fitted from standing measurements: parts found in the catalogue, readings into the models' fit, and its outcome as a
// report in plain units: the row for the fans table with its bands, every reading against the fit, and what it rests on.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { fanGate } from '@ductwright/catalogue/fan-gate'
import type { BenchEstimate, BenchPointFigures, BenchReport, BenchRow } from '@ductwright/contract/bench-report'
import type { BenchRequest } from '@ductwright/contract/bench-request'
import { type Fault, InputError } from '@ductwright/contract/fault'
import { fieldAir } from '@ductwright/models/atmosphere/standard-atmosphere'
import {
  type BenchData,
  FITTED,
  type Fitted,
  type HeldValue,
  MEASURED,
} from '@ductwright/models/calibration/bench-data'
import { type FittedFan, fitBench as fit } from '@ductwright/models/calibration/bench-fit'
import {
  type BenchController,
  type BenchFan,
  type BenchMotor,
  type PreparedRig,
  prepareRig,
  readingAt,
} from '@ductwright/models/calibration/bench-model'
import { pathResistance } from '@ductwright/models/esc/esc-losses'
import { WARM_ESC_TEMPERATURE } from '@ductwright/models/evaluation/assumed-state'
import type { Fan } from '@ductwright/models/fan/fan'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { fluxFactor } from '@ductwright/models/motor/magnet'
import { speedConstantAt, windingResistance } from '@ductwright/models/motor/motor-equations'
import { plain } from './figures-of.js'
import {
  agreementWords,
  BENCH_ASSUMPTIONS,
  BENCH_CAUTIONS,
  COLUMNS,
  comparisonWords,
  heldWords,
  pullWords,
  READINGS,
  refusalsOf,
} from './fit-bench-words.js'
import { type KnownPart, knownParts, partFault } from './known-parts.js'

const RPM = 30 / Math.PI
const MILLI = 1000
/** Standard deviations from the middle to the 5 % and 95 % bounds. */
const COVERAGE = 1.645
/** Share of a held value in an estimate up to which readings settled it, and from which it stands alone. */
const ORIGINS = { measured: 0.1, held: 0.9 }

/**
 * Fits a fan.
 * @throws InputError for unknown parts, or points that nothing can be made of
 */
export function fitBench(request: BenchRequest, catalogue: Catalogue): BenchReport {
  const known = knownParts(catalogue)
  check(request, known)
  const listed = listedFan(request, catalogue)
  const data = dataOf(request, catalogue, listed)
  const found = fit(data)
  const solved = found.kind === 'fitted' ? found : null
  const estimates = solved === null ? [] : estimatesOf(solved, listed)
  const row = solved === null ? null : rowOf(data.rig.fan, solved)
  return {
    format: 'ductwright-bench/1',
    model_version: MODEL_VERSION,
    catalogue: {
      name: catalogue.name,
      version: catalogue.version,
      currency: catalogue.currency,
      dated: catalogue.dated,
    },
    understood: request,
    fan: { id: listed?.id ?? null, name: listed === null ? 'Fan as given' : (known.get(listed.id)?.name ?? listed.id) },
    refused: refusalsOf(found, request),
    row,
    estimates,
    correlations: solved === null ? [] : correlationsOf(solved),
    agreement: solved === null ? null : agreementOf(solved),
    points: solved === null ? [] : pointsOf(request, solved),
    held: heldWords(request, estimates, data.rig.fan),
    comparison: solved === null || listed === null ? [] : comparisonOf(data, solved, listed, estimates),
    doubts: solved === null ? [] : doubtsOf(data.rig.fan, solved),
    assumptions: BENCH_ASSUMPTIONS,
    cautions: BENCH_CAUTIONS,
  }
}

function check(request: BenchRequest, known: ReadonlyMap<string, KnownPart>): void {
  const { fan, motor, esc, points } = request
  const faults: (Fault | null)[] = [
    fan.kind === 'catalogue' ? partFault(known, fan.id, '/fan', 'fan') : null,
    motor === null ? null : partFault(known, motor, '/motor', 'motor'),
    esc === null ? null : partFault(known, esc, '/esc', 'esc'),
    ...points.map((point, i): Fault | null => {
      if (motor !== null || point.thrust !== null || point.shaftSpeed !== null) return null
      const message = `points[${i}] has voltage and current alone, which say nothing without a motor: name the motor, or add rpm and thrust`
      return { pointer: `/points/${i}`, rule: 'required', value: 'no motor', message }
    }),
  ]
  const found = faults.filter((fault) => fault !== null)
  if (found.length > 0) throw new InputError('the fan cannot be fitted', found)
}

function listedFan({ fan }: BenchRequest, catalogue: Catalogue): Fan | null {
  return fan.kind === 'given' ? null : (catalogue.fans.find(({ part }) => part.id === fan.id)?.part ?? null)
}

function dataOf(request: BenchRequest, catalogue: Catalogue, listed: Fan | null): BenchData {
  const { rig, held, points, uncertainties } = request
  const fan: BenchFan = listed ?? (request.fan as Extract<BenchRequest['fan'], { kind: 'given' }>)
  const { tipDiameter, hubDiameter, phiPeak, kappa } = fan
  return {
    rig: prepareRig({
      fan: { tipDiameter, hubDiameter, phiPeak, kappa },
      air: fieldAir(rig.elevation, rig.temperature),
      motor: motorOf(request, catalogue),
      controller: controllerOf(request, catalogue),
    }),
    ductLoss: rig.ductLoss,
    points,
    uncertainties,
    held: Object.fromEntries(FITTED.flatMap((unknown) => entryOf(unknown, held[unknown]))),
  }
}

function entryOf(unknown: Fitted, value: HeldValue | null): [Fitted, HeldValue][] {
  return value === null ? [] : [[unknown, value]]
}

function motorOf({ motor: id, timing_deg, rig }: BenchRequest, catalogue: Catalogue): BenchMotor | null {
  const motor = catalogue.motors.find(({ part }) => part.id === id)?.part
  if (motor === undefined) return null
  return {
    speedConstant: speedConstantAt(motor, (timing_deg * Math.PI) / 180) / fluxFactor(rig.motorTemperature),
    resistance: windingResistance(motor, rig.motorTemperature),
    noLoadCurrent: motor.noLoadCurrent,
    noLoadCurrentSlope: motor.noLoadCurrentSlope,
  }
}

function controllerOf({ esc: id }: BenchRequest, catalogue: Catalogue): BenchController {
  const esc = catalogue.escs.find(({ part }) => part.id === id)?.part
  if (esc === undefined) return { resistance: 0, quiescentPower: 0, proportionalLoss: 0 }
  const { quiescentPower, proportionalLoss } = esc
  return { resistance: pathResistance(esc, WARM_ESC_TEMPERATURE), quiescentPower, proportionalLoss }
}

function inCells(unknown: Fitted, value: number): number {
  return unknown === 'etaPeak' ? 100 * value : value
}

function estimatesOf(solved: FittedFan, listed: Fan | null): BenchEstimate[] {
  return FITTED.map((unknown) => {
    const { value, uncertainty, priorShare } = solved.estimates[unknown]
    const cell = (each: number) => plain(inCells(unknown, each))
    return {
      column: COLUMNS[unknown],
      value: cell(value),
      standard_uncertainty: cell(uncertainty),
      low: cell(value - COVERAGE * uncertainty),
      high: cell(value + COVERAGE * uncertainty),
      listed: listed === null ? null : cell(listed[unknown]),
      origin: priorShare >= ORIGINS.held ? 'held' : priorShare > ORIGINS.measured ? 'both' : 'measured',
    }
  })
}

/** Four digits: more than any bench gives, and short enough to paste. */
function rowOf(fan: BenchFan, { estimates }: FittedFan): BenchRow {
  const short = (value: number) => Number(value.toPrecision(4))
  return {
    tip_diameter_mm: plain(fan.tipDiameter * MILLI),
    hub_diameter_mm: plain(fan.hubDiameter * MILLI),
    pressure_rise_at_zero_flow: short(estimates.psi0.value),
    pressure_rise_slope: short(estimates.psi1.value),
    peak_efficiency_percent: short(100 * estimates.etaPeak.value),
    peak_efficiency_flow_coefficient: plain(fan.phiPeak),
    efficiency_curvature: plain(fan.kappa),
  }
}

function correlationsOf({ correlation }: FittedFan): BenchReport['correlations'] {
  return FITTED.flatMap((first, i) =>
    FITTED.slice(i + 1).map((second, k) => ({
      between: [COLUMNS[first], COLUMNS[second]] as const,
      correlation: plain(correlation[i]?.[i + 1 + k] ?? 0),
    })),
  )
}

function agreementOf(solved: FittedFan): NonNullable<BenchReport['agreement']> {
  return {
    chi_squared: plain(solved.chiSquared),
    degrees_of_freedom: solved.degreesOfFreedom,
    chi_squared_limit: plain(solved.chiSquaredLimit),
    widening: plain(solved.widening),
    words: agreementWords(solved),
  }
}

function pointsOf(request: BenchRequest, solved: FittedFan): BenchPointFigures[] {
  return request.points.map((point, i) => {
    const shown = solved.points[i]!
    const readings = MEASURED.flatMap((measured) => {
      const [value, fitted] = [point[measured], shown[measured]]
      if (value === null || fitted === null) return []
      const unit = measured === 'shaftSpeed' ? RPM : 1
      const check = solved.deviations.find(
        ({ observation }) =>
          observation.kind === 'reading' && observation.point === i && observation.measured === measured,
      )
      const deviation = check?.deviation ?? null
      return [
        {
          reading: READINGS[measured],
          measured: plain(value * unit),
          fitted: plain(fitted * unit),
          deviation: deviation === null ? null : Number(deviation.toFixed(2)),
        },
      ]
    })
    return {
      nozzle_ratio: plain(point.nozzleRatio),
      shaft_rpm: plain(shown.shaftSpeed * RPM),
      flow_coefficient: plain(shown.flowCoefficient),
      fan_efficiency: plain(shown.efficiency),
      thrust_n: plain(shown.thrust),
      shaft_power_w: plain(shown.shaftPower),
      current_a: shown.current === null ? null : plain(shown.current),
      readings,
    }
  })
}

/** Each estimate beside the listed one, and what both mean at the fastest point. */
function comparisonOf(data: BenchData, solved: FittedFan, listed: Fan, estimates: readonly BenchEstimate[]): string[] {
  const speeds = solved.points.map(({ shaftSpeed }) => shaftSpeed)
  const fastest = speeds.indexOf(Math.max(...speeds))
  const { shaftSpeed, ...fitted } = solved.points[fastest]!
  const { nozzleRatio } = data.points[fastest]!
  const shown = { listed: listedReading(data.rig, listed, data.ductLoss, nozzleRatio, shaftSpeed), fitted }
  return [...comparisonWords(estimates), pullWords(fastest, nozzleRatio, shaftSpeed * RPM, shown)]
}

function listedReading(rig: PreparedRig, listed: Fan, ductLoss: number, nozzleRatio: number, shaftSpeed: number) {
  return readingAt(rig, { ...listed, ductLoss, densityFactor: 1, speedConstantFactor: 1 }, nozzleRatio, shaftSpeed)
}

/** Why a catalogue would refuse the row as it stands. */
function doubtsOf(fan: BenchFan, { estimates }: FittedFan): string[] {
  const characteristic = { psi0: estimates.psi0.value, psi1: estimates.psi1.value, etaPeak: estimates.etaPeak.value }
  const limits = { id: '', tipSpeedLimit: 0, motorCanLimit: 0, shaftBore: 0, mass: 0 }
  return fanGate({ ...limits, ...fan, ...characteristic }).map(
    ({ words }) => `A catalogue would not take this row as it stands: ${words}. Within its band it may still be right.`,
  )
}
