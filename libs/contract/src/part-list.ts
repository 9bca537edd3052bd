// Lists of parts: owned with their counts, required, excluded. Sorted by code unit, so that equal lists are equal bytes.
import { byCodeUnit } from '@ductwright/catalogue/canonical-json'
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { partId } from './text.js'

const MOST_PARTS = 200
const MOST_OF_ONE = 50

// Not z.int(): its issue would keep the rules over several fields from being judged.
const count = z.number().refine((number) => Number.isInteger(number) && number >= 1 && number <= MOST_OF_ONE, {
  error: `must be a whole number from 1 to ${MOST_OF_ONE}`,
  params: { rule: 'range' },
})

const ownedPart = z
  .unknown()
  .meta({
    anyOf: [
      { type: 'string' },
      {
        type: 'object',
        properties: {
          id: { type: 'string' },
          count: { type: 'integer', minimum: 1, maximum: MOST_OF_ONE, default: 1 },
        },
        required: ['id'],
        additionalProperties: false,
      },
    ],
    description: 'A part id, or an id with a count.',
  })
  .transform((entry) => (typeof entry === 'string' ? { id: entry } : entry))
  .pipe(
    z.strictObject(
      { id: partId, count: count.prefault(1) },
      { error: (issue) => (issue.code === 'invalid_type' ? 'must be a part id, or {"id": …, "count": …}' : undefined) },
    ),
  )

/** Entries may be something else here when they had faults of their own. */
function eachOnce(parts: readonly { readonly id?: unknown }[]): boolean {
  const ids = parts.map((part) => part?.id).filter((id) => typeof id === 'string')
  return new Set(ids).size === ids.length
}

export const owned = z
  .array(ownedPart)
  .max(MOST_PARTS)
  .refine(eachOnce, crossRule('duplicate', [], 'names a part twice: write it once with its count', 'list'))
  .transform((parts) => parts.toSorted((a, b) => byCodeUnit(a.id, b.id)))
  .prefault([])
  .meta({ description: 'Parts already owned: they cost nothing. Default: none.' })

/** A set of part ids, sorted and each once. */
export const partIds = (about: string) =>
  z
    .array(partId)
    .max(MOST_PARTS)
    .transform((ids) => [...new Set(ids)].sort(byCodeUnit))
    .prefault([])
    .meta({ description: `${about} Default: none.` })
