// What ruled combinations out, as the letter tells it: parts that do not go together as one figure, then each limit.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import type { Pair } from './letter.js'

type Removal = Result['counts']['removed'][number]

// Rules on parts alone; they say nothing about the target.
const misfits = new Set([
  'fan-size',
  'nozzle-exit',
  'blade-stall',
  'motor-bore',
  'motor-shaft',
  'motor-cells',
  'esc-cells',
  'connector',
  'battery-bay',
])

/** The limits that ruled something out, the one that ruled out most first. */
export function limitRemovals({ counts }: Result): Removal[] {
  const limits = counts.removed.filter(({ rule, count }) => count > 0 && !misfits.has(rule))
  return limits.sort((a, b) => b.count - a.count || (a.rule < b.rule ? -1 : 1))
}

/** A rule in words; the speed floor with its figure. */
export function removalWords(removal: Removal, { rules }: Result): string {
  const floor = removal.rule === 'speed-floor' && rules.speed_floor_km_h > 0
  return floor ? `top speed under ${figure('speed', rules.speed_floor_km_h)}` : inert(removal.words, 200)
}

export function removalPairs(result: Result): Pair[] {
  const apart = result.counts.removed.filter(({ rule }) => misfits.has(rule)).reduce((sum, { count }) => sum + count, 0)
  const limits = limitRemovals(result).map((removal) => ({
    label: removalWords(removal, result),
    value: figure('count', removal.count),
  }))
  return apart > 0 ? [{ label: 'parts that do not go together', value: figure('count', apart) }, ...limits] : limits
}
