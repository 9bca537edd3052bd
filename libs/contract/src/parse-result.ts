// Reads an answer back in, such as the JSON that came with a mail.
import { readBySchema } from './issue-faults.js'
import type { Result } from './result.js'
import { resultSchema } from './result-schema.js'

/** Some thousand setups of some hundred figures each, and paragraphs of words. */
const LIMITS = { values: 20_000_000, text: 5_000 }

/** Throws InputError with all faults of what is not a result. */
export function parseResult(json: unknown): Result {
  return readBySchema(resultSchema, json, 'result', LIMITS)
}
