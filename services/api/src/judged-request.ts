// Judges a request before anything is stored: what the catalogue cannot answer and what is too large to sweep is refused.
import type { SweepRequest } from '@ductwright/contract/request'
import { refusalOf, type SweepLimits, tooMany } from '@ductwright/pipeline/acceptance'
import { prepare } from '@ductwright/pipeline/prepare'
import { estimateSweep, flyPilot, type SweepEstimate } from '@ductwright/pipeline/shards'
import { z } from 'zod'
import type { CurrentCatalogue } from './current-catalogue.js'
import { Problem, type ProblemKey } from './problems.js'
import type { ApiSettings } from './settings.js'

export const sweepEstimate = z
  .object({ combinations: z.number(), compatible: z.number(), seconds: z.number(), bytes: z.number() })
  .describe('What the sweep covers, and about how long and how much memory one thread takes')

/** Every way in which a question can be refused. */
export const questionRefusals = [
  'broken-json',
  'invalid-query',
  'body-too-large',
  'wrong-content-type',
  'invalid-request',
  'too-many-combinations',
  'key-reused',
  'too-many-requests',
  'store-unavailable',
  'no-catalogue',
] as const satisfies readonly ProblemKey[]

export interface Judgement {
  /** The catalogue version it was judged by. */
  readonly version: string
  readonly estimate: z.infer<typeof sweepEstimate>
}

export async function judge(
  understood: SweepRequest,
  ownParts: string | null,
  catalogue: CurrentCatalogue,
  settings: ApiSettings,
): Promise<Judgement> {
  const current = await catalogue(ownParts)
  const prepared = prepare(understood, current)
  refuse(tooMany(prepared.plan.raw, limitsOf(settings)))
  const estimate = estimateSweep(prepared, flyPilot(prepared.problem, prepared.plan))
  refuseTooMany(estimate, settings)
  return { version: current.version, estimate }
}

export function refuseTooMany(estimate: SweepEstimate, settings: ApiSettings): void {
  refuse(refusalOf(estimate, limitsOf(settings), 1))
}

function limitsOf({ combinationsMax, sweepSecondsMax, sweepBytesMax }: ApiSettings): SweepLimits {
  return { combinations: combinationsMax, seconds: sweepSecondsMax, bytes: sweepBytesMax }
}

function refuse(why: string | null): void {
  if (why !== null) throw new Problem('too-many-combinations', why)
}
