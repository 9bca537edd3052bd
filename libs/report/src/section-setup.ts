// The recommended setup in four sections: what to buy, what to set, what it will do, what breaks first; then why.

import { belowDesign, figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result, SetupFigures } from '@ductwright/contract/result'
import { allowedBy } from './airframe-words.js'
import { bandNote } from './banded.js'
import type { Pair, Section } from './letter.js'
import { limitSentence, performance, ratingBars, structureSentence } from './performance.js'
import { otherwise, type Recommendation, studyOf } from './section-opening.js'
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
  const study = studyOf(result, member)
  const note: Section['blocks'] = study === null ? [] : [{ kind: 'paragraph', text: bandNote }]
  const pairs = performance(member.figures, at(result), study)
  return { heading: 'What it will do', blocks: [{ kind: 'pairs', pairs }, ...note] }
}

function at(result: Result) {
  const { run, profile, sweep } = result.understood
  return { charge: sweep.charge, run, profile }
}

export function breaksSection(member: Member, result: Result): Section {
  const { figures } = member
  return {
    heading: 'What breaks first',
    blocks: [
      { kind: 'paragraph', text: structureSentence(figures) },
      {
        kind: 'pairs',
        pairs: [
          ...figures.margins.map(({ words, margin }) => ({ label: inert(words, 120), value: belowDesign(margin) })),
          ...allowedPair(figures, result.airframe),
        ],
      },
      { kind: 'paragraph', text: limitSentence(figures) },
      { kind: 'bars', bars: ratingBars(figures) },
    ],
  }
}

/** The highest speed the structure allows, beside the highest this setup can be driven to. */
function allowedPair(figures: SetupFigures, airframe: Result['airframe']): Pair[] {
  if (figures.speed_allowed_km_h === null) return []
  const fastest = `${figure('speed', figures.speed_fastest_km_h)} with a full pack`
  const value = `${figure('speed', figures.speed_allowed_km_h)}, set by ${allowedBy(figures, airframe)}; this setup reaches ${fastest}`
  return [{ label: 'The airframe allows', value }]
}

export function whySection({ member, why }: Recommendation, result: Result): Section {
  const others = otherwise(result, member)
  return {
    heading: 'Why this one',
    blocks: [
      { kind: 'paragraph', text: why },
      ...(others.length === 0 ? [] : [{ kind: 'pairs' as const, pairs: others }]),
      { kind: 'paragraph', text: `What holds the speed back: ${sentence(inert(member.binds.words, 300))}` },
    ],
  }
}

function sentence(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`
}
