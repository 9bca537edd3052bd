// Own parts that a request is to be answered with: named by the id under which a service keeps them, resolved there into a
// catalogue version that the run is pinned to. They are no part of what is understood of the question.
import { z } from 'zod'

export const ownParts = z
  .string()
  .regex(/^[A-Za-z0-9_-]{1,64}$/, 'must be an id that the service gave for own parts')
  .nullable()
  .prefault(null)
  .meta({
    description: 'Id of own parts to lay over the catalogue, as the service gave it; null: the catalogue alone.',
  })

/** Of a request that has been read without fault. */
export function ownPartsOf(json: unknown): string | null {
  if (typeof json !== 'object' || json === null || !Object.hasOwn(json, 'own_parts')) return null
  const { own_parts } = json as { readonly own_parts?: unknown }
  return typeof own_parts === 'string' ? own_parts : null
}
