// Where and how heavy it is flown, and the timed run. Defaults are written as a person could have written them, in the
// documented unit. Limits keep absurd numbers out; unless a source is named they are assumed for this design.
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { quantity, share } from './quantity.js'

// 25 kg is where the open category of Regulation (EU) 2019/947 ends.
const massKg = (about: string) =>
  quantity({
    unit: 'kg',
    min: 0.3,
    max: 25,
    why: 'no ducted-fan jet is lighter, and above 25 kg other rules of flight apply',
    about,
  })

export const mass = z
  .strictObject({
    limit_kg: massKg('Take-off mass not to be exceeded.').optional(),
    fixed_kg: massKg('Flown at exactly this mass; lighter setups carry ballast.').optional(),
  })
  .refine(
    (fields) => fields.limit_kg === undefined || fields.fixed_kg === undefined,
    crossRule('exclusive', ['fixed_kg'], 'cannot stand beside limit_kg: give one of the two'),
  )
  .transform((fields) => ({ limit: fields.limit_kg ?? null, fixed: fields.fixed_kg ?? null }))
  .prefault({})
  .meta({ description: 'Mass rule besides the limit of the airframe; at most one of the two. Default: none.' })

export const field = z
  .strictObject({
    elevation_m: quantity({
      unit: 'm',
      min: -430,
      max: 5000,
      why: 'the lowest dry land is the shore of the Dead Sea, and no model club flies above 5000 m',
      about: 'Elevation of the field.',
    }).prefault(0),
    temperature_c: quantity({
      unit: '°C',
      min: -30,
      max: 55,
      why: 'outside it neither packs nor pilots fly',
      about: 'Air temperature.',
    }).prefault(15),
    runway_m: quantity({
      unit: 'm',
      min: 5,
      max: 3000,
      why: 'shorter is a hand launch, longer is no model field',
      about: 'Ground available for the take-off roll.',
    }).prefault(120),
    rolling_friction: share(0, 0.5, 'above 0.5 no model rolls', 'Rolling friction coefficient of the ground.').prefault(
      0.04,
    ),
  })
  .transform((fields) => ({
    elevation: fields.elevation_m,
    temperature: fields.temperature_c,
    runway: fields.runway_m,
    rollingFriction: fields.rolling_friction,
  }))
  .prefault({})
  .meta({ description: 'Where it is flown.' })

export const run = z
  .strictObject({
    length_m: quantity({
      unit: 'm',
      min: 50,
      max: 5000,
      why: 'a timed run is seen by its pilot, and shorter ones cannot be timed',
      about: 'Length of the run.',
    }).prefault(400),
    entry_speed_share: share(
      0.2,
      1.5,
      'entry is between a slow turn and a dive',
      'Entry speed over steady speed.',
    ).prefault(0.6),
    entry_height_m: quantity({
      unit: 'm',
      min: 0,
      max: 500,
      why: 'a run is not entered from below, nor from out of sight',
      about: 'Height given up in a dive before the run.',
    }).prefault(0),
    dive_angle_deg: quantity({
      unit: '°',
      min: 5,
      max: 90,
      why: 'flatter is no dive, steeper than straight down there is nothing',
      about: 'Angle of that dive below the horizon.',
    }).prefault(30),
  })
  .transform((fields) => ({
    length: fields.length_m,
    entrySpeedShare: fields.entry_speed_share,
    entryHeight: fields.entry_height_m,
    diveAngle: (fields.dive_angle_deg * Math.PI) / 180,
  }))
  .prefault({})
  .meta({
    description: 'The timed pass, for speeds "in-run" and "dive"; a dive counts for the structure whatever the basis.',
  })

export const charge = share(
  0.2,
  1,
  'below a fifth the pack sags out of its model',
  'State of charge at which speed is quoted.',
).prefault(0.7)
