// The opening of the letter, to be taken in at a glance: four figures, what to buy, what breaks first, why this one and
// not another, and what to do next; when the target is out of reach, what stops it comes first.

import { belowDesign, duration, figure, money, reserve, speedOf, used } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, NearMiss, Objectives, Relaxation, Result, SetupStudy } from '@ductwright/contract/result'
import { allowedSpeed } from './airframe-words.js'
import type { Block, Pair, Section, Tile } from './letter.js'
import { nextStep } from './next-step.js'
import { breaksFirst, compared } from './performance.js'
import { distinctPicks } from './pick-names.js'
import { buyLine, partsLine } from './setup-words.js'
import { oddsWords } from './study-words.js'

/** The setup the letter is about and why it is that one. */
export interface Recommendation {
  readonly member: Member
  readonly why: string
}

/** Figures of an answer carry six digits, km/h. */
const FIGURE_ROUNDING = 1e-3

/**
 * The first of the list when it reaches the target; the safest that does when the first keeps more reserve and falls short of
 * it; the fastest there is when none does; none when nothing is left.
 */
export function recommended(result: Result): Recommendation | undefined {
  const first = ranked(result, 1)
  if (first === undefined) return undefined
  const named = namedInstead(result, first)
  const pick = result.picks.find((one) => one.pick === named)
  const member = pick === undefined ? first : (ranked(result, pick.rank) ?? first)
  return { member, why: inert(pick?.why ?? member.why, 600) }
}

function namedInstead({ outcome, understood }: Result, first: Member): 'fastest' | 'safest' | null {
  if (outcome === 'short') return 'fastest'
  return first.raw.speed_km_h + FIGURE_ROUNDING < understood.target.speed * 3.6 ? 'safest' : null
}

export function ranked(result: Result, rank: number): Member | undefined {
  return result.front.find((member) => member.rank === rank)
}

/** Why not one of the other picks: told against the first of the list where that is chosen, else by what it does. */
export function otherwise(result: Result, chosen: Member): Pair[] {
  const others = distinctPicks(result).filter(({ rank }) => rank !== chosen.rank)
  return others.flatMap((pick) => {
    const other = ranked(result, pick.rank)
    if (other === undefined) return []
    const words = chosen.rank === 1 ? inert(other.why, 400) : `${compared(other.raw, result.catalogue.currency)}.`
    return [{ label: `Not the ${otherNames[pick.pick]}`, value: `number ${figure('count', pick.rank)}: ${words}` }]
  })
}

const otherNames = {
  'best-all-round': 'best all round',
  'best-for-the-money': 'cheapest',
  safest: 'safest',
  fastest: 'fastest',
} as const

/** The headline is the first sentence of the answer; a full stop within the airframe's name ends none. */
export function headlineParts(result: Result): { readonly first: string; readonly rest: string } {
  const whole = inert(result.headline, 900)
  const name = inert(result.airframe.name)
  const masked = name === '' ? whole : whole.replaceAll(name, 'x'.repeat(name.length))
  const end = masked.search(/[.!?] \p{Lu}/u)
  return end < 0 ? { first: whole, rest: '' } : { first: whole.slice(0, end + 1), rest: whole.slice(end + 2) }
}

export function openingSection(result: Result): Section {
  const choice = recommended(result)
  const raw = choice?.member.raw ?? slower(result)?.raw
  // With figures to show, the rest of the answer would only say them again.
  const rest = raw === undefined ? headlineParts(result).rest : ''
  const blocks: Block[] = [
    ...(raw === undefined ? [] : [{ kind: 'tiles' as const, tiles: tiles(raw, result) }]),
    ...(rest === '' ? [] : [{ kind: 'paragraph' as const, text: rest }]),
    { kind: 'pairs', pairs: glance(result, choice).filter(({ value }) => value !== '') },
    { kind: 'paragraph', text: 'Estimates, not a clearance to fly: read “Before you fly” at the end.' },
  ]
  return { heading: '', blocks }
}

/** Where nothing comes near the target: the fastest that holds every limit. */
function slower({ relaxations }: Result): Relaxation | undefined {
  return relaxations.find(({ relax }) => relax === 'target')
}

function tiles(raw: Objectives, { understood, catalogue }: Result): Tile[] {
  const spend = raw.cost > 0 ? 'to pay' : 'to pay: you own it all'
  return [
    { value: figure('speed', raw.speed_km_h), label: basisWords(understood.target.basis) },
    { value: duration(raw.flight_time_s), label: 'flight time' },
    { value: money(raw.cost, catalogue.currency), label: spend },
    { value: reserve(raw.margin).replace('−', ''), label: `${raw.margin < 0 ? 'above' : 'below'} the design load` },
  ]
}

const bases = { steady: 'steady, level', 'in-run': 'within the run', dive: 'out of the dive' } as const

export function basisWords(basis: Result['understood']['target']['basis']): string {
  return bases[basis]
}

function glance(result: Result, choice: Recommendation | undefined): Pair[] {
  const next = { label: 'Do next', value: nextStep(result, choice?.member) }
  const wish = { label: 'You asked for', value: asked(result) }
  if (result.outcome === 'reached' && choice !== undefined) {
    return [...chosenPairs(result, choice, 'Buy'), next, ...sure(result, choice.member), wish]
  }
  const closest =
    choice === undefined
      ? nearestPairs(result)
      : [...chosenPairs(result, choice, 'Closest: buy'), ...sure(result, choice.member)]
  return [{ label: 'What stops it', value: whatStops(result) }, next, ...closest, wish]
}

function chosenPairs(result: Result, { member, why }: Recommendation, label: string): Pair[] {
  return [
    { label, value: buyLine(member.shopping) },
    { label: 'Breaks first', value: breaksFirst(member.figures) },
    { label: 'Why this one', value: why },
    ...otherwise(result, member).slice(0, 1),
  ]
}

/** Where nothing is listed: what the fastest that holds every limit takes, or what came nearest, and what would break. */
function nearestPairs(result: Result): Pair[] {
  const fastest = slower(result)
  const [miss] = result.nearest
  const near = miss === undefined ? '' : `${partsLine(miss.setup, result.names)}: ${inert(miss.why, 400)}`
  return [
    fastest === undefined
      ? { label: 'Nearest', value: near }
      : { label: 'Closest: buy', value: buyLine(fastest.shopping) },
    { label: 'Breaks first', value: wouldBreak(result, fastest) },
  ]
}

/** The load that is nearest to its limit is not known of a setup that is not listed; how near it comes is. */
function wouldBreak({ airframe }: Result, fastest: Relaxation | undefined): string {
  const allowed = allowedSpeed(airframe)
  const worst = fastest === undefined ? [] : [`its worst load is ${belowDesign(fastest.raw.margin)}`]
  const speed =
    allowed === undefined
      ? []
      : [`by speed alone ${inert(allowed.words, 120)} goes first, from ${figure('speed', allowed.speed_km_h)} on`]
  return [...worst, ...speed].join('; ')
}

/** The study of a setup; only the named picks have one. */
export function studyOf(result: Result, member: Member): SetupStudy | null {
  return result.picks.find((pick) => pick.rank === member.rank)?.study ?? null
}

function sure(result: Result, member: Member): Pair[] {
  const study = studyOf(result, member)
  if (study === null) return []
  const { speed, basis } = result.understood.target
  const words = oddsWords(study, speed, basis)
  return words === '' ? [] : [{ label: 'How sure', value: words }]
}

function asked(result: Result): string {
  const { target, budget } = result.understood
  const speed = `${speedOf(target.speed)} ${basisWords(target.basis)}`
  const spend = budget === null ? 'no limit on cost' : `for at most ${money(budget, result.catalogue.currency)}`
  return `${speed}, ${spend}, in ${inert(result.airframe.name, 60)}`
}

/** What stands between the pilot and the target; the airframe first when the target lies beyond what it allows. */
export function whatStops(result: Result): string {
  const beyond = isBeyond(result) ? allowedSpeed(result.airframe) : undefined
  if (beyond === undefined) return obstacle(result)
  return `the airframe allows ${figure('speed', beyond.speed_km_h)} at most (${inert(beyond.words, 120)}); ${obstacle(result)}`
}

/** Whether the target lies above what the structure of the airframe allows. */
export function isBeyond({ airframe, understood }: Result): boolean {
  const allowed = allowedSpeed(airframe)
  return allowed !== undefined && understood.target.speed * 3.6 > allowed.speed_km_h
}

/** What holds the fastest setup back; where nothing is listed, what stops the setup that comes nearest. */
function obstacle(result: Result): string {
  const choice = recommended(result)
  if (choice !== undefined) return inert(choice.member.binds.words, 300)
  if (result.counts.compatible === 0) return 'no combination of the parts allowed fits this airframe'
  const [miss] = result.nearest
  return miss === undefined ? 'every setup breaks more than one limit, or one by far' : stopWords(miss)
}

/** Too little speed breaks no limit; it is told with what there is. */
function stopWords({ broken, raw }: NearMiss): string {
  const [limit] = broken.filter((one) => one.limit !== 'speed-floor')
  if (limit !== undefined)
    return `${inert(limit.words, 120)}: ${used(limit.used)} of its limit in the setup that comes nearest`
  const does = raw === null ? 'falls short' : `does ${figure('speed', raw.speed_km_h)}`
  return `too little speed: the fastest setup that holds every other limit ${does}`
}
