// What stops a setup from being faster, as one kind and a short phrase: the limit that stops a higher throttle; at full
// throttle the rating that is all but used up, which keeps a stronger motor or pack out; else efflux, drag or power.
import { figure } from '@ductwright/contract/figures'
import type { Binds, Member } from '@ductwright/contract/result'
import type { Limit } from '@ductwright/models/evaluation/limits'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { type Ceiling, closeLimits, throttleWords } from './binding.js'

/** Flight time and cell voltage stop the throttle because the pack holds too little. */
const KINDS: Readonly<Record<Limit, Binds>> = {
  budget: 'money',
  'take-off-mass': 'mass',
  ballast: 'mass',
  'stall-speed': 'mass',
  'pack-power': 'power',
  'motor-current': 'current',
  'motor-power': 'power',
  'motor-speed': 'rpm',
  'esc-current': 'current',
  'esc-speed': 'rpm',
  'pack-current': 'current',
  'tip-speed': 'rpm',
  'tip-mach': 'rpm',
  'thrust-to-weight': 'power',
  'take-off-roll': 'power',
  'level-flight': 'power',
  'structural-margin': 'structure',
  'speed-floor': 'power',
  cruise: 'power',
  'flight-time': 'power',
  'cell-voltage': 'power',
  'winding-temperature': 'heat',
  'magnet-temperature': 'heat',
  'esc-temperature': 'heat',
  'pack-temperature': 'heat',
  convergence: 'power',
}

/** Assumed: flying at more than this share of its efflux speed, a setup gets faster by faster efflux and little else. */
const EFFLUX_SHARE = 0.85

export function bindsOf(detail: SetupDetail, ceiling: Ceiling): Member['binds'] {
  const words = throttleWords(detail, ceiling)
  const [closest] = closeLimits(detail)
  const limit = ceiling.stopper ?? closest
  return limit === undefined ? freeBinds(detail) : { kind: KINDS[limit], words }
}

/** Nothing is used up: what a tenth more power or less drag area would buy decides. */
function freeBinds({ top, response }: SetupDetail): Member['binds'] {
  const share = top.speed / top.efflux
  const tenth = figure('percent', 10)
  const [power, drag] = [0.1 * response.power, -0.1 * response.dragArea].map((part) =>
    figure('speed', part * top.speed * 3.6),
  ) as [string, string]
  if (share >= EFFLUX_SHARE) {
    const flown = figure('percent', 100 * share)
    return { kind: 'efflux', words: `it flies at ${flown} of its efflux speed, and only faster efflux helps much` }
  }
  return -response.dragArea > response.power
    ? { kind: 'drag', words: `full throttle is allowed; ${tenth} less drag area buys ${drag}, as much power ${power}` }
    : { kind: 'power', words: `full throttle is allowed; ${tenth} more power buys ${power}, as much less drag ${drag}` }
}
