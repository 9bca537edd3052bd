// The setups of an answer that charts call by name: the picks. One setup that is several of them has one name that says
// them all.
import { belowDesign, duration, figure, money } from '@ductwright/contract/figures'
import type { Member, Result } from '@ductwright/contract/result'
import { capital } from '../capital.js'
import { pickedFor } from '../pick-names.js'
import { recommended } from '../section-opening.js'
import { LINES, type LineStyle } from './theme.js'

export interface NamedMember {
  readonly member: Member
  /** Such as "best for the money, safest". */
  readonly name: string
  /** How its line is drawn among others. */
  readonly style: LineStyle
}

/** The first is what the chart is about; the others are told from it and from each other by weight and dash. */
const STYLES: readonly LineStyle[] = [
  LINES.main,
  { ...LINES.against, dash: [9, 3] },
  { ...LINES.against, dash: [2, 2] },
  { ...LINES.against, dash: [9, 3, 2, 3] },
]

/** What the answer recommends, then the other picks in their order, each setup once. */
export function namedMembers(result: Result): readonly NamedMember[] {
  const first = recommended(result)?.member.rank
  const ranks = result.picks.map(({ rank }) => rank).sort((a, b) => Number(b === first) - Number(a === first))
  return [...new Set(ranks)].flatMap((rank, at) => {
    const member = result.front.find((one) => one.rank === rank)
    if (member === undefined) return []
    return [{ member, name: pickedFor(result, rank), style: STYLES[at] ?? LINES.against }]
  })
}

/** A name of several parts with each on a line of its own. */
export function broken(name: string): string {
  return name.replaceAll(', ', ',\n')
}

/** The four figures of a setup in words. */
export function memberWords({ raw }: Member, { catalogue }: Result): string {
  const price = `${money(raw.cost, catalogue.currency)} to pay`
  return [figure('speed', raw.speed_km_h), duration(raw.flight_time_s), price, belowDesign(raw.margin)].join(', ')
}

/** Every named setup with its figures, a sentence each. */
export function namedWords(result: Result): string {
  return namedMembers(result)
    .map(({ name, member }) => `${capital(name)}: ${memberWords(member, result)}.`)
    .join(' ')
}

const BASES: Readonly<Record<Result['understood']['target']['basis'], string>> = {
  steady: 'level top speed',
  'in-run': 'speed within the run',
  dive: 'speed out of the dive',
}

/** What the compared speed is. */
export function speedWords({ understood }: Result): string {
  return BASES[understood.target.basis]
}

export function targetSpeed({ understood }: Result): number {
  return understood.target.speed * 3.6
}
