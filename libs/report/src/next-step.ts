// What to do next, in one or two sentences for the first screen: order, clean up, check on the bench and fly in steps; or
// the smallest change of the request that would make it possible, where the answer is no.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Advice, Member, Result } from '@ductwright/contract/result'
import { capital } from './capital.js'
import { feasibleChange } from './change-words.js'

const longestWords = 600

/** Empty where nothing is known that would help. */
export function nextStep(result: Result, member: Member | undefined): string {
  if (result.outcome === 'reached' && member !== undefined) return towardFlight(result, member)
  const feasible = feasibleChange(result)
  if (feasible !== undefined) return `${capital(inert(feasible.change.words, longestWords))}${feasible.how}`
  const words = result.drag_work?.words ?? adviceFor(result, member)?.steps[0]?.words
  if (words !== undefined) return capital(inert(words, longestWords))
  return result.nearest.length > 0 ? 'See what came nearest below, and what stands in its way.' : ''
}

/** The advice on a setup; only the named picks have any. */
export function adviceFor({ picks }: Result, member: Member | undefined): Advice | undefined {
  return picks.find(({ rank }) => rank === member?.rank)?.advice
}

function towardFlight({ airframe }: Result, { shopping, figures }: Member): string {
  const hours = airframe.treatments.reduce((sum, work) => sum + work.hours, 0)
  const ordered = shopping.some(({ role, buy }) => role !== 'treatment' && buy > 0)
  const { pack_current_a, pack_power_w, thrust_n } = figures.standing
  const readings = `${figure('current', pack_current_a)}, ${figure('power', pack_power_w)}, ${figure('force', thrust_n)}`
  const steps = [
    ordered ? 'order the parts' : 'fit what you have',
    ...(hours > 0 ? [`do the clean-up work (${figure('hours', hours)})`] : []),
    `check it on the bench (anchored, packs full: about ${readings})`,
    `then fly, with at most ${figure('percent', 10)} more speed from flight to flight`,
  ]
  return `${capital(steps.join(', '))}.`
}
