// A sweep request as it comes over the wire, and its reading into SweepRequest: plain numbers in the unit their key names,
// or text with a unit; every default filled in; every fault reported at once with its JSON Pointer.
import { z } from 'zod'
import { address } from './address.js'
import { airframe, flownSpeed, speedBases } from './airframe-section.js'
import { field, mass, run } from './circumstances.js'
import { crossRule } from './cross-rule.js'
import { readBySchema } from './issue-faults.js'
import { limits } from './limits-section.js'
import { money } from './money.js'
import { ownParts } from './own-parts.js'
import { owned, partIds, treatments } from './part-list.js'
import { flightMinutes, profile, profileOf } from './profile-section.js'
import { share } from './quantity.js'
import type { SweepRequest } from './request.js'
import { sweep } from './sweep-section.js'
import { title } from './text.js'
import { wishes } from './wishes-section.js'

/** Cruise as a share of the target speed. Assumed: what is left of the noise and the charge asks for about this. */
const CRUISE_SHARE = 0.45

const target = z
  .strictObject({
    speed_km_h: flownSpeed('Speed to reach.'),
    basis: z
      .enum(speedBases)
      .prefault('steady')
      .meta({ description: 'Level equilibrium, what one pass reaches, or the bottom of the dive before it.' }),
  })
  .meta({ description: 'What is aimed at.' })

const wanted = z
  .strictObject({
    flight_time_min: flightMinutes(
      'More flight time than this counts no further. Default: that of the profile.',
    ).optional(),
    margin: share(
      0,
      3,
      'a margin of 3 is four times the strength needed',
      'More structural margin than this counts no further.',
    ).prefault(0.25),
  })
  .prefault({})
  .meta({ description: 'What is wanted besides speed.' })

const fields = z
  .strictObject({
    title: title.optional(),
    address: address
      .nullable()
      .prefault(null)
      .meta({ description: 'Where the answer is mailed; null: only read back.' }),
    target,
    budget: money()
      .nullable()
      .prefault(null)
      .meta({ description: 'Most to be spent: a number in the currency of the catalogue, or a sum; null: no limit.' }),
    airframe,
    treatments,
    mass,
    field,
    profile,
    run,
    own_parts: ownParts,
    owned,
    required: partIds('Parts that must be in every setup.'),
    excluded: partIds('Parts that may be in none.'),
    wanted,
    wishes,
    limits,
    sweep,
  })
  .refine(
    (request) => !overlap(request.required, request.excluded),
    crossRule('contradiction', ['excluded'], 'names a part that is also required: take it out of one of the lists'),
  )
  .refine(
    (request) => !(request.target?.basis === 'dive' && request.run?.entryHeight === 0),
    crossRule('required', ['run'], 'must have an entry_height_m above 0 when the target speed is out of a dive'),
  )
  .refine(
    (request) => !faster(request.profile, request.target),
    crossRule('contradiction', ['profile', 'cruise_speed_km_h'], 'must not be above the target speed'),
  )

/** Either list may be something else here when it had faults of its own. */
function overlap(required: unknown, excluded: unknown): boolean {
  return Array.isArray(required) && Array.isArray(excluded) && required.some((id) => excluded.includes(id))
}

function faster(read: Partial<z.output<typeof profile>>, aim: Partial<z.output<typeof target>> | undefined): boolean {
  const cruise = read?.cruise_speed_km_h
  return typeof cruise === 'number' && typeof aim?.speed_km_h === 'number' && cruise > aim.speed_km_h
}

function titleFor(speed: number): string {
  return `Toward ${Number((speed * 3.6).toFixed(1))} km/h`
}

/** Schema of a sweep request: what a person writes in, SweepRequest out. */
export const requestSchema = fields.transform((read): SweepRequest => {
  const { speed_km_h: speed, basis } = read.target
  const flown = profileOf(read.profile, CRUISE_SHARE * speed)
  return {
    title: read.title ?? titleFor(speed),
    address: read.address,
    target: { speed, basis },
    budget: read.budget?.amount ?? null,
    budgetCurrency: read.budget?.currency ?? null,
    airframe: read.airframe,
    treatments: read.treatments,
    mass: read.mass,
    field: read.field,
    profile: flown,
    run: read.run,
    owned: read.owned,
    required: read.required,
    excluded: read.excluded,
    wanted: { flightTime: read.wanted.flight_time_min ?? flown.flightTime, margin: read.wanted.margin },
    wishes: read.wishes,
    limits: read.limits,
    sweep: read.sweep,
  }
})

/** Reads a sweep request; throws InputError with all faults. */
export function parseRequest(json: unknown): SweepRequest {
  return readBySchema(requestSchema, json, 'request')
}
