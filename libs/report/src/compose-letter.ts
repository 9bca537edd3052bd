// The whole answer as one letter, in the order a pilot needs it: the answer, the money, the bench, the flight, the
// limits, the reasons, the next step, the alternatives, the grounds, the cautions. Where the answer is no, what would make
// it yes comes second.

import { inert } from '@ductwright/contract/inert'
import type { Receipt, Result } from '@ductwright/contract/result'
import type { Letter, Picture, Section } from './letter.js'
import { pictured } from './picture-places.js'
import { basisSection, cautionsSection, understoodSection } from './section-basis.js'
import { nearestSection, picksSection, rankedSection } from './section-choice.js'
import { nextSection, staircaseSection } from './section-next.js'
import { nowSection } from './section-now.js'
import { headlineParts, openingSection, type Recommendation, recommended } from './section-opening.js'
import { possibleSection } from './section-possible.js'
import { removedSection } from './section-removed.js'
import { breaksSection, buySection, doSection, setSection, whySection } from './section-setup.js'

/**
 * `receipt` is that of the work, where it is at hand; `pictures` are the charts that the medium can show, told in words
 * where it cannot.
 */
export function composeLetter(
  result: Result,
  receipt: Receipt | null = null,
  pictures: readonly Picture[] = [],
): Letter {
  const choice = recommended(result)
  const obstacles = [removedSection(result, receipt), ...(result.nearest.length === 0 ? [] : [nearestSection(result)])]
  const reached = result.outcome === 'reached'
  const sections = [
    openingSection(result),
    ...(reached ? [] : [...possibleSection(result), ...obstacles]),
    nowSection(result, choice?.member),
    ...(choice === undefined ? [] : setupSections(choice, result)),
    ...(reached ? obstacles : []),
    understoodSection(result),
    basisSection(result),
    cautionsSection(result.cautions),
  ]
  const title = inert(result.understood.title, 120)
  const headline = headlineParts(result).first
  return { title, headline, sections: pictured(sections, pictures), footer: footer(result) }
}

function setupSections(choice: Recommendation, result: Result): Section[] {
  const { member } = choice
  return [
    buySection(member, result),
    setSection(member),
    doSection(member, result),
    breaksSection(member, result),
    whySection(choice, result),
    ...nextSection(result, member),
    picksSection(result),
    rankedSection(result),
    ...staircaseSection(result),
  ]
}

function footer(result: Result): string[] {
  const { catalogue } = result
  const named = inert(catalogue.name, 80)
  return [
    `Catalogue ${named} of ${inert(catalogue.dated, 40)}, version ${inert(catalogue.version, 80)}. Models ${inert(result.model_version, 40)}.`,
    `Request ${inert(result.request_hash, 80)}. Answer ${inert(result.answer_hash, 80)}.`,
  ]
}
