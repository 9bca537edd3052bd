// What the page's own script works on, as JSON within the page: the whole list in numbers, and how setups are compared.
import { inert } from '@ductwright/contract/inert'
import type { Objectives, Result } from '@ductwright/contract/result'
import { recommended } from '../section-opening.js'
import { partsLine } from '../setup-words.js'
import { type Comparison, comparisonOf } from './why-not.js'

export interface DataRow {
  readonly rank: number
  readonly purchase: number
  readonly raw: Objectives
  readonly headroom: number
  readonly reaches: boolean
  /** Parts in one line, to sort by. */
  readonly parts: string
}

export interface PageData {
  readonly currency: string
  readonly comparison: Comparison
  readonly rows: readonly DataRow[]
  /** Ranks of the setup the letter is about and of the named picks, in this order. */
  readonly picks: readonly number[]
}

export function pageData(result: Result): PageData {
  return {
    currency: inert(result.catalogue.currency, 8),
    comparison: comparisonOf(result),
    rows: [...result.front]
      .sort((a, b) => a.rank - b.rank)
      .map(({ rank, purchase, raw, figures, score, setup }) => ({
        rank,
        purchase,
        raw,
        headroom: figures.headroom,
        reaches: score.reaches,
        parts: partsLine(setup, result.names),
      })),
    picks: [...new Set([...subject(result), ...result.picks.map(({ rank }) => rank)])],
  }
}

function subject(result: Result): number[] {
  const choice = recommended(result)
  return choice === undefined ? [] : [choice.member.rank]
}

/** JSON that cannot end the element it stands in. */
export function embedded(data: PageData): string {
  return JSON.stringify(data).replace(
    /[<>&\u2028\u2029]/g,
    (mark) => `\\u${mark.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}
