// Standing measurements of a fan as they come over the wire, from which its characteristic is fitted: which fan, which
// motor, the rig, the readings, how good they are, and what is held from elsewhere. Limits are assumed for this design.
import type { BenchPoint, BenchUncertainties, HeldValue } from '@ductwright/models/calibration/bench-data'
import { z } from 'zod'
import { benchPoint } from './bench-point.js'
import { benchQuantity } from './bench-quantity.js'
import { uncertainties } from './bench-uncertainties.js'
import { crossRule } from './cross-rule.js'
import { readBySchema } from './issue-faults.js'
import { quantity, ratio, share } from './quantity.js'
import { partId, TITLE_LENGTH, title } from './text.js'

/** A fan of the catalogue by id, or the geometry and island of one that is not in it; SI. */
export type BenchFanChoice =
  | { readonly kind: 'catalogue'; readonly id: string }
  | {
      readonly kind: 'given'
      readonly tipDiameter: number
      readonly hubDiameter: number
      readonly phiPeak: number
      readonly kappa: number
    }

export interface BenchRequest {
  readonly title: string
  readonly fan: BenchFanChoice
  readonly motor: string | null
  readonly timing_deg: number
  readonly esc: string | null
  readonly rig: {
    /** Of the rig's duct, inlet lip included. */
    readonly ductLoss: number
    readonly elevation: number
    readonly temperature: number
    /** Of windings and magnets while reading, K. */
    readonly motorTemperature: number
  }
  readonly held: {
    readonly psi0: HeldValue | null
    readonly psi1: HeldValue | null
    readonly etaPeak: HeldValue | null
  }
  readonly uncertainties: BenchUncertainties
  readonly points: readonly BenchPoint[]
}

const MOST_POINTS = 24

const given = z
  .strictObject({
    tip_diameter_mm: benchQuantity({
      unit: 'mm',
      min: 30,
      max: 200,
      why: 'smaller and larger fans are not modelled',
      about: 'Rotor tip diameter.',
    }),
    hub_diameter_mm: benchQuantity({
      unit: 'mm',
      min: 10,
      max: 150,
      why: 'smaller and larger fans are not modelled',
      about: 'Hub diameter at the rotor.',
    }),
    peak_efficiency_flow_coefficient: ratio(
      0.2,
      1.5,
      'no fan of this kind has its best point elsewhere',
      'Flow coefficient of peak efficiency.',
    ).prefault(0.68),
    efficiency_curvature: ratio(0, 2, 'no island is sharper', 'Curvature of the efficiency island.').prefault(0.45),
  })
  .refine(
    (fan) => !(fan.hub_diameter_mm >= 0.8 * fan.tip_diameter_mm),
    crossRule('order', ['hub_diameter_mm'], 'must be less than 0.8 of tip_diameter_mm'),
  )
  .transform((fan) => ({
    kind: 'given' as const,
    tipDiameter: fan.tip_diameter_mm,
    hubDiameter: fan.hub_diameter_mm,
    phiPeak: fan.peak_efficiency_flow_coefficient,
    kappa: fan.efficiency_curvature,
  }))

const chosenFan = z
  .strictObject(
    { id: partId.optional(), given: given.optional() },
    { error: (issue) => (issue.code === 'invalid_type' ? 'must be a fan id, or {"given": …}' : undefined) },
  )
  .refine(
    (fields) => (fields.id === undefined) !== (fields.given === undefined),
    crossRule(
      'exclusive',
      [],
      'must have either "id" (a fan of the catalogue) or "given" (its geometry), and not both',
    ),
  )
  .transform((fields): BenchFanChoice => fields.given ?? { kind: 'catalogue', id: fields.id ?? '' })

const fan = z
  .unknown()
  .meta({
    anyOf: [{ type: 'string' }, { type: 'object' }],
    description: 'The fan: its id in the catalogue, or {"given": …} with its geometry.',
  })
  .transform((entry) => (typeof entry === 'string' ? { id: entry } : entry))
  .pipe(chosenFan)

const rig = z
  .strictObject({
    duct_loss: ratio(
      0,
      2,
      'a duct that loses more is blocked',
      'Loss of the duct the fan stands in, inlet lip included, over the dynamic pressure at the fan face.',
    ),
    elevation_m: quantity({
      unit: 'm',
      min: -430,
      max: 5000,
      why: 'the lowest dry land is the shore of the Dead Sea, and no workshop lies above 5000 m',
      about: 'Elevation of the bench.',
    }).prefault(0),
    temperature_c: quantity({
      unit: '°C',
      min: -30,
      max: 55,
      why: 'nobody measures outside it',
      about: 'Air temperature.',
    }).prefault(15),
    motor_temperature_c: quantity({
      unit: '°C',
      min: -30,
      max: 150,
      why: 'hotter magnets fail',
      about: 'Temperature of windings and magnets while reading.',
    }).prefault(50),
  })
  .transform((fields) => ({
    ductLoss: fields.duct_loss,
    elevation: fields.elevation_m,
    temperature: fields.temperature_c,
    motorTemperature: fields.motor_temperature_c,
  }))
  .meta({ description: 'What the fan stands in.' })

const heldValue = (min: number, max: number, about: string) =>
  z
    .strictObject({
      value: share(min, max, 'no fan of this kind has another', about),
      uncertainty: share(
        0.001,
        1,
        'nothing is known better, and a worse value holds nothing',
        'Standard uncertainty of it.',
      ),
    })
    .nullable()
    .prefault(null)
    .meta({ description: `${about} Known from elsewhere; null: left to the readings.` })

const hold = z
  .strictObject({
    pressure_rise_at_zero_flow: heldValue(0.3, 1.2, 'Pressure-rise coefficient at zero flow.'),
    pressure_rise_slope: heldValue(0.1, 2, 'Fall of the pressure-rise coefficient with flow.'),
    peak_efficiency: heldValue(0.4, 0.92, 'Peak stage efficiency.'),
  })
  .transform((fields) => ({
    psi0: fields.pressure_rise_at_zero_flow,
    psi1: fields.pressure_rise_slope,
    etaPeak: fields.peak_efficiency,
  }))
  .prefault({})
  .meta({ description: 'Values known from elsewhere. Default: none.' })

const fields = z
  .strictObject({
    title: title.optional(),
    fan,
    motor: partId.nullable().prefault(null).meta({ description: 'Motor of the catalogue; null: not known.' }),
    timing_deg: quantity({
      unit: '°',
      min: 0,
      max: 60,
      why: 'a commutation step has 60 electrical degrees',
      about: 'Motor timing.',
    }).optional(),
    esc: partId
      .nullable()
      .prefault(null)
      .meta({ description: 'Speed controller of the catalogue; null: its loss is not counted.' }),
    rig,
    hold,
    uncertainties,
    points: z
      .array(benchPoint)
      .min(1)
      .max(MOST_POINTS)
      .meta({ description: `Readings standing at full throttle, 1 to ${MOST_POINTS}.` }),
  })
  .refine(
    (request) => !(typeof request.motor === 'string' && request.timing_deg === undefined),
    crossRule('required', ['timing_deg'], 'must be given with a motor, whose speed constant moves with it'),
  )

/** Schema of bench measurements: what a person writes in, BenchRequest out. */
export const benchSchema = fields.transform(
  (read): BenchRequest => ({
    title: read.title ?? `Bench of ${read.fan.kind === 'catalogue' ? read.fan.id : 'a fan'}`.slice(0, TITLE_LENGTH),
    fan: read.fan,
    motor: read.motor,
    timing_deg: read.timing_deg ?? 0,
    esc: read.esc,
    rig: read.rig,
    held: read.hold,
    uncertainties: read.uncertainties,
    points: read.points,
  }),
)

/** Reads bench measurements; throws InputError with all faults. */
export function parseBench(json: unknown): BenchRequest {
  return readBySchema(benchSchema, json, 'bench request')
}
