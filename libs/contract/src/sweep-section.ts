// What is swept: duties, nozzle ratios, arrangements of packs, and how finely answers are told apart.
import { z } from 'zod'
import { arrangements, duty, nozzleRatio } from './airframe-section.js'
import { charge } from './circumstances.js'
import { crossRule } from './cross-rule.js'
import { quantity } from './quantity.js'
import type { SweepRequest } from './request.js'

const DUTY_STEP = 0.1
const DUTY_MIN = 0.5
const NOZZLE_RATIOS = [0.8, 0.84, 0.88, 0.92]

const ascending = (values: readonly number[]): number[] => [...new Set(values)].sort((a, b) => a - b)

/** From the least duty in equal steps to full throttle, which is always in; four decimals, so 0.7 is 0.7. */
export function dutyLadder(min: number, step: number): number[] {
  const rungs = Array.from({ length: Math.floor((1 - min) / step + 1e-9) + 1 }, (_, rung) => min + rung * step)
  return ascending([...rungs.map((rung) => Number(rung.toFixed(4))), 1])
}

const resolution = z
  .strictObject({
    speed_km_h: quantity({
      unit: 'km/h',
      min: 0,
      max: 50,
      why: 'coarser hides every difference',
      about: 'Speed; 0 is off.',
    }).prefault(2),
    flight_time_s: quantity({
      unit: 's',
      min: 0,
      max: 300,
      why: 'coarser hides every difference',
      about: 'Time; 0 is off.',
    }).prefault(5),
    cost: quantity({
      unit: 'ratio',
      min: 0,
      max: 1e6,
      why: 'coarser hides every price',
      about: 'Cost, catalogue currency; 0 is off.',
    }).prefault(5),
    margin: quantity({
      unit: 'share',
      min: 0,
      max: 1,
      why: 'coarser hides every margin',
      about: 'Margin; 0 is off.',
    }).prefault(0.02),
  })
  .transform((fields) => ({
    speed: fields.speed_km_h,
    time: fields.flight_time_s,
    cost: fields.cost,
    margin: fields.margin,
  }))
  .prefault({})
  .meta({ description: 'Differences below these count as none.' })

const fields = z
  .strictObject({
    duties: z
      .array(duty)
      .min(1)
      .max(101)
      .optional()
      .meta({ description: 'Duties to try. Default: duty_min to 1 by duty_step.' }),
    duty_step: quantity({
      unit: 'share',
      min: 0.005,
      max: 0.5,
      why: 'finer than half a percent no throttle can be set',
      about: `Step of duty. Default: ${DUTY_STEP}.`,
    }).optional(),
    duty_min: duty.optional().meta({ description: `Least duty to try. Default: ${DUTY_MIN}.` }),
    nozzle_ratios: z
      .array(nozzleRatio)
      .min(1)
      .max(20)
      .prefault(NOZZLE_RATIOS)
      .meta({ description: 'Nozzle ratios to try.' }),
    arrangements: z
      .array(z.enum(arrangements))
      .min(1)
      .max(30)
      .prefault([...arrangements])
      .meta({ description: 'Packs to try.' }),
    charge,
    resolution,
    whole_front: z.boolean().prefault(false).meta({ description: 'Also show members far below the target.' }),
  })
  .refine(
    (sweep) => sweep.duties === undefined || sweep.duty_step === undefined,
    crossRule('exclusive', ['duty_step'], 'cannot stand beside duties: give the list or the step'),
  )
  .refine(
    (sweep) => sweep.duties === undefined || sweep.duty_min === undefined,
    crossRule('exclusive', ['duty_min'], 'cannot stand beside duties: give the list or its least value'),
  )

export const sweep = fields
  .transform((read): SweepRequest['sweep'] => ({
    duties: read.duties ? ascending(read.duties) : dutyLadder(read.duty_min ?? DUTY_MIN, read.duty_step ?? DUTY_STEP),
    nozzleRatios: ascending(read.nozzle_ratios),
    arrangements: arrangements.filter((arrangement) => read.arrangements.includes(arrangement)),
    charge: read.charge,
    resolution: read.resolution,
    wholeFront: read.whole_front,
  }))
  .prefault({})
  .meta({ description: 'What is tried and how finely answers are told apart.' })
