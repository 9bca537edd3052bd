// The choice behind the recommendation: the named picks with their reasons, each setup once, the ranked list, and what came
// nearest.

import { belowDesign, duration, figure, used } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, NearMiss, Pick, Refinement, Result } from '@ductwright/contract/result'
import { capital } from './capital.js'
import type { Block, Pair, Section } from './letter.js'
import { compared } from './performance.js'
import { distinctPicks, pickedFor } from './pick-names.js'
import { rankedBlock, rankedFooter } from './ranked.js'
import { ranked, recommended } from './section-opening.js'
import { arrangements, buyLine, partsLine, settingsLine } from './setup-words.js'
import { driversSentence, flightLine, oddsWords, speedKeys } from './study-words.js'

export function picksSection(result: Result): Section {
  return { heading: 'What to choose from', blocks: distinctPicks(result).flatMap((pick) => pickBlocks(pick, result)) }
}

function pickBlocks(pick: Pick, result: Result): Block[] {
  const { rank } = pick
  const reasons = result.picks.filter((other) => other.rank === rank).map(({ why }) => inert(why))
  const member = ranked(result, rank)
  const pairs = [...memberPairs(member, result), ...studyPairs(pick, result), ...refinements(pick, result)]
  return [
    { kind: 'lead', text: `${capital(pickedFor(result, rank))}: number ${figure('count', rank)}` },
    { kind: 'paragraph', text: reasons.join(' ') },
    { kind: 'pairs', pairs },
  ]
}

/** The setup that the letter is about has been told from end to end above. */
function isRecommended(rank: number, result: Result): boolean {
  return rank === recommended(result)?.member.rank
}

function memberPairs(member: Member | undefined, result: Result): Pair[] {
  if (member === undefined || isRecommended(member.rank, result)) return []
  const { setup, shopping, figures, raw } = member
  return [
    { label: 'Does', value: compared(raw, result.catalogue.currency) },
    { label: 'Buy', value: buyLine(shopping) },
    { label: 'Set to', value: `${arrangements[setup.arrangement]}, ${settingsLine(setup, figures)}` },
  ]
}

/** How sure the pick is and how it flies. */
function studyPairs({ rank, study }: Pick, result: Result): Pair[] {
  const { target, profile } = result.understood
  const odds = isRecommended(rank, result) ? '' : oddsWords(study, target.speed, target.basis)
  const flight = study.flight === null ? '' : flightLine(study.flight, profile.reserve)
  return [
    { label: 'How sure', value: odds },
    { label: 'Spread of it', value: driversSentence(study) },
    { label: 'Flight', value: flight },
  ].filter(({ value }) => value !== '')
}

function refinements(pick: Pick, result: Result): Pair[] {
  return [
    ...refinement('For the target', pick.for_target, result),
    ...refinement('To the limits', pick.highest, result),
  ]
}

function refinement(label: string, refined: Refinement | null, { understood }: Result): Pair[] {
  if (refined === null) return []
  const { figures } = refined
  const does = [
    figure('speed', figures[speedKeys[understood.target.basis]]),
    duration(figures.flight_time_s),
    belowDesign(figures.margin),
  ]
  return [
    {
      label,
      value: `Outside the list. ${inert(refined.words, 400)} At ${capWords(refined)}: ${does.join(', ')}`,
    },
  ]
}

/** The throttle cap as the transmitter and as the bench show it. */
function capWords({ duty, throttle_cap_a: current }: Refinement): string {
  return `${figure('exactPercent', duty * 100)} throttle, ${figure('current', current)} standing with full packs`
}

export function rankedSection(result: Result): Section {
  return {
    heading: 'The list',
    blocks: [
      {
        kind: 'paragraph',
        text: 'One line a purchase, in its best settings. “As asked” means the speed and the distance to the design load you wanted.',
      },
      rankedBlock(result),
      { kind: 'paragraph', text: rankedFooter(result) },
    ],
  }
}

export function nearestSection(result: Result): Section {
  return {
    heading: 'What came nearest',
    blocks: result.nearest.slice(0, 5).map((miss): Block => ({ kind: 'pairs', pairs: nearMissPairs(miss, result) })),
  }
}

function nearMissPairs(miss: NearMiss, result: Result): Pair[] {
  // Too little speed breaks nothing; the sentence tells it.
  const broken = miss.broken
    .filter(({ limit }) => limit !== 'speed-floor')
    .map((limit) => `${inert(limit.words, 120)} ${used(limit.used)} of its limit`)
  const pairs = [
    { label: 'Parts', value: partsLine(miss.setup, result.names) },
    { label: 'Stands in the way', value: inert(miss.why, 400) },
  ]
  return broken.length === 0 ? pairs : [...pairs, { label: 'Breaks', value: broken.join('; ') }]
}
