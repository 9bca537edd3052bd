// The sections that only a mail about a changed answer has: the two setups, the reason, stand-ins, and what is on offer now.
import { figure } from '@ductwright/contract/figures'
import type { Member, Result } from '@ductwright/contract/result'
import type { Block, Section } from '../letter.js'
import { partName, partsLine } from '../setup-words.js'
import { type AnswerChange, purchaseOf } from './answer-change.js'
import { differenceWords } from './difference-words.js'
import { reasonSentence } from './reason-sentence.js'
import { sideBySide } from './side-by-side.js'
import type { Substitute } from './substitutes.js'

const mostOffers = 6

export function changedSection(change: AnswerChange, old: Result, now: Result): Section {
  const step = change.old !== undefined && change.now !== undefined ? [stepBlock(change.old, change.now, now)] : []
  const reason: Block = { kind: 'paragraph', text: reasonSentence(change, old, now) }
  return { heading: 'What changed', blocks: [reason, sideBySide(change, old, now), ...step] }
}

function stepBlock(old: Member, now: Member, result: Result): Block {
  return { kind: 'paragraph', text: `Against the setup until now: ${between(old, now, result)}.` }
}

function between(old: Member, now: Member, { rules, catalogue }: Result): string {
  const { resolution } = rules
  return differenceWords({ from: old.raw, to: now.raw, resolution, currency: catalogue.currency })
}

/** null when no part of the old list is gone. */
export function substitutesSection(change: AnswerChange, old: Result, now: Result): Section | null {
  if (change.substitutes.length === 0) return null
  const pairs = change.substitutes.map((substitute) => ({
    label: partName(old.names, substitute.gone),
    value: substituteWords(substitute, old, now),
  }))
  return { heading: 'Gone, and what stands in', blocks: [{ kind: 'pairs', pairs }] }
}

function substituteWords({ was, instead }: Substitute, old: Result, now: Result): string {
  const used = `was in ${partsLine(was.setup, old.names)}`
  if (instead === null) return `${used}; nothing listed now stands in for it`
  return `${used}; nearest now is ${partsLine(instead.setup, now.names)}: ${between(was, instead, now)}`
}

/** null when everything listed now was listed before. */
export function offersSection(change: AnswerChange, old: Result, now: Result): Section | null {
  const { offers, lost } = change
  if (offers.length === 0 && lost.length === 0) return null
  const told = offers.slice(0, mostOffers)
  const items = told.map((member) => `${partsLine(member.setup, now.names)}: ${offerWords(member, change, old, now)}`)
  const more = offers.length - told.length
  const blocks: Block[] = [
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
    ...(more === 0 ? [] : [paragraph(`${figure('count', more)} more in the list below.`)]),
    ...(lost.length === 0 ? [] : [paragraph(lostWords(lost, old))]),
  ]
  return { heading: offers.length === 0 ? 'No longer on offer' : 'On offer now, and not before', blocks }
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text })

/** Against the setup that was recommended until now; where there was none, what it does. */
function offerWords(member: Member, change: AnswerChange, old: Result, now: Result): string {
  if (change.old === undefined) return `${figure('speed', member.raw.speed_km_h)}, where nothing was listed before`
  const same = purchaseOf(change.old.setup) === purchaseOf(member.setup)
  const what = same ? 'the same parts' : 'against the setup until now'
  return `${what}: ${between(change.old, member, { ...now, rules: old.rules })}`
}

function lostWords(lost: readonly Member[], old: Result): string {
  const shown = lost.slice(0, 3).map(({ setup }) => partsLine(setup, old.names))
  const more = lost.length - shown.length
  const rest = more === 0 ? '' : `; and ${figure('count', more)} more`
  return `No longer listed: ${shown.join('; ')}${rest}.`
}
