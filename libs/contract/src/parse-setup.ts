// One setup to be worked through on its own, as it comes over the wire, and its reading into SetupRequest. Shares every
// section and default with the sweep request.
import { z } from 'zod'
import { airframe, flownSpeed, setupChoice } from './airframe-section.js'
import { charge, field, mass, run } from './circumstances.js'
import { readBySchema } from './issue-faults.js'
import { limits } from './limits-section.js'
import { owned, treatments } from './part-list.js'
import { profile, profileOf } from './profile-section.js'
import type { SetupRequest } from './setup.js'
import { TITLE_LENGTH, title } from './text.js'

/** Cruise speed where no target gives one, m/s. Assumed: 135 km/h, what a 300 km/h request would cruise at. */
const CRUISE_SPEED = 135 / 3.6

const fields = z.strictObject({
  title: title.optional(),
  airframe,
  setup: setupChoice.meta({ description: 'Parts and settings to work through.' }),
  treatments,
  target_speed_km_h: flownSpeed('Speed the odds are given for; null: none.').nullable().prefault(null),
  mass,
  field,
  profile,
  run,
  limits,
  owned,
  charge,
})

/** Schema of a setup request: what a person writes in, SetupRequest out. */
export const setupSchema = fields.transform(
  ({ target_speed_km_h: target, ...read }): SetupRequest => ({
    ...read,
    target,
    title: read.title ?? `${read.setup.fan} with ${read.setup.motor}`.slice(0, TITLE_LENGTH),
    profile: profileOf(read.profile, CRUISE_SPEED),
  }),
)

/** Reads a setup request; throws InputError with all faults. */
export function parseSetup(json: unknown): SetupRequest {
  return readBySchema(setupSchema, json, 'setup request')
}
