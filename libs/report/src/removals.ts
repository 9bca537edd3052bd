// What ruled combinations out, as the letter tells it: parts that do not go together as one figure, which the answer knows,
// then each limit, which only the receipt of the work does.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Receipt, Result, RuleCount } from '@ductwright/contract/result'
import type { Pair } from './letter.js'

export function removalPairs(result: Result, receipt: Receipt | null): Pair[] {
  return [...misfitPairs(result), ...limitPairs(result, receipt)]
}

function misfitPairs({ counts }: Result): Pair[] {
  const apart = counts.misfits.reduce((sum, { count }) => sum + count, 0)
  return apart === 0 ? [] : [{ label: 'parts that do not go together', value: figure('count', apart) }]
}

/** The limit that ruled out most first. */
function limitPairs(result: Result, receipt: Receipt | null): Pair[] {
  return byCount(receipt?.removed ?? []).map((removal) => ({
    label: limitWords(removal, result),
    value: figure('count', removal.count),
  }))
}

/** A limit in words; the speed floor with its figure. */
function limitWords({ rule, words }: RuleCount, { rules }: Result): string {
  const floor = rule === 'speed-floor' && rules.speed_floor_km_h > 0
  return floor ? `top speed under ${figure('speed', rules.speed_floor_km_h)}` : inert(words, 200)
}

/** Those that removed something, the most first. */
export function byCount<Rule extends RuleCount>(rules: readonly Rule[]): Rule[] {
  const some = rules.filter(({ count }) => count > 0)
  return some.sort((a, b) => b.count - a.count || (a.rule < b.rule ? -1 : 1))
}
