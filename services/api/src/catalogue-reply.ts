// What is said of a catalogue once it is in force: what it holds, what is different now, and which prices are old.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { diffCatalogues } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import { type Entry, type ListName, listNames } from '@ductwright/catalogue/lists'
import { PRICE_AGE_DAYS, priceWarnings } from '@ductwright/catalogue/stale-prices'
import { inert } from '@ductwright/contract/inert'
import { z } from 'zod'

/** Sentences of one reply; the comparison of the two versions has them all. */
const SHOWN_CHANGES = 200

const counts = Object.fromEntries(listNames.map((list) => [list, z.number().int()])) as Record<ListName, z.ZodNumber>

export const catalogueReply = z.object({
  version: z.string().describe('SHA-256 of the content; also the entity tag'),
  name: z.string(),
  currency: z.string(),
  dated: z.string(),
  counts: z.object(counts),
  replaced: z.string().nullable().describe('The version that was in force before; null when there was none'),
  changes: z.array(z.string()).describe(`What is different now, in sentences; at most ${SHOWN_CHANGES}`),
  changes_total: z.number().int(),
  warnings: z.array(z.string()).describe('What to look at, such as old prices'),
})

export type CatalogueReply = z.infer<typeof catalogueReply>

/** `day`: today, YYYY-MM-DD. */
export function replyOf(now: Catalogue, before: Catalogue | null, day: string): CatalogueReply {
  const { version, name, currency, dated } = now
  const words = before === null ? [] : diffWords(diffCatalogues(before, now), currency)
  return {
    version,
    name,
    currency,
    dated,
    counts: countsOf(now),
    replaced: before === null || before.version === version ? null : before.version,
    changes: words.slice(0, SHOWN_CHANGES).map((sentence) => inert(sentence)),
    changes_total: words.length,
    warnings: priceWarnings(now, { day, days: PRICE_AGE_DAYS }).map((sentence) => inert(sentence)),
  }
}

function countsOf(catalogue: Pick<Catalogue, ListName>): Record<ListName, number> {
  return Object.fromEntries(listNames.map((list) => [list, (catalogue[list] as readonly Entry[]).length])) as Record<
    ListName,
    number
  >
}

/** The day on the clock of this machine, in world time. */
export const today = (): string => new Date().toISOString().slice(0, 10)
