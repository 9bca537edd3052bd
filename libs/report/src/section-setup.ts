// The recommended setup in four sections: what to buy, what to set, what it will do, what breaks first; then why.

import { belowDesign } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import type { Section } from './letter.js'
import { limitSentence, performance, ratingBars, structureSentence } from './performance.js'
import { otherwise, type Recommendation } from './section-opening.js'
import { settings } from './setup-words.js'
import { costSentence, shoppingGrid } from './shopping.js'

export function buySection(member: Member, result: Result): Section {
  const currency = result.catalogue.currency
  return {
    heading: 'What to buy',
    blocks: [
      shoppingGrid(member.shopping, currency),
      { kind: 'paragraph', text: costSentence(member.raw.cost, member.replacement_cost, currency) },
    ],
  }
}

export function setSection(member: Member): Section {
  const blocks: Section['blocks'] = [{ kind: 'pairs', pairs: settings(member.setup, member.figures) }]
  if (member.setup.duty >= 1) return { heading: 'What to set', blocks }
  const warning = 'The cap is only a transmitter setting: lift it and every limit in this letter is void.'
  return { heading: 'What to set', blocks: [...blocks, { kind: 'paragraph', text: warning }] }
}

export function doSection(member: Member, result: Result): Section {
  return { heading: 'What it will do', blocks: [{ kind: 'pairs', pairs: performance(member.figures, at(result)) }] }
}

function at(result: Result) {
  const { run, profile, sweep } = result.understood
  return { charge: sweep.charge, run, profile }
}

export function breaksSection(member: Member): Section {
  const { figures } = member
  return {
    heading: 'What breaks first',
    blocks: [
      { kind: 'paragraph', text: structureSentence(figures) },
      {
        kind: 'pairs',
        pairs: figures.margins.map((margin) => ({
          label: inert(margin.words, 120),
          value: belowDesign(margin.margin),
        })),
      },
      { kind: 'paragraph', text: limitSentence(figures) },
      { kind: 'bars', bars: ratingBars(figures) },
    ],
  }
}

export function whySection({ member, why }: Recommendation, result: Result): Section {
  const others = otherwise(result, member)
  return {
    heading: 'Why this one',
    blocks: [
      { kind: 'paragraph', text: why },
      ...(others.length === 0 ? [] : [{ kind: 'pairs' as const, pairs: others }]),
      { kind: 'paragraph', text: `What holds the speed back: ${inert(member.figures.binds, 300)}.` },
    ],
  }
}
