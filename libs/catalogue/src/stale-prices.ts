// Prices that are old on a given day, in words. There is no clock in here: whoever asks says which day it is.

import { byCodeUnit } from './canonical-json.js'
import type { Catalogue } from './catalogue.js'
import { type Entry, entryId, type ListName, listNames } from './lists.js'

/** Assumed: prices of model shops hold for about half a year. */
export const PRICE_AGE_DAYS = 180
const DAY_MS = 86_400_000
const NAMED = 3

export interface StalePrice {
  readonly table: ListName
  readonly id: string
  readonly name: string
  /** YYYY-MM-DD */
  readonly priced: string
  readonly ageDays: number
}

export interface PriceAge {
  /** The day on which the age is counted, YYYY-MM-DD; the catalogue's own date asks which of its prices are behind it. */
  readonly day: string
  readonly days: number
}

/**
 * Rows whose price is more than `days` old on `day`, the oldest first.
 * @throws RangeError for a day that is none, or a number of days below 0
 */
export function stalePrices(catalogue: Catalogue, { day, days }: PriceAge): StalePrice[] {
  const now = dayNumber('day', day)
  if (!(days >= 0)) throw new RangeError(`days must be at least 0, got ${days}`)
  const found = listNames.flatMap((table) =>
    catalogue[table].flatMap((entry: Entry): StalePrice[] => {
      const priced = entry.priced ?? catalogue.dated
      const ageDays = now - dayNumber('priced', priced)
      return ageDays > days ? [{ table, id: entryId(entry), name: entry.name, priced, ageDays }] : []
    }),
  )
  return found.sort((a, b) => b.ageDays - a.ageDays || byCodeUnit(a.id, b.id))
}

/** One sentence about old prices; none when all are young enough. */
export function priceWarnings(catalogue: Catalogue, age: PriceAge): string[] {
  const stale = stalePrices(catalogue, age)
  const oldest = stale[0]
  if (oldest === undefined) return []
  const all = listNames.reduce((sum, table) => sum + catalogue[table].length, 0)
  const count =
    stale.length === all
      ? `All ${all} prices are`
      : `${stale.length} of ${all} prices ${stale.length === 1 ? 'is' : 'are'}`
  const names = stale.slice(0, NAMED).map(({ name, priced }) => `${name} of ${priced}`)
  const rest = stale.length > NAMED ? ` and ${stale.length - NAMED} more` : ''
  const which =
    stale.length === all && stale.every(({ priced }) => priced === oldest.priced)
      ? `of ${oldest.priced}`
      : `${names.join(', ')}${rest}`
  return [`${count} more than ${age.days} days old on ${age.day}: ${which}. What a part costs today may differ.`]
}

function dayNumber(what: string, day: string): number {
  const time = /^\d{4}-\d\d-\d\d$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN
  if (Number.isNaN(time)) throw new RangeError(`${what} must be a date written YYYY-MM-DD, got ${JSON.stringify(day)}`)
  return Math.round(time / DAY_MS)
}
