// A standing request as the API shows it, and how it is found.
import type { StandingRow } from '@ductwright/records/standing-records'
import { z } from 'zod'
import type { ApiDeps } from './deps.js'
import { Problem } from './problems.js'

export const standingParams = z.object({
  id: z.string().describe('Id given by the reply to POST /v1/standing-requests'),
})

const version = z.object({ catalogue: z.string(), model: z.string() })

export const standingSummary = z.object({
  id: z.string(),
  title: z.string(),
  state: z.enum(['active', 'paused']),
  unsubscribed: z.boolean().describe('Its reader has ended it; only a new one can follow'),
  revision: z.number().int(),
  every_days: z.number().int().nullable(),
  next_run: z.string().nullable().describe('Of the schedule; null without one'),
  running: z.string().nullable().describe('The run under way, a request id'),
  settling: z.boolean().describe('A change was seen; a run follows once no other comes'),
  answered: version
    .extend({ revision: z.number().int() })
    .nullable()
    .describe('What the last ended run was pinned to; null before the first'),
  last_cause: z.string().nullable().describe('Why the last run gave no answer'),
  told: z.string().nullable().describe('The run whose answer was last mailed'),
  created: z.string(),
  revised: z.string(),
})

export function summaryOf(row: StandingRow): z.infer<typeof standingSummary> {
  const { settled } = row
  return {
    id: row.id,
    title: row.title,
    state: row.state === 'paused' ? 'paused' : 'active',
    unsubscribed: row.unsubscribed,
    revision: row.revision,
    every_days: row.everyDays,
    next_run: row.dueAt,
    running: row.runId,
    settling: row.settling,
    // A resumed one is asked again; what it was answered for stays true.
    answered: settled === null ? null : { ...settled, revision: Math.max(1, settled.revision) },
    last_cause: row.lastCause,
    told: row.toldRunId,
    created: row.createdAt,
    revised: row.revisedAt,
  }
}

/** The tag of a revision, for If-Match. */
export const tagOf = ({ revision }: StandingRow): string => `revision-${revision}`

export async function knownStanding({ records }: ApiDeps, id: string): Promise<StandingRow> {
  const row = /^[A-Za-z0-9_-]{1,64}$/.test(id) ? await records.getStanding(id) : null
  if (row === null) throw new Problem('not-found', 'No standing request has this id.')
  if (row.state === 'deleted') throw new Problem('deleted', 'This standing request was deleted.')
  return row
}

/** The question as it was sent, without the address and without the key to own parts. */
export function questionOf(row: StandingRow): Record<string, unknown> {
  const { address: _address, own_parts: _key, ...question } = JSON.parse(row.body) as Record<string, unknown>
  return question
}
