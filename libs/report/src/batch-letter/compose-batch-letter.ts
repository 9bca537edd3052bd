// The letter of a batch: how its items ended, a table of them, and for each airframe a staircase of what each further sum
// buys. The full answers stay with their items.

import type { BatchSummary, EndedItem, ItemSummary, Staircase } from '@ductwright/contract/batch-summary'
import { amountOf, bare, bareSpeed, clock, figure } from '@ductwright/contract/figures'
import { cut, inert } from '@ductwright/contract/inert'
import type { Objectives } from '@ductwright/contract/result'
import type { Block, GridColumn, Letter, Section } from '../letter.js'
import { partsLine } from '../setup-words.js'

const longestSubject = 120
const longestTitle = 24
const none = '—'

export function composeBatchLetter(summary: BatchSummary): { readonly letter: Letter; readonly subject: string } {
  const title = inert(summary.title, 120)
  const headline = headlineOf(summary)
  const failed = summary.items.filter((item) => item.summary === null)
  const sections = [
    tableSection(summary),
    ...summary.staircases.map((staircase) => staircaseSection(staircase, summary)),
    ...(failed.length === 0 ? [] : [failedSection(failed)]),
    { heading: 'Before you fly', blocks: [caution] },
  ]
  return {
    letter: { title, headline, sections, footer: [] },
    subject: cut(inert(`${title}: ${headline}`), longestSubject),
  }
}

const caution: Block = {
  kind: 'paragraph',
  text: 'Estimates, not a clearance to fly. Each full answer says what is assumed, what breaks first and what to check on the ground: read the one you choose before you buy.',
}

function headlineOf({ items }: BatchSummary): string {
  const reached = items.filter(({ summary }) => summary?.outcome === 'reached').length
  const all = `${figure('count', items.length)} ${items.length === 1 ? 'request' : 'requests'}`
  return `${figure('count', reached)} of ${all} ${reached === 1 ? 'reaches its' : 'reach their'} target.`
}

function tableSection({ items, currency }: BatchSummary): Section {
  const unit = currency === null ? '' : inert(currency, 8)
  const titles = ['no.', 'km/h asked', `${unit} at most`, 'km/h', `${unit} to pay`, 'flight, min']
  const columns: GridColumn[] = titles.map((title) => ({ title: title.trim(), align: 'right' }))
  return { heading: 'All of them', blocks: [{ kind: 'ranked', columns, rows: items.map(itemRow) }] }
}

function itemRow({ index, title, state, summary }: EndedItem) {
  const number = bare('count', index + 1)
  if (summary === null)
    return { cells: [number, none, none, none, none, none], below: `${inert(title, 80)}: ${inert(state, 20)}` }
  const { first } = summary
  const asked = [bare('speed', summary.target_km_h), summary.budget === null ? 'no limit' : amountOf(summary.budget)]
  const found =
    first === null
      ? [none, none, none]
      : [bareSpeed(first.raw.speed_km_h, summary.target_km_h), amountOf(first.raw.cost), clock(first.raw.flight_time_s)]
  const parts =
    first === null ? outcomeWords.none : `${howFar(summary, first.raw)}: ${partsLine(first.setup, summary.names)}`
  return { cells: [number, ...asked, ...found], below: `${whereWords(summary)} — ${parts}` }
}

/** Ranked first may be what misses the target by a little and does better in all else. */
function howFar({ outcome, target_km_h }: ItemSummary, { speed_km_h }: Objectives): string {
  return outcome === 'reached' && speed_km_h < target_km_h ? firstMisses : outcomeWords[outcome]
}

const firstMisses = 'reached by others of its list, ranked first'
const outcomeWords = { reached: 'reached', short: 'not reached, at best', none: 'nothing holds every limit' } as const

function whereWords(place: Pick<Staircase, 'airframe_name' | 'treatments'>): string {
  const work =
    place.treatments.length === 0 ? '' : `, with ${place.treatments.map((kind) => inert(kind, 40)).join(', ')}`
  return `${inert(place.airframe_name, 60)}${work}`
}

function staircaseSection(staircase: Staircase, { names, currency }: BatchSummary): Section {
  const columns: GridColumn[] = [
    { title: 'step', align: 'right' },
    { title: `${currency === null ? '' : inert(currency, 8)} to pay`.trim(), align: 'right' },
    { title: 'km/h', align: 'right' },
    { title: 'gain', align: 'right' },
  ]
  const rows = staircase.steps.map((step, at) => {
    const before = staircase.steps[at - 1]
    const gain = before === undefined ? none : bare('speed', step.speed_km_h - before.speed_km_h)
    return {
      cells: [bare('count', at + 1), amountOf(step.cost), bare('speed', step.speed_km_h), gain],
      below: partsLine(step.setup, names),
    }
  })
  return {
    heading: `What each sum buys: ${cut(whereWords(staircase), 60)}`,
    blocks: [{ kind: 'ranked', columns, rows }],
  }
}

function failedSection(failed: readonly EndedItem[]): Section {
  const pairs = failed.map(({ index, title, state, cause }) => ({
    label: `${bare('count', index + 1)}, ${cut(inert(title, 80), longestTitle)}`,
    value: cause === null ? inert(state, 20) : inert(cause, 300),
  }))
  return { heading: 'Without an answer', blocks: [{ kind: 'pairs', pairs }] }
}
