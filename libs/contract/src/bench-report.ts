// What a bench fit answers: the fan's row with its uncertainties, how far each reading is from it, what was held, or why
// there is no answer. Interface and schema; they are checked against each other when compiled.
import { z } from 'zod'
import type { BenchRequest } from './bench-request.js'
import type { Same } from './same-shape.js'

/** Cells of the fans table that make up the characteristic, in its columns. */
export interface BenchRow {
  readonly tip_diameter_mm: number
  readonly hub_diameter_mm: number
  readonly pressure_rise_at_zero_flow: number
  readonly pressure_rise_slope: number
  readonly peak_efficiency_percent: number
  readonly peak_efficiency_flow_coefficient: number
  readonly efficiency_curvature: number
}

export type BenchColumn = 'pressure_rise_at_zero_flow' | 'pressure_rise_slope' | 'peak_efficiency_percent'

export interface BenchEstimate {
  readonly column: BenchColumn
  readonly value: number
  readonly standard_uncertainty: number
  /** 5 % and 95 % bounds. */
  readonly low: number
  readonly high: number
  /** Of the catalogue; null for a fan that is not in it. */
  readonly listed: number | null
  /** Whether readings settled it, a value held from elsewhere, or both. */
  readonly origin: 'measured' | 'held' | 'both'
}

export interface BenchReadingCheck {
  readonly reading: 'rpm' | 'thrust_n' | 'current_a' | 'pack_voltage_v' | 'motor_voltage_v'
  readonly measured: number
  readonly fitted: number
  /** In standard deviations of what chance would do; null when no other reading checks it. */
  readonly deviation: number | null
}

export interface BenchPointFigures {
  readonly nozzle_ratio: number
  readonly shaft_rpm: number
  readonly flow_coefficient: number
  readonly fan_efficiency: number
  readonly thrust_n: number
  readonly shaft_power_w: number
  readonly current_a: number | null
  readonly readings: readonly BenchReadingCheck[]
}

export interface BenchReport {
  readonly format: 'ductwright-bench/1'
  readonly model_version: string
  readonly catalogue: {
    readonly name: string
    readonly version: string
    readonly currency: string
    readonly dated: string
  }
  readonly understood: BenchRequest
  readonly fan: { readonly id: string | null; readonly name: string }
  /** Why there is no answer; empty when there is one. */
  readonly refused: readonly { readonly rule: string; readonly pointer: string; readonly words: string }[]
  /** null when refused, as is the agreement. */
  readonly row: BenchRow | null
  readonly estimates: readonly BenchEstimate[]
  readonly correlations: readonly {
    readonly between: readonly [BenchColumn, BenchColumn]
    readonly correlation: number
  }[]
  readonly agreement: {
    readonly chi_squared: number
    readonly degrees_of_freedom: number
    readonly chi_squared_limit: number
    readonly widening: number
    readonly words: string
  } | null
  readonly points: readonly BenchPointFigures[]
  readonly held: readonly string[]
  readonly comparison: readonly string[]
  readonly doubts: readonly string[]
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
}

const held = z.strictObject({ value: z.number(), uncertainty: z.number() }).nullable()

const understood = z.strictObject({
  title: z.string(),
  fan: z.union([
    z.strictObject({ kind: z.literal('catalogue'), id: z.string() }),
    z.strictObject({
      kind: z.literal('given'),
      tipDiameter: z.number(),
      hubDiameter: z.number(),
      phiPeak: z.number(),
      kappa: z.number(),
    }),
  ]),
  motor: z.string().nullable(),
  timing_deg: z.number(),
  esc: z.string().nullable(),
  rig: z.strictObject({
    ductLoss: z.number(),
    elevation: z.number(),
    temperature: z.number(),
    motorTemperature: z.number(),
  }),
  held: z.strictObject({ psi0: held, psi1: held, etaPeak: held }),
  uncertainties: z.strictObject({
    thrust: z.number(),
    shaftSpeed: z.number(),
    current: z.number(),
    voltage: z.number(),
    thrustScale: z.number(),
    currentScale: z.number(),
    voltageScale: z.number(),
    speedConstant: z.number(),
    density: z.number(),
    ductLoss: z.number(),
    phiPeak: z.number(),
    kappa: z.number(),
  }),
  points: z.array(
    z.strictObject({
      nozzleRatio: z.number(),
      voltage: z.number().nullable(),
      motorVoltage: z.number().nullable(),
      current: z.number().nullable(),
      shaftSpeed: z.number().nullable(),
      thrust: z.number().nullable(),
    }),
  ),
})

const column = z.enum(['pressure_rise_at_zero_flow', 'pressure_rise_slope', 'peak_efficiency_percent'])

const pointFigures = z.strictObject({
  nozzle_ratio: z.number(),
  shaft_rpm: z.number(),
  flow_coefficient: z.number(),
  fan_efficiency: z.number(),
  thrust_n: z.number(),
  shaft_power_w: z.number(),
  current_a: z.number().nullable(),
  readings: z.array(
    z.strictObject({
      reading: z.enum(['rpm', 'thrust_n', 'current_a', 'pack_voltage_v', 'motor_voltage_v']),
      measured: z.number(),
      fitted: z.number(),
      deviation: z.number().nullable(),
    }),
  ),
})

export const benchReportSchema = z
  .strictObject({
    format: z.literal('ductwright-bench/1'),
    model_version: z.string(),
    catalogue: z.strictObject({ name: z.string(), version: z.string(), currency: z.string(), dated: z.string() }),
    understood,
    fan: z.strictObject({ id: z.string().nullable(), name: z.string() }),
    refused: z.array(z.strictObject({ rule: z.string(), pointer: z.string(), words: z.string() })),
    row: z
      .strictObject({
        tip_diameter_mm: z.number(),
        hub_diameter_mm: z.number(),
        pressure_rise_at_zero_flow: z.number(),
        pressure_rise_slope: z.number(),
        peak_efficiency_percent: z.number(),
        peak_efficiency_flow_coefficient: z.number(),
        efficiency_curvature: z.number(),
      })
      .nullable(),
    estimates: z.array(
      z.strictObject({
        column,
        value: z.number(),
        standard_uncertainty: z.number(),
        low: z.number(),
        high: z.number(),
        listed: z.number().nullable(),
        origin: z.enum(['measured', 'held', 'both']),
      }),
    ),
    correlations: z.array(z.strictObject({ between: z.tuple([column, column]), correlation: z.number() })),
    agreement: z
      .strictObject({
        chi_squared: z.number(),
        degrees_of_freedom: z.number(),
        chi_squared_limit: z.number(),
        widening: z.number(),
        words: z.string(),
      })
      .nullable(),
    points: z.array(pointFigures),
    held: z.array(z.string()),
    comparison: z.array(z.string()),
    doubts: z.array(z.string()),
    assumptions: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .meta({ description: 'A fan fitted from standing measurements, or why it could not be.' })

/** Does not compile when schema and interface differ. */
export const benchReportAgrees: Same<BenchReport, z.output<typeof benchReportSchema>> = true
