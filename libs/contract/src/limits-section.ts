// What every setup must keep: margin, headroom, stall speed, thrust and flight time. Limits are assumed for this design.
import { z } from 'zod'
import { flightMinutes } from './profile-section.js'
import { quantity, ratio, share } from './quantity.js'

export const limits = z
  .strictObject({
    margin: share(0, 3, 'below 0 the structure is overloaded by the model itself', 'Least structural margin.').prefault(
      0,
    ),
    headroom: share(
      0,
      0.5,
      'below 0 a limit is broken, above a half little is left',
      'Kept free on every limit.',
    ).prefault(0.1),
    stall_speed_km_h: quantity({
      unit: 'km/h',
      min: 20,
      max: 200,
      why: 'slower needs no limit, faster cannot be landed',
      about: 'Highest stall speed.',
    }).prefault(80),
    thrust_to_weight: ratio(0, 3, 'it is a ratio of forces', 'Least standing thrust over weight.').prefault(0.4),
    flight_time_min: flightMinutes('Least flight time; null: none.').nullable().prefault(null),
  })
  .transform((fields) => ({
    margin: fields.margin,
    headroom: fields.headroom,
    stallSpeed: fields.stall_speed_km_h,
    thrustToWeight: fields.thrust_to_weight,
    flightTime: fields.flight_time_min,
  }))
  .prefault({})
  .meta({ description: 'What a setup must keep.' })
