// The airframe of a request: one of the catalogue by id, or one given in full with the columns of the catalogue's table;
// and, if flown already, the present setup with its measured speed, from which the drag area is solved.
import { airframeRow } from '@ductwright/catalogue/rows/airframe-row'
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { gpsLegs } from './gps-legs.js'
import { quantity } from './quantity.js'
import type { MeasuredPresent, SetupChoice, SweepRequest } from './request.js'
import { partId } from './text.js'

/** In the order they are tried and listed everywhere. */
export const arrangements = ['single', 'series', 'parallel'] as const
export const speedBases = ['steady', 'in-run', 'dive'] as const

/** A speed that is aimed at or was measured. */
export const flownSpeed = (about: string) =>
  quantity({
    unit: 'km/h',
    min: 50,
    max: 800,
    why: 'slower no ducted-fan jet stays up, faster the air compresses more than the models cover',
    about,
  })

export const duty = quantity({
  unit: 'share',
  min: 0.3,
  max: 1,
  why: 'below 0.3 no jet flies, above 1 is no throttle',
  about: 'Throttle cap as a duty.',
})

export const nozzleRatio = quantity({
  unit: 'share',
  min: 0.5,
  max: 1.1,
  why: 'narrower stalls every fan, wider is a diffuser',
  about: 'Nozzle exit area over fan annulus area.',
})

export const setupChoice = z
  .strictObject({
    fan: partId,
    motor: partId,
    esc: partId,
    timing_deg: quantity({
      unit: '°',
      min: 0,
      max: 60,
      why: 'a commutation step has 60 electrical degrees',
      about: 'Motor timing.',
    }),
    pack: partId,
    arrangement: z
      .enum(arrangements)
      .prefault('single')
      .meta({ description: 'One pack, or two in series or side by side.' }),
    nozzle_ratio: nozzleRatio,
    duty: duty.prefault(1),
  })
  .transform((fields): SetupChoice => fields)

/** Relative standard uncertainty of a speed from a receiver when nothing better is known, and the least one. Assumed. */
const USUAL_UNCERTAINTY = 0.015
const LEAST_UNCERTAINTY = 0.003

const measured = z
  .strictObject({
    setup: setupChoice,
    speed_km_h: flownSpeed('Mean of runs in opposite directions.').optional(),
    gps_legs: gpsLegs.optional(),
    basis: z.enum(speedBases).prefault('in-run').meta({ description: 'Level equilibrium, or what one pass reached.' }),
    speed_uncertainty: quantity({
      unit: 'share',
      min: 0.001,
      max: 0.2,
      why: 'no run is timed better, and a worse one tells nothing',
      about: `Relative standard uncertainty of the speed. Default: ${USUAL_UNCERTAINTY}, or the spread of repeated legs.`,
    }).optional(),
  })
  .refine(
    (fields) => (fields.speed_km_h === undefined) !== (fields.gps_legs === undefined),
    crossRule('exclusive', ['speed_km_h'], 'must be given, or gps_legs in its place: one of the two'),
  )
  .transform((fields): MeasuredPresent => {
    const speed = fields.speed_km_h ?? fields.gps_legs?.speed ?? 0
    const spread = fields.gps_legs?.spread ?? null
    const repeated = spread === null ? USUAL_UNCERTAINTY : Math.max(LEAST_UNCERTAINTY, spread / speed)
    return {
      setup: fields.setup,
      speed,
      basis: fields.basis,
      speedUncertainty: fields.speed_uncertainty ?? repeated,
    }
  })

export const airframe = z
  .strictObject({
    id: partId.optional(),
    given: airframeRow
      .optional()
      .meta({ description: 'An airframe in full, with the columns of the catalogue table.' }),
    measured: measured.nullable().prefault(null).meta({ description: 'Present setup and its measured speed.' }),
  })
  .refine(
    (fields) => fields.id === undefined || fields.given === undefined,
    crossRule('exclusive', ['given'], 'cannot stand beside id: give one of the two'),
  )
  .refine(
    (fields) => fields.id !== undefined || fields.given !== undefined,
    crossRule('required', [], 'must have "id" (an airframe of the catalogue) or "given" (its columns in full)'),
  )
  .transform((fields): SweepRequest['airframe'] => {
    const { id, given, measured: present } = fields
    if (given) return { kind: 'given', airframe: given.part, name: given.name, measured: present }
    return { kind: 'catalogue', id: id ?? '', measured: present }
  })
  .meta({ description: 'The airframe: "id" or "given", and "measured" if it has flown.' })
