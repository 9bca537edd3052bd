// What became different between two answers to one question, before it takes words: the setups recommended then and now,
// the rows of the catalogue that did it, what stands in for parts that are gone, and what was not on offer before.

import type { SetupChoice } from '@ductwright/contract/request'
import type { Member, Result } from '@ductwright/contract/result'
import { setupKey } from '@ductwright/contract/standing-meaning'
import { recommended } from '../section-opening.js'
import { purchasesOf } from '../shown-purchases.js'
import { type Substitute, substitutes } from './substitutes.js'

/** One row of the catalogue that differs, with its sentence. */
export interface ChangedRow {
  readonly id: string
  readonly kind: 'new' | 'gone' | 'dearer' | 'cheaper' | 'changed'
  readonly words: string
}

export interface AnswerChange {
  readonly old: Member | undefined
  readonly now: Member | undefined
  readonly same: boolean
  /** Rows of parts that the old or the new setup uses. */
  readonly responsible: readonly ChangedRow[]
  /** Rows of parts that other setups of either list use. */
  readonly around: readonly ChangedRow[]
  /** How many rows differ in all. */
  readonly rows: number
  readonly substitutes: readonly Substitute[]
  /** Purchases of the new list whose parts stood in no setup of the old one, best first. */
  readonly offers: readonly Member[]
  /** Purchases of the old list that the new one has no more, best first. */
  readonly lost: readonly Member[]
}

export function answerChange(old: Result, now: Result, rows: readonly ChangedRow[]): AnswerChange {
  const before = recommended(old)?.member
  const after = recommended(now)?.member
  const used = new Set([before, after].flatMap((member) => (member === undefined ? [] : idsOf(member))))
  const near = new Set([...old.front, ...now.front].flatMap(idsOf))
  const gone = new Set(rows.filter(({ kind }) => kind === 'gone').map(({ id }) => id))
  return {
    old: before,
    now: after,
    same: before !== undefined && after !== undefined && setupKey(before.setup) === setupKey(after.setup),
    responsible: rows.filter(({ id }) => used.has(id)),
    around: rows.filter(({ id }) => near.has(id) && !used.has(id)),
    rows: rows.length,
    substitutes: substitutes(old, now, gone),
    offers: missingFrom(old, now),
    lost: missingFrom(now, old),
  }
}

export function idsOf({ setup, shopping }: Member): string[] {
  return [...new Set([setup.fan, setup.motor, setup.esc, setup.pack, ...shopping.map(({ id }) => id)])]
}

export function purchaseOf({ fan, motor, esc, pack, arrangement }: SetupChoice): string {
  return [fan, motor, esc, pack, arrangement].join(' ')
}

/** Purchases of `listed` that `other` does not have. */
function missingFrom(other: Result, listed: Result): Member[] {
  const known = new Set(other.front.map(({ setup }) => purchaseOf(setup)))
  const best = purchasesOf(listed.front).map((purchase) => purchase.best)
  return best.filter(({ setup }) => !known.has(purchaseOf(setup)))
}
