// What the answer rests on: the request as understood, the rules of comparison, the assumptions, and the cautions.

import { celsiusOf, duration, figure, money, percent, speedOf, weight } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { OwnedPart } from '@ductwright/contract/request'
import type { Result } from '@ductwright/contract/result'
import { airWords, doneWords, dragBlocks, dragSentence, speedLimitPairs } from './airframe-words.js'
import type { Block, Pair, Section } from './letter.js'
import { basisWords } from './section-opening.js'
import { partName, runWords } from './setup-words.js'

export const understoodHeading = 'How your request was read'

export function understoodSection(result: Result): Section {
  const pairs = [...wishes(result), ...circumstances(result), ...partRules(result)]
  return { heading: understoodHeading, blocks: [{ kind: 'pairs', pairs }] }
}

function wishes(result: Result): Pair[] {
  const { target, budget, wanted, limits } = result.understood
  const least = limits.flightTime === null ? '' : `, at least ${duration(limits.flightTime)}`
  return [
    { label: 'Airframe', value: inert(result.airframe.name, 80) },
    { label: 'Speed', value: `${speedOf(target.speed)}, ${basisWords(target.basis)}` },
    { label: 'Budget', value: budget === null ? 'none given' : money(budget, result.catalogue.currency) },
    { label: 'Flight time wanted', value: `${duration(wanted.flightTime)}${least}` },
    {
      label: 'Distance to the design load',
      value: `${percent(wanted.margin)} wanted, at least ${percent(limits.margin)}`,
    },
    { label: 'Kept free on every limit', value: percent(limits.headroom) },
  ]
}

function circumstances(result: Result): Pair[] {
  const { mass, field, profile, run, sweep } = result.understood
  const shares = `${percent(profile.fullThrottleShare)} of it at full throttle, passes of ${figure('seconds', profile.passTime)}`
  const pairs = [
    { label: 'Mass', value: massRule(mass) },
    {
      label: 'Field',
      value: `${figure('distance', field.elevation)} above the sea, ${celsiusOf(field.temperature)}, ${figure('distance', field.runway)} to roll`,
    },
    {
      label: 'Flight',
      value: `${duration(profile.flightTime)}, ${shares}, cruising at ${speedOf(profile.cruiseSpeed)}`,
    },
    { label: 'Left in the packs at landing', value: percent(profile.reserve) },
    { label: 'Hardest turn', value: hardestTurn(profile) },
    {
      label: 'Climb and approach',
      value: `${figure('distance', profile.climbHeight)} up, ${figure('seconds', profile.approachTime)} down`,
    },
    { label: 'Run', value: runWords(run) },
  ]
  return [...pairs, { label: 'Charge at which speed is quoted', value: percent(sweep.charge) }]
}

function hardestTurn({ loadFactor, turnRadius, pullUpRadius }: Result['understood']['profile']): string {
  const times = `${figure('loadFactor', loadFactor)} times the weight`
  const turn = turnRadius === null ? [] : [`turns of ${figure('distance', turnRadius)} radius at top speed`]
  const pull = pullUpRadius === null ? [] : [`pull-ups of ${figure('distance', pullUpRadius)} radius at top speed`]
  return [times, ...turn, ...pull].join(', ')
}

function massRule(mass: Result['understood']['mass']): string {
  if (mass.fixed !== null) return `exactly ${weight(mass.fixed)}`
  return mass.limit === null ? "the airframe's own limit" : `at most ${weight(mass.limit)}`
}

function partRules(result: Result): Pair[] {
  const { owned, required, excluded } = result.understood
  const named = (ids: readonly string[]) => ids.map((id) => partName(result.names, id)).join(', ')
  const have = owned.map((part) => ownedWords(part, result)).join(', ')
  const rules = [
    { label: 'You own', value: have },
    { label: 'Must be used', value: named(required) },
    { label: 'Left out', value: named(excluded) },
  ]
  return rules.filter((rule) => rule.value !== '')
}

function ownedWords(part: OwnedPart, { names }: Result): string {
  const measured = part.cellResistance === null ? [] : [`${figure('resistance', part.cellResistance * 1000)} a cell`]
  const flown = part.cycles === null ? [] : [`${figure('count', part.cycles)} charges`]
  const condition = [...measured, ...flown]
  const named = `${figure('count', part.count)} × ${partName(names, part.id)}`
  return condition.length === 0 ? named : `${named} (${condition.join(', ')})`
}

export function basisSection(result: Result): Section {
  const list = (items: readonly string[]): Block => ({ kind: 'list', items: items.map((words) => inert(words)) })
  return {
    heading: 'What this rests on',
    blocks: [
      list(result.rules.words),
      ...airframeBlocks(result),
      { kind: 'lead', text: 'Assumed' },
      list(result.assumptions),
    ],
  }
}

/** Where the drag and the highest speed of the airframe come from, and the air it flies in. */
function airframeBlocks({ airframe, air, catalogue }: Result): Block[] {
  const limits = speedLimitPairs(airframe)
  const done = { label: 'Clean-up work counted as done', value: doneWords(airframe, catalogue.currency) }
  const pairs = [
    { label: 'Air over the field', value: airWords(air) },
    ...(airframe.treatments.length === 0 ? [] : [done]),
    ...limits.map(({ label, value }) => ({ label: `Allowed by ${label}`, value })),
  ]
  return [
    { kind: 'lead', text: 'Airframe and air' },
    { kind: 'paragraph', text: dragSentence(airframe) },
    ...dragBlocks(airframe),
    { kind: 'pairs', pairs },
  ]
}

/** Every caution of the answer, none shortened. */
export function cautionsSection(cautions: readonly string[]): Section {
  const items: Block = { kind: 'list', items: cautions.map((words) => inert(words, Number.POSITIVE_INFINITY)) }
  return { heading: 'Before you fly', blocks: [items] }
}
