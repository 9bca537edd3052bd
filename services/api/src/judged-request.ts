// Judges a request before anything is stored: what the catalogue cannot answer and what is too large to sweep is refused.
import type { SweepRequest } from '@ductwright/contract/request'
import { prepare } from '@ductwright/pipeline/prepare'
import { estimateSweep } from '@ductwright/pipeline/shards'
import { z } from 'zod'
import type { CurrentCatalogue } from './current-catalogue.js'
import { Problem, type ProblemKey } from './problems.js'
import type { ApiSettings } from './settings.js'

export const sweepEstimate = z
  .object({ combinations: z.number(), compatible: z.number(), seconds: z.number() })
  .describe('What the sweep covers, and about how long one thread takes')

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
  const estimate = estimateSweep(prepare(understood, current))
  refuseTooMany(estimate, settings)
  return { version: current.version, estimate }
}

export function refuseTooMany(
  estimate: { readonly combinations: number; readonly seconds: number },
  settings: ApiSettings,
): void {
  const cure = 'Name fewer duties or nozzle ratios under /sweep, or require and exclude parts.'
  if (!(estimate.combinations <= settings.combinationsMax)) {
    const words = `The sweep has ${estimate.combinations.toExponential(2)} combinations; at most ${settings.combinationsMax.toExponential(2)} are accepted. ${cure}`
    throw new Problem('too-many-combinations', words)
  }
  if (!(estimate.seconds <= settings.sweepSecondsMax)) {
    const words = `The sweep of ${estimate.combinations.toExponential(2)} combinations would take about ${Math.round(estimate.seconds)} s; at most ${settings.sweepSecondsMax} s are accepted. ${cure}`
    throw new Problem('too-many-combinations', words)
  }
}
