// An explanation in words, for a terminal.
import { belowDesign, duration, figure, money, percent, used } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { LimitUse, Objectives } from '@ductwright/contract/result'
import type { Explanation } from './explanation.js'
import type { Block, Letter, Pair, Section } from './letter.js'
import { whyNotWords } from './page/why-not-words.js'
import { compared } from './performance.js'
import { choiceLine, partName, partsLine } from './setup-words.js'
import { letterText } from './text.js'

export function renderExplanation(explanation: Explanation, options: { readonly width?: number } = {}): string {
  return letterText(letterOf(explanation), options.width ?? 76)
}

function letterOf(explanation: Explanation): Letter {
  const { catalogue, model_version } = explanation
  return {
    title: inert(explanation.title, 120),
    headline: headline(explanation),
    sections: [ownSection(explanation), ...keptOut(explanation), ...heldAgainst(explanation)],
    footer: [
      `Judged in the airframe, air, flight and limits of the request. Estimates, not a clearance to fly.`,
      `Catalogue ${inert(catalogue.name, 80)}, version ${inert(catalogue.version, 80)}. Models ${inert(model_version, 40)}.`,
    ],
  }
}

function headline({ verdict, against, broken }: Explanation): string {
  const number = against === null ? '' : `number\u00a0${figure('count', against.rank)}`
  const limits = broken.length === 1 ? 'a limit' : `${figure('count', broken.length)} limits`
  switch (verdict) {
    case 'refused':
      return 'This setup cannot be built or flown.'
    case 'left-out':
      return 'The request leaves this setup out.'
    case 'breaks-limits':
      return `This setup breaks ${limits} of the request.`
    case 'listed':
      return `This setup is in the list: ${number}.`
    case 'beaten':
      return `This setup is beaten by ${number} of the list.`
    case 'equalled':
      return `This setup is as good as ${number} of the list, which stands for both.`
    case 'unbeaten':
      return against === null ? 'The list is empty: nothing beats this setup.' : 'Nothing in the list beats this setup.'
  }
}

function ownSection({ setup, names, raw, catalogue }: Explanation): Section {
  const does = raw === null ? [] : [{ label: 'Does', value: compared(raw, catalogue.currency) }]
  const pairs = [
    { label: 'Parts', value: partsLine(setup, names) },
    { label: 'Set to', value: choiceLine(setup) },
    ...does,
  ]
  return { heading: '', blocks: [{ kind: 'pairs', pairs }] }
}

/** Everything that keeps it out, not only what the verdict names. */
function keptOut(explanation: Explanation): Section[] {
  const { refused, left_out, broken, names } = explanation
  const items = [
    ...refused.map(({ words }) => inert(words, 200)),
    ...left_out.map((id) => `the request leaves no choice of ${partName(names, id)}`),
    ...broken.map((limit) => brokenWords(limit, explanation)),
  ]
  return items.length === 0 ? [] : [{ heading: 'What keeps it out', blocks: [{ kind: 'list', items }] }]
}

/** Limits that have to be exceeded; their share is what is asked for over what there is. */
const leasts = new Set(['thrust-to-weight'])

/** Rounded up, so that what is missing never reads as nothing. */
function short(share: number): string {
  return figure('exactPercent', Math.ceil((1 - 1 / share) * 1000 - 1e-6) / 10)
}

/** A wish in its own figures, a rating as a share of what is allowed. */
function brokenWords({ limit, words, used: share }: LimitUse, { asked, raw, catalogue }: Explanation): string {
  const told = raw === null ? undefined : wishWords(raw, asked, catalogue.currency)[limit]
  if (told !== undefined) return told
  if (leasts.has(limit)) return `${inert(words, 120)}: ${short(share)} less than is asked for`
  return `${inert(words, 120)}: ${used(share)} of what is allowed`
}

function wishWords(raw: Objectives, asked: Explanation['asked'], currency: string): Readonly<Record<string, string>> {
  const { budget, margin, flight_time_s: time, speed_floor_km_h: floor } = asked
  const over = budget === null ? '' : money(raw.cost - budget, currency)
  return {
    'speed-floor': `too slow: ${figure('speed', raw.speed_km_h)}, and the list begins at ${figure('speed', floor)}`,
    'structural-margin': `loads: ${belowDesign(raw.margin)}, and at least ${percent(margin)} below is asked for`,
    ...(budget === null ? {} : { budget: `budget: over the ${money(budget, currency)} by ${over}` }),
    ...(time === null
      ? {}
      : { 'flight-time': `flight time: ${duration(raw.flight_time_s)}, and at least ${duration(time)} is asked for` }),
  }
}

/** Beside the setup of the list that it is held against. */
function heldAgainst(explanation: Explanation): Section[] {
  const { against, ahead, verdict, names, catalogue } = explanation
  if (against === null) return []
  const judged = verdict === 'beaten' || verdict === 'equalled' || verdict === 'unbeaten'
  const words =
    judged && ahead !== null ? [whyNotWords({ verdict, rank: against.rank, ahead }, catalogue.currency)] : []
  const texts = [...words, ...untriedWords(explanation)]
  const pairs: Pair[] = [
    { label: 'Parts', value: partsLine(against.setup, names) },
    { label: 'Set to', value: choiceLine(against.setup) },
    { label: 'Does', value: compared(against.raw, catalogue.currency) },
  ]
  const blocks: Block[] = [
    ...texts.map((text): Block => ({ kind: 'paragraph', text })),
    ...(verdict === 'listed' ? [] : [{ kind: 'pairs' as const, pairs }]),
  ]
  return blocks.length === 0 ? [] : [{ heading: `Against number ${figure('count', against.rank)}`, blocks }]
}

const settingNames = { duty: 'throttle cap', nozzle_ratio: 'nozzle exit', arrangement: 'arrangement of the packs' }

/** Why a setup that nothing beats is not in the list. */
function untriedWords({ verdict, untried }: Explanation): string[] {
  if (verdict !== 'unbeaten' || untried.length === 0) return []
  const named = untried.map((setting) => settingNames[setting]).join(' and ')
  return [`It is not in the list because the request does not try its ${named}.`]
}
