// What is kept of an invented answer for the summary of a batch.
import type { ItemSummary } from '@ductwright/contract/batch-summary'
import { answer } from './fixture.js'

export function itemSummary(changes: Partial<ItemSummary> = {}): ItemSummary {
  const { front, names } = answer()
  const [best] = front
  if (best === undefined) throw new Error('the fixture has no front')
  const { setup, raw } = best
  return {
    title: 'Six jets',
    airframe: 'a',
    airframe_name: 'Jet',
    treatments: ['polish'],
    target_km_h: 360,
    budget: 900,
    currency: 'EUR',
    outcome: 'reached',
    headline: '',
    first: { setup, raw },
    steps: [{ cost: raw.cost, speed_km_h: raw.speed_km_h, setup }],
    names,
    ...changes,
  }
}
