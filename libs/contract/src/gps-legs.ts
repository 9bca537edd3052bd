// Legs flown at one throttle, as a satellite receiver shows them, in place of a measured air speed: two or more runs in
// opposite directions, or three or more legs in different ones. What comes out is the true air speed and its scatter.
import { type AirSpeed, airSpeedFromLegs, type Leg } from '@ductwright/models/calibration/air-speed'
import { z } from 'zod'
import { quantity } from './quantity.js'

const MOST_LEGS = 12

/** Air speed from legs; m/s. `spread` is null where nothing repeats. */
export interface MeasuredAirSpeed {
  readonly speed: number
  readonly spread: number | null
}

const leg = z
  .strictObject({
    ground_speed_km_h: quantity({
      unit: 'km/h',
      min: 20,
      max: 1000,
      why: 'slower is no run, faster no ducted-fan jet flies over the ground',
      about: 'Ground speed.',
    }),
    track_deg: quantity({
      unit: '°',
      min: 0,
      max: 360,
      why: 'a compass has no other',
      about: 'Track over the ground, clockwise from true north.',
    }),
  })
  .transform((fields): Leg => ({ groundSpeed: fields.ground_speed_km_h, track: (fields.track_deg * Math.PI) / 180 }))

/** True air speed and wind of legs; throws RangeError saying what is missing. */
export function airSpeedOf(legs: readonly Leg[]): AirSpeed {
  return airSpeedFromLegs(legs)
}

/** Legs in, true air speed out. */
export const gpsLegs = z
  .array(leg)
  .min(2)
  .max(MOST_LEGS)
  .transform((legs, context): MeasuredAirSpeed => {
    try {
      const { speed, spread } = airSpeedOf(legs)
      return { speed, spread }
    } catch (error) {
      if (!(error instanceof RangeError)) throw error
      const message = `cannot give an air speed: ${error.message}`
      context.addIssue({ code: 'custom', input: legs, message, params: { rule: 'undetermined' } })
      return z.NEVER
    }
  })
  .meta({
    description: `Ground speeds and tracks of 2 to ${MOST_LEGS} legs at one throttle and height: opposite runs, or three directions or more.`,
  })
