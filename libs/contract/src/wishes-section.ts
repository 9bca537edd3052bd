// What counts in the ranking: weights of the four objectives, or an expression of the owner's own.
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { ratio } from './quantity.js'
import { expression } from './read-expression.js'
import type { SweepRequest, Weights } from './request.js'

const MOST = 1e6

/** Speed counts more than the rest: it is what was asked for. Assumed. */
export const USUAL_WEIGHTS: Weights = { speed: 2, time: 1, cost: 1, margin: 1 }

const weight = (of: keyof Weights, words: string) =>
  ratio(
    0,
    MOST,
    'less than nothing cannot count, and only the proportion does',
    `Weight of ${words}; 0: it does not count.`,
  ).prefault(USUAL_WEIGHTS[of])

const weights = z
  .strictObject({
    speed: weight('speed', 'speed'),
    time: weight('time', 'flight time'),
    cost: weight('cost', 'cost'),
    margin: weight('margin', 'structural margin'),
  })
  .refine(
    (given) => Object.values(given).some((value) => !(value === 0)),
    crossRule('sum', [], 'must have at least one weight above 0: something has to count'),
  )
  .prefault({})
  .meta({ description: 'How much each objective counts in the ranking; only the proportion matters.' })

export const wishes = z
  .strictObject({ weights, expression: expression().nullable().prefault(null) })
  .transform((read): SweepRequest['wishes'] => read)
  .prefault({})
  .meta({ description: 'What counts in the ranking among setups that reach the target alike.' })
