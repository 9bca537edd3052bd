// A stored answer as something to draw from. Answers are kept as they were written, so one may be of an earlier release
// whose answers had other fields; that is said instead of drawn wrongly.
import type { Result } from '@ductwright/contract/result'
import { resultSchema } from '@ductwright/contract/result-schema'
import { Problem } from './problems.js'

/** As it was stored. */
export interface Answer {
  readonly result: string
  readonly answerHash: string
  readonly receipt: string
}

/** One release wrote all setups of an answer, so the first speaks for thousands. */
function sampleOf(result: Result): unknown {
  return Array.isArray(result.front) ? { ...result, front: result.front.slice(0, 1) } : result
}

/** @throws Problem when this release cannot draw it */
export function drawable({ result }: Pick<Answer, 'result'>): Result {
  const json = JSON.parse(result) as Result
  const read = resultSchema.safeParse(sampleOf(json))
  if (read.success) return json
  const field = read.error.issues[0]?.path.join('.') ?? ''
  const { format, model_version: models } = json
  throw new Problem(
    'answer-of-earlier-form',
    `The answer was written by models ${models} as ${format}; this release expects other fields there: ${field}.`,
  )
}
