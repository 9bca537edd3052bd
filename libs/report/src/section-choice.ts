// The choice behind the recommendation: three named picks with their reasons, the ranked list, what was ruled out and
// what came nearest.

import { belowDesign, duration, figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, NearMiss, Pick, Refinement, Result } from '@ductwright/contract/result'
import { cleanUpBlocks } from './clean-up.js'
import type { Block, Pair, Section } from './letter.js'
import { rankedBlock, rankedFooter } from './ranked.js'
import { removalPairs } from './removals.js'
import { ranked, recommended } from './section-opening.js'
import { partsLine, purchaseLine, settingsLine } from './setup-words.js'
import { driversSentence, flightLine, oddsWords, speedKeys } from './study-words.js'

const pickNames: Readonly<Record<Pick['pick'], string>> = {
  'best-for-the-money': 'Best for the money',
  safest: 'Safest',
  fastest: 'Fastest',
}

export function picksSection(result: Result): Section {
  const blocks = result.picks.flatMap((pick, at) => pickBlocks(pick, twin(result.picks, at), result))
  return { heading: 'Three to choose from', blocks: [...blocks, ...cleanUp(result)] }
}

/** What clean-up work would gain on the setup the letter is about, or on the first pick where that has no study. */
function cleanUp(result: Result): Block[] {
  const best = recommended(result)?.member.rank
  const pick = result.picks.find(({ rank }) => rank === best) ?? result.picks[0]
  if (pick === undefined) return []
  const work = cleanUpBlocks(pick.study.sensitivity, result.catalogue.currency, false)
  const lead: Block = { kind: 'lead', text: `Clean-up work, on number ${figure('count', pick.rank)}` }
  return work.length === 0 ? [] : [lead, ...work]
}

/** An earlier pick that names the same setup. */
function twin(picks: readonly Pick[], at: number): Pick | undefined {
  return picks.slice(0, at).find((earlier) => earlier.rank === picks[at]?.rank)
}

function pickBlocks(pick: Pick, same: Pick | undefined, result: Result): Block[] {
  const member = ranked(result, pick.rank)
  const lead: Block = { kind: 'lead', text: `${pickNames[pick.pick]}: number ${figure('count', pick.rank)}` }
  const why: Block = { kind: 'paragraph', text: inert(pick.why) }
  if (same !== undefined) {
    const again = `It is the same setup as “${pickNames[same.pick]}”.`
    return [lead, why, { kind: 'paragraph', text: again }]
  }
  const pairs = [...memberPairs(member, result), ...studyPairs(pick, result), ...refinements(pick, result)]
  return [lead, why, { kind: 'pairs', pairs }]
}

/** How sure the pick is, how it flies and what would make it faster. */
function studyPairs({ study }: Pick, { understood }: Result): Pair[] {
  const odds = oddsWords(study, understood.target.speed, understood.target.basis)
  return [
    ...(odds === '' ? [] : [{ label: 'How sure', value: odds }]),
    { label: 'Spread of the speed', value: driversSentence(study) },
    ...(study.flight === null
      ? []
      : [{ label: 'Flight', value: flightLine(study.flight, understood.profile.reserve) }]),
    { label: 'First move for more speed', value: inert(study.sensitivity.first_move, 600) },
  ]
}

function memberPairs(member: Member | undefined, result: Result): Pair[] {
  if (member === undefined) return []
  const { raw } = member
  const price = `${money(raw.cost, result.catalogue.currency)} to pay`
  const does = [figure('speed', raw.speed_km_h), duration(raw.flight_time_s), belowDesign(raw.margin), price]
  return [
    { label: 'Does', value: does.join(', ') },
    { label: 'Buy', value: purchaseLine(member.shopping) },
    { label: 'Parts', value: partsLine(member.setup, result.names) },
    { label: 'Set to', value: settingsLine(member.setup, member.figures) },
  ]
}

function refinements(pick: Pick, result: Result): Pair[] {
  return [
    ...refinement('Refined for the target (outside the list)', pick.for_target, result),
    ...refinement('Refined to the limits (outside the list)', pick.highest, result),
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
      value: `${inert(refined.words, 400)} At ${figure('exactPercent', refined.duty * 100)} throttle: ${does.join(', ')}`,
    },
  ]
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

export function removedSection(result: Result): Section {
  const { raw, compatible, dominated, feasible, front } = result.counts
  const count = (value: number) => figure('count', value)
  const fitting = `${count(raw)} combinations; ${count(compatible)} of them fit together`
  const sentence =
    feasible === 0
      ? `${fitting}, none of these keeps every limit.`
      : `${fitting}. ${count(dominated)} were put aside because one listed is no worse in anything; of those worked through ${count(feasible)} keep every limit, and ${count(front)} are left that no other beats in everything.`
  return {
    heading: 'What was ruled out',
    blocks: [
      { kind: 'paragraph', text: sentence },
      { kind: 'pairs', pairs: removalPairs(result) },
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
  const broken = miss.broken.map(
    (limit) => `${inert(limit.words, 120)} ${figure('exactPercent', limit.used * 100)} of its limit`,
  )
  const pairs = [
    { label: 'Parts', value: partsLine(miss.setup, result.names) },
    { label: 'Stands in the way', value: inert(miss.why, 400) },
  ]
  return broken.length === 0 ? pairs : [...pairs, { label: 'Breaks', value: broken.join('; ') }]
}
