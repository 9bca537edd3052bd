// Lists of parts: owned with their counts, required, excluded. Sorted by code unit, so that equal lists are equal bytes.
import { byCodeUnit } from '@ductwright/catalogue/canonical-json'
import { TREATMENTS } from '@ductwright/models/drag/treatments'
import { z } from 'zod'
import { crossRule } from './cross-rule.js'
import { quantity } from './quantity.js'
import type { OwnedPart } from './request.js'
import { partId } from './text.js'

const MOST_PARTS = 200
const MOST_OF_ONE = 50

/** No lithium pack is flown this often. */
const MOST_CYCLES = 2000

// Not z.int(): its issue would keep the rules over several fields from being judged.
const wholeNumber = (least: number, most: number) =>
  z.number().refine((number) => Number.isInteger(number) && number >= least && number <= most, {
    error: `must be a whole number from ${least} to ${most}`,
    params: { rule: 'range' },
  })

const count = wholeNumber(1, MOST_OF_ONE)

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
          cell_resistance_mohm: { type: 'number', minimum: 0.1, maximum: 100 },
          cycles: { type: 'integer', minimum: 0, maximum: MOST_CYCLES },
        },
        required: ['id'],
        additionalProperties: false,
      },
    ],
    description:
      'A part id, or an id with a count; of a pack also the measured resistance of one cell at 25 °C and its charges so far.',
  })
  .transform((entry) => (typeof entry === 'string' ? { id: entry } : entry))
  .pipe(
    z.strictObject(
      {
        id: partId,
        count: count.prefault(1),
        cell_resistance_mohm: quantity({
          unit: 'mΩ',
          min: 0.1,
          max: 100,
          why: 'no cell of a flight pack has less, and one with more feeds no fan',
          about: 'Measured resistance of one cell at 25 °C.',
        }).optional(),
        cycles: wholeNumber(0, MOST_CYCLES).optional(),
      },
      { error: (issue) => (issue.code === 'invalid_type' ? 'must be a part id, or {"id": …, "count": …}' : undefined) },
    ),
  )
  .transform(
    (part): OwnedPart => ({
      id: part.id,
      count: part.count,
      cellResistance: part.cell_resistance_mohm ?? null,
      cycles: part.cycles ?? null,
    }),
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

/** Clean-up work wanted on the airframe, each once, in canonical order. */
export const treatments = z
  .array(z.enum(TREATMENTS))
  .max(TREATMENTS.length)
  .transform((kinds) => TREATMENTS.filter((kind) => kinds.includes(kind)))
  .prefault([])
  .meta({
    description: 'Clean-up work to be done on the airframe first; its cost, mass and hours are counted. Default: none.',
  })
