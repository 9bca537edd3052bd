// The letter about a changed answer: what changed and why comes first, the whole new answer follows.
import { figure } from '@ductwright/contract/figures'
import { cut, inert } from '@ductwright/contract/inert'
import type { Receipt, Result } from '@ductwright/contract/result'
import { composeLetter } from '../compose-letter.js'
import type { Letter, Section } from '../letter.js'
import { partName } from '../setup-words.js'
import { answerSubject } from '../subject.js'
import { type AnswerChange, answerChange, type ChangedRow } from './answer-change.js'
import { changedSection, offersSection, substitutesSection } from './change-sections.js'

const longestSubject = 120

export interface ChangeLetter {
  readonly letter: Letter
  readonly subject: string
}

export function composeChangeLetter(
  old: Result,
  now: Result,
  rows: readonly ChangedRow[],
  receipt: Receipt | null,
): ChangeLetter {
  const change = answerChange(old, now, rows)
  const whole = composeLetter(now, receipt)
  const [opening, ...others] = whole.sections
  const sections = [
    changedSection(change, old, now),
    substitutesSection(change, old, now),
    offersSection(change, old, now),
    opening === undefined ? null : { ...opening, heading: 'The answer now' },
    ...others,
  ].filter((section): section is Section => section !== null)
  const before = `Before: catalogue version ${inert(old.catalogue.version, 80)}, models ${inert(old.model_version, 40)}.`
  return {
    letter: { title: whole.title, headline: headlineOf(change, now), sections, footer: [...whole.footer, before] },
    subject: cut(inert(`Changed: ${answerSubject(now)}`), longestSubject),
  }
}

function headlineOf({ old, now, same }: AnswerChange, result: Result): string {
  if (now === undefined) return 'The answer has changed: nothing holds every limit any more.'
  const found = `${partName(result.names, now.setup.fan)}, ${partName(result.names, now.setup.motor)}`
  const speed = figure('speed', now.raw.speed_km_h)
  if (old === undefined) return `The answer has changed: ${found} now does ${speed}, where nothing did before.`
  if (same) return `The answer has changed, the setup has not: ${found}, ${speed}.`
  return `The answer has changed: ${found}, ${speed}.`
}
