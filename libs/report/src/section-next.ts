// Beyond the recommended setup: what the next money or hour should go to, what a little more speed costs, what a little
// more reserve takes, and the way up through the list step by step.
import { amountOf, bare, figure, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Advice, Member, NextStep, Result, StaircaseStep } from '@ductwright/contract/result'
import type { Block, Pair, Section } from './letter.js'
import { adviceFor } from './next-step.js'

const mostSteps = 6
const longestWords = 400

/** None where nothing is known of it. */
export function nextSection(result: Result, member: Member): Section[] {
  const advice = adviceFor(result, member)
  if (advice === undefined) return []
  const blocks: Block[] = [stepsBlock(advice, result.catalogue.currency), { kind: 'pairs', pairs: tradePairs(advice) }]
  return [{ heading: 'Where the next money or hour should go', blocks }]
}

/** Best value first; clean-up work and other setups of the list side by side. */
function stepsBlock({ steps }: Advice, currency: string): Block {
  const items = steps
    .slice(0, mostSteps)
    .map((step) => `${inert(step.words, longestWords)}${rateWords(step, currency)}`)
  if (items.length > 0) return { kind: 'list', items }
  return { kind: 'paragraph', text: 'Neither clean-up work nor another setup of the list brings more speed.' }
}

function rateWords({ km_h_per_100: money, km_h_per_hour: hour }: NextStep, currency: string): string {
  const rates = [
    ...(money === null ? [] : [`${figure('fineSpeed', money)} per ${bare('count', 100)}\u00a0${inert(currency, 8)}`]),
    ...(hour === null ? [] : [`${figure('fineSpeed', hour)} per hour`]),
  ]
  return rates.length === 0 ? '' : ` (${rates.join(', ')})`
}

function tradePairs({ ten_km_h_more: faster, more_margin: safer }: Advice): Pair[] {
  return [
    { label: `${figure('speed', 10)} more`, value: inert(faster.words, longestWords) },
    { label: `${figure('percent', 10)} more reserve`, value: inert(safer.words, longestWords) },
  ]
}

/** The cheapest way to each higher speed, and the setup beyond which it gets dear; none where there is nothing to climb. */
export function staircaseSection({ knee, staircase, catalogue, now }: Result): Section[] {
  if (staircase.length === 0 && knee === null) return []
  const from =
    now === null
      ? 'The cheapest way to each higher speed.'
      : 'The cheapest way to each higher speed, from what flies now.'
  const stairs: Block[] =
    staircase.length === 0
      ? []
      : [{ kind: 'paragraph', text: from }, stairsBlock(staircase, inert(catalogue.currency, 8))]
  const bend: Block[] = knee === null ? [] : [{ kind: 'paragraph', text: inert(knee.why, longestWords) }]
  return [{ heading: 'Step by step', blocks: [...stairs, ...bend] }]
}

function stairsBlock(steps: readonly StaircaseStep[], unit: string): Block {
  const heads = ['number', 'km/h', unit, 'below design load', 'km/h more', `${unit} more`]
  return {
    kind: 'grid',
    columns: heads.map((title) => ({ title, align: 'right' })),
    rows: steps.map((step) => [
      bare('count', step.rank),
      bare('speed', step.speed_km_h),
      amountOf(step.cost),
      reserve(step.margin),
      bare('fineSpeed', step.more_km_h),
      amountOf(step.more_cost),
    ]),
  }
}
