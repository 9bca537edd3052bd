// What stands in for a part that is gone: of the setups listed now, the one that keeps most of the parts of the best setup
// that used it, and what is lost by it. Ties go to the better ranked.
import type { SetupChoice } from '@ductwright/contract/request'
import type { Member, Result } from '@ductwright/contract/result'
import { purchasesOf } from '../shown-purchases.js'

export interface Substitute {
  /** Id of the part that is gone. */
  readonly gone: string
  /** The best setup that used it. */
  readonly was: Member
  /** What comes nearest; null when nothing is listed any more. */
  readonly instead: Member | null
}

const roles = ['fan', 'motor', 'esc', 'pack'] as const

/** In the order in which the old list names the parts; a set that is gone counts for itself. */
export function substitutes(old: Result, now: Result, gone: ReadonlySet<string>): Substitute[] {
  const found = new Map<string, Substitute>()
  for (const { best: was } of purchasesOf(old.front)) {
    const ids = [...roles.map((role) => was.setup[role]), ...was.shopping.map(({ id }) => id)]
    for (const id of ids) {
      if (gone.has(id) && !found.has(id)) found.set(id, { gone: id, was, instead: nearestTo(was.setup, now) })
    }
  }
  return [...found.values()]
}

function nearestTo(setup: SetupChoice, now: Result): Member | null {
  const kept = (member: Member): number => roles.filter((role) => member.setup[role] === setup[role]).length
  return purchasesOf(now.front).reduce<Member | null>(
    (best, { best: member }) => (best !== null && kept(best) >= kept(member) ? best : member),
    null,
  )
}
