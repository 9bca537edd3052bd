// A standing request as it comes over the wire: a sweep request that is asked again whenever its answer may have changed,
// and perhaps on a schedule. It needs an address, since its point is the mail that comes when something changed.
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { readBySchema } from './issue-faults.js'
import { ownPartsOf } from './own-parts.js'
import { requestSchema } from './parse-request.js'
import type { SweepRequest } from './request.js'

export interface StandingRequest {
  readonly understood: SweepRequest & { readonly address: string }
  readonly everyDays: number | null
  readonly ownParts: string | null
}

const everyDays = z
  .int()
  .min(1)
  .max(366)
  .nullable()
  .prefault(null)
  .meta({ description: 'Also run every so many days; null: only when the catalogue or the models change.' })

const standingSchema = z
  .strictObject({ request: requestSchema, every_days: everyDays })
  .refine(
    ({ request }) => request?.address !== null,
    crossRule('required', ['request', 'address'], 'must be given: a standing request exists to write to it'),
  )
  .transform(
    ({ request, every_days }): Omit<StandingRequest, 'ownParts'> => ({
      understood: { ...request, address: request.address ?? '' },
      everyDays: every_days,
    }),
  )

export const standingChangeSchema = z.strictObject({
  state: z.enum(['active', 'paused']).meta({ description: 'paused: no runs and no mails until it is active again.' }),
})

/** Reads a standing request; throws InputError with all faults. */
export function parseStanding(json: unknown): StandingRequest {
  const read = readBySchema(standingSchema, json, 'standing request')
  return { ...read, ownParts: ownPartsOf((json as { readonly request: unknown }).request) }
}

export function parseStandingChange(json: unknown): z.output<typeof standingChangeSchema> {
  return readBySchema(standingChangeSchema, json, 'change')
}
