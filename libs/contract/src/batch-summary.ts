// What a summary tells of one item: small enough to be kept beside each answer, so that the summary of hundreds of items
// reads none of their full answers. Pure, and the same bytes for the same answer.
import type { SetupChoice } from './request.js'
import type { Objectives, Result } from './result.js'

/** One step of a budget staircase: from this sum on, this speed. */
export interface StaircaseStep {
  readonly cost: number
  readonly speed_km_h: number
  readonly setup: SetupChoice
}

export interface ItemSummary {
  readonly title: string
  readonly airframe: string
  readonly airframe_name: string
  readonly treatments: readonly string[]
  readonly target_km_h: number
  readonly budget: number | null
  readonly currency: string
  readonly outcome: Result['outcome']
  readonly headline: string
  /** The setup ranked first; null when nothing holds every limit. */
  readonly first: { readonly setup: SetupChoice; readonly raw: Objectives } | null
  readonly steps: readonly StaircaseStep[]
  /** Names of the parts named above. */
  readonly names: Readonly<Record<string, string>>
}

const KMH = 3.6

export function itemSummary(result: Result): ItemSummary {
  const { understood } = result
  const [best] = result.front
  const steps = staircase(result.front.map(({ raw, setup }) => ({ cost: raw.cost, speed_km_h: raw.speed_km_h, setup })))
  const first = best === undefined ? null : { setup: best.setup, raw: best.raw }
  const setups = [...steps.map(({ setup }) => setup), ...(first === null ? [] : [first.setup])]
  return {
    title: understood.title,
    airframe: result.airframe.id,
    airframe_name: result.airframe.name,
    treatments: understood.treatments,
    target_km_h: Math.round(understood.target.speed * KMH * 10) / 10,
    budget: understood.budget,
    currency: result.catalogue.currency,
    outcome: result.outcome,
    headline: result.headline,
    first,
    steps,
    names: namesOf(result.names, setups),
  }
}

/** Cheapest first, and only what is faster than everything cheaper. */
export function staircase(steps: readonly StaircaseStep[]): StaircaseStep[] {
  const order = [...steps].sort((a, b) => a.cost - b.cost || b.speed_km_h - a.speed_km_h)
  let fastest = Number.NEGATIVE_INFINITY
  return order.filter((step) => {
    if (step.speed_km_h <= fastest) return false
    fastest = step.speed_km_h
    return true
  })
}

function namesOf(names: Result['names'], setups: readonly SetupChoice[]): Record<string, string> {
  const ids = new Set(setups.flatMap(({ fan, motor, esc, pack }) => [fan, motor, esc, pack]))
  return Object.fromEntries([...ids].sort().map((id) => [id, names[id] ?? id]))
}

/** How one item ended; `summary` null: without an answer, for the cause given. */
export interface EndedItem {
  readonly index: number
  readonly request: string
  readonly title: string
  readonly state: string
  readonly cause: string | null
  readonly summary: ItemSummary | null
}

/** The steps over all items of one airframe with the same clean-up work. */
export interface Staircase {
  readonly airframe: string
  readonly airframe_name: string
  readonly treatments: readonly string[]
  readonly steps: readonly StaircaseStep[]
}

export interface BatchSummary {
  readonly format: 'ductwright-batch/1'
  readonly title: string
  readonly currency: string | null
  readonly items: readonly EndedItem[]
  readonly staircases: readonly Staircase[]
  readonly names: Readonly<Record<string, string>>
}

export function batchSummary(title: string, items: readonly EndedItem[]): BatchSummary {
  const summaries = items.flatMap(({ summary }) => (summary === null ? [] : [summary]))
  const groups = new Map<string, ItemSummary[]>()
  for (const summary of summaries) {
    const key = [summary.airframe, summary.airframe_name, ...summary.treatments].join('\n')
    groups.set(key, [...(groups.get(key) ?? []), summary])
  }
  return {
    format: 'ductwright-batch/1',
    title,
    currency: summaries[0]?.currency ?? null,
    items,
    staircases: [...groups.values()].flatMap(staircaseOf),
    names: Object.assign({}, ...summaries.map(({ names }) => names)) as Record<string, string>,
  }
}

function staircaseOf(group: readonly ItemSummary[]): Staircase[] {
  const [first] = group
  const steps = staircase(group.flatMap((summary) => summary.steps))
  if (first === undefined || steps.length === 0) return []
  const { airframe, airframe_name, treatments } = first
  return [{ airframe, airframe_name, treatments, steps }]
}
