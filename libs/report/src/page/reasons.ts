// Why a setup of the list is or is not the one to take: what beats it if anything does, how it stands against the first,
// against the best settings of the same parts, and what keeps it from being faster.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import { pickNames } from '../pick-names.js'
import { comparisonOf, whyNot } from './why-not.js'
import { whyNotWords } from './why-not-words.js'

/** `same`: every setup of the list with the same parts. */
export function reasons(member: Member, same: readonly Member[], result: Result): string[] {
  return [
    ...picked(member, result),
    member.rank === 1 ? inert(member.why, 600) : against(member, result.front, result),
    ...sameParts(member, same, result),
    `What keeps it from being faster: ${inert(member.binds.words, 300)}.`,
  ]
}

/** Members by purchase. */
export function byPurchase(front: readonly Member[]): ReadonlyMap<number, readonly Member[]> {
  const groups = new Map<number, Member[]>()
  for (const member of front) {
    const group = groups.get(member.purchase)
    if (group === undefined) groups.set(member.purchase, [member])
    else group.push(member)
  }
  return groups
}

/** A setup of the list against others of it. */
function against({ raw, rank }: Member, others: readonly Member[], result: Result): string {
  const verdict = whyNot(others, raw, comparisonOf(result), rank)
  return verdict === null ? '' : whyNotWords(verdict, result.catalogue.currency)
}

function picked({ rank }: Member, { picks }: Result): string[] {
  return picks.filter((pick) => pick.rank === rank).map(({ pick, why }) => `${pickNames[pick]}. ${inert(why)}`)
}

/** The same purchase in its best settings, for a setup that is not the best of its own. */
function sameParts(member: Member, same: readonly Member[], result: Result): string[] {
  const best = same.reduce((first, next) => (next.rank < first.rank ? next : first), member)
  const others = `Purchase ${figure('count', member.purchase)} has ${figure('count', same.length)} settings in the list`
  if (same.length < 2) return []
  if (best === member) return [`${others}; this is the best of them.`]
  return [`${others}. ${against(member, [best], result)}`]
}
