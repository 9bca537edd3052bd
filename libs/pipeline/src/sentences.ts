// The sentences of an answer: why a rank, what the pilot has now, picks, near misses. Built from numbers only; every figure
// goes through the one formatter.
import {
  bareSpeed,
  belowDesign,
  duration,
  figure,
  money,
  percent,
  reserve,
  shortfall,
} from '@ductwright/contract/figures'
import type { Objectives, Pick, PurchaseLine, SetupFigures } from '@ductwright/contract/result'
import type { Limit } from '@ductwright/models/evaluation/limits'

type Named = Readonly<Record<string, string>>

/** "360 km/h, 4:35 min, 845 EUR to pay, 31 % below the design load"; beside a target where there is one, km/h. */
export function performance(raw: Objectives, currency: string, target = 0): string {
  return [
    `${bareSpeed(raw.speed_km_h, target)}\u00a0km/h`,
    duration(raw.flight_time_s),
    raw.cost > 0 ? `${money(raw.cost, currency)} to pay` : 'nothing to pay',
    belowDesign(raw.margin),
  ].join(', ')
}

export function buying(lines: readonly PurchaseLine[]): string {
  const wanted = lines.filter(({ buy }) => buy > 0).map(({ buy, name }) => (buy > 1 ? `${buy} × ${name}` : name))
  return wanted.length > 0 ? listed(wanted) : 'nothing new'
}

/** What a reason is made of; `best` opens that of the first. */
export interface Standing {
  readonly raw: Objectives
  readonly first: Objectives
  readonly rank: number
  readonly target: number
  readonly wantedMargin: number
  readonly currency: string
  readonly best: string
}

/** Why a setup stands where it does: the first on its own, the others against the first. */
export function whyOf({ raw, first, rank, target, wantedMargin, currency, best }: Standing): string {
  if (rank === 1) return `${best}: ${reaching(raw, target, wantedMargin)}.`
  const better = differences(raw, first, currency, true)
  const worse = differences(raw, first, currency, false)
  if (better.length === 0 && worse.length === 0) return 'As good as the first in every respect.'
  const gains =
    better.length > 0
      ? `${capital(listed(better))} than the first`
      : 'No better than the first in any respect that counts'
  return worse.length > 0 ? `${gains}, but ${listed(worse)}.` : `${gains}.`
}

/** What a setup is picked for; `own`: the list is ranked by the owner's own expression. */
export function pickWhy(
  pick: Pick['pick'],
  { reached, own }: { readonly reached: boolean; readonly own: boolean },
): string {
  switch (pick) {
    case 'best-all-round':
      return own ? 'The first by your own expression.' : 'The best of everything you asked for, taken together.'
    case 'fastest':
      return 'The highest speed of all setups that hold every limit.'
    case 'safest':
      return `The largest distance from the design loads${reached ? ' among those that reach the target' : ''}.`
    case 'best-for-the-money':
      return reached
        ? 'The least money that reaches the target.'
        : 'The most speed for the money, as the target is out of reach.'
  }
}

export function nowWords(
  measured: number,
  drag: { readonly area: number; readonly low: number; readonly high: number },
  figures: SetupFigures,
): string {
  const area = figure('dragArea', drag.area * 1e4)
  const band = `${figure('dragArea', drag.low * 1e4)} to ${figure('dragArea', drag.high * 1e4)}`
  const standing = `${figure('current', figures.standing.pack_current_a)} and ${figure('power', figures.standing.pack_power_w)} standing`
  return `You measured ${figure('speed', measured)}; with this setup that takes a drag area of ${area} (${band}). It draws ${standing}, and stays ${belowDesign(figures.margin)}.`
}

/** What a near miss breaks: by how much, in the terms of that limit; `over` is the share over what is allowed. */
export function nearWhy(miss: {
  readonly limit: Limit
  readonly words: string
  readonly over: number
  readonly raw: Objectives
  readonly target: number
  readonly budget: number | null
  readonly currency: string
}): string {
  const { limit, raw, currency } = miss
  const does = performance(raw, currency, miss.target)
  if (limit === 'budget') {
    return `Over the budget by ${money(raw.cost - (miss.budget ?? 0), currency)}; it would do ${does}.`
  }
  if (limit === 'speed-floor') {
    return `Holds every limit, but is ${shortfall(miss.target - raw.speed_km_h)} short of the target: ${does}.`
  }
  // Rounded up, so that no miss reads as none.
  const over = figure('exactPercent', Math.ceil(miss.over * 1000 - 1e-6) / 10)
  return `Over by ${over} on ${miss.words}; it would do ${does}.`
}

export function namesOf(known: ReadonlyMap<string, { readonly name: string }>, ids: Iterable<string>): Named {
  const entries = [...new Set(ids)].sort().map((id) => [id, known.get(id)?.name ?? id] as const)
  return Object.fromEntries(entries)
}

/** "a, b and c" */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
}

function reaching(raw: Objectives, target: number, wantedMargin: number): string {
  const speed =
    raw.speed_km_h >= target ? 'reaches the target' : `comes within ${shortfall(target - raw.speed_km_h)} of the target`
  const kept =
    raw.margin >= wantedMargin
      ? 'with the reserve wanted'
      : `with ${reserve(raw.margin)} of the ${percent(wantedMargin)} reserve wanted`
  return `${speed} ${kept}`
}

/** What is better (or worse) than the first, by more than shows in the figures. */
export function differences(raw: Objectives, first: Objectives, currency: string, better: boolean): string[] {
  const sign = better ? 1 : -1
  const found: string[] = []
  const speed = sign * (raw.speed_km_h - first.speed_km_h)
  if (Math.round(speed) >= 1) found.push(`${figure('speed', speed)} ${better ? 'faster' : 'slower'}`)
  const time = sign * (raw.flight_time_s - first.flight_time_s)
  if (Math.round(time) >= 1) found.push(`${figure('seconds', time)} ${better ? 'longer' : 'shorter'} in the air`)
  const cost = sign * (first.cost - raw.cost)
  if (Math.round(cost) >= 1) found.push(`${money(Math.round(cost), currency)} ${better ? 'cheaper' : 'dearer'}`)
  const margin = 100 * sign * (raw.margin - first.margin)
  if (Math.round(margin) >= 1)
    found.push(`${figure('percent', margin)} of the design load ${better ? 'safer' : 'less safe'}`)
  return found
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

export function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}
