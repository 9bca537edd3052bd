// What the answer rests on: the request as understood, the rules of comparison, the assumptions, and the cautions.

import { celsiusOf, duration, figure, money, percent, speedOf, weight } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import type { Block, Pair, Section } from './letter.js'
import { basisWords } from './section-opening.js'
import { partName } from './setup-words.js'

export function understoodSection(result: Result): Section {
  const pairs = [...wishes(result), ...circumstances(result), ...partRules(result)]
  return { heading: 'How your request was read', blocks: [{ kind: 'pairs', pairs }] }
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
    { label: 'Hardest turn', value: `${figure('loadFactor', profile.loadFactor)} times the weight` },
    {
      label: 'Run',
      value: `${figure('distance', run.length)}, ${figure('distance', run.entryHeight)} of height given up before it`,
    },
  ]
  return [...pairs, { label: 'Charge at which speed is quoted', value: percent(sweep.charge) }]
}

function massRule(mass: Result['understood']['mass']): string {
  if (mass.fixed !== null) return `exactly ${weight(mass.fixed)}`
  return mass.limit === null ? "the airframe's own limit" : `at most ${weight(mass.limit)}`
}

function partRules(result: Result): Pair[] {
  const { owned, required, excluded } = result.understood
  const named = (ids: readonly string[]) => ids.map((id) => partName(result.names, id)).join(', ')
  const have = owned.map((part) => `${figure('count', part.count)} × ${partName(result.names, part.id)}`).join(', ')
  const rules = [
    { label: 'You own', value: have },
    { label: 'Must be used', value: named(required) },
    { label: 'Left out', value: named(excluded) },
  ]
  return rules.filter((rule) => rule.value !== '')
}

export function basisSection(result: Result): Section {
  const list = (items: readonly string[]): Block => ({ kind: 'list', items: items.map((words) => inert(words)) })
  return {
    heading: 'What this rests on',
    blocks: [list(result.rules.words), { kind: 'lead', text: 'Assumed' }, list(result.assumptions)],
  }
}

/** Every caution of the answer, none shortened. */
export function cautionsSection(cautions: readonly string[]): Section {
  const items: Block = { kind: 'list', items: cautions.map((words) => inert(words, Number.POSITIVE_INFINITY)) }
  return { heading: 'Before you fly', blocks: [items] }
}
