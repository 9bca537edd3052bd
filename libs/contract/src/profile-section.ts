// How it is flown: flight time, passes and cruise, reserve, and the hardest turn. Limits are assumed for this design.
import { z } from 'zod'
import { quantity, ratio, share } from './quantity.js'
import type { FlightProfile } from './request.js'

/** A flight time in minutes. */
export const flightMinutes = (about: string) =>
  quantity({
    unit: 'min',
    min: 0.5,
    max: 30,
    why: 'shorter is no flight, and no ducted-fan jet stays up longer',
    about,
  })

const cruiseSpeed = quantity({
  unit: 'km/h',
  min: 20,
  max: 600,
  why: 'slower hardly any jet flies, faster is no cruise',
  about: 'Speed between passes. Default: 0.45 of the target speed (one setup: 135 km/h).',
})

const radius = (about: string) =>
  quantity({
    unit: 'm',
    min: 10,
    max: 2000,
    why: 'tighter no model turns at speed, wider is no turn',
    about,
  })

export const profile = z
  .strictObject({
    flight_time_min: flightMinutes('Flight time wanted, also judged for heat.').prefault(4),
    full_throttle_share: share(
      0.01,
      1,
      'a flight has some full throttle',
      'Share of the flight at full throttle.',
    ).prefault(0.25),
    pass_s: quantity({
      unit: 's',
      min: 1,
      max: 120,
      why: 'a pass takes from one second to two minutes',
      about: 'Length of one full-throttle pass.',
    }).prefault(10),
    cruise_speed_km_h: cruiseSpeed.optional(),
    reserve: share(
      0.05,
      0.6,
      'an emptied pack stops motor and receiver in the air',
      'Share of charge left at landing.',
    ).prefault(0.2),
    load_factor: ratio(
      1,
      60,
      'level flight is 1, and no wing here carries 60',
      'Load factor of the hardest turn.',
    ).prefault(6),
    turn_radius_m: radius('Tightest level turn flown at top speed; null: the load factor alone counts.')
      .nullable()
      .prefault(null),
    pull_up_radius_m: radius('Tightest pull-up flown at top speed; null: the load factor alone counts.')
      .nullable()
      .prefault(null),
    climb_height_m: quantity({
      unit: 'm',
      min: 0,
      max: 500,
      why: 'a jet is flown in sight',
      about: 'Height of the first climb at full throttle.',
    }).prefault(60),
    approach_s: quantity({
      unit: 's',
      min: 0,
      max: 300,
      why: 'a landing takes no longer',
      about: 'Time of the approach, before the reserve.',
    }).prefault(30),
  })
  .prefault({})
  .meta({ description: 'How it is flown.' })

/** The profile as read; the cruise speed falls back on what the caller derives, m/s. */
export function profileOf(fields: z.output<typeof profile>, cruiseSpeedDefault: number): FlightProfile {
  return {
    flightTime: fields.flight_time_min,
    fullThrottleShare: fields.full_throttle_share,
    passTime: fields.pass_s,
    cruiseSpeed: fields.cruise_speed_km_h ?? cruiseSpeedDefault,
    reserve: fields.reserve,
    loadFactor: fields.load_factor,
    turnRadius: fields.turn_radius_m,
    pullUpRadius: fields.pull_up_radius_m,
    climbHeight: fields.climb_height_m,
    approachTime: fields.approach_s,
  }
}
