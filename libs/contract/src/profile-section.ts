// How it is flown: flight time, passes and cruise, reserve, and the hardest turn. Limits are assumed for this design.
import { z } from 'zod'
import { quantity, ratio, share } from './quantity.js'

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
  })
  .prefault({})
  .meta({ description: 'How it is flown.' })

/** The profile as the models want it; the cruise speed falls back on what the caller derives, m/s. */
export function profileOf(fields: z.output<typeof profile>, cruiseSpeedDefault: number) {
  return {
    flightTime: fields.flight_time_min,
    fullThrottleShare: fields.full_throttle_share,
    passTime: fields.pass_s,
    cruiseSpeed: fields.cruise_speed_km_h ?? cruiseSpeedDefault,
    reserve: fields.reserve,
    loadFactor: fields.load_factor,
  }
}
