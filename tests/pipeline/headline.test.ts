// What the headline of a no says stands in the way where no single limit is to blame.
import { type HeadlineFacts, headlineOf } from '@ductwright/pipeline/headline'
import { beforeAll, describe, expect, it } from 'vitest'
import { answered, prepared, workshop } from './workshop.js'

const facts: HeadlineFacts = {
  outcome: 'none',
  target: 500,
  best: null,
  safest: null,
  fastest: null,
  heldBack: null,
  airframe: 'Vintra 90',
  nearest: null,
  relaxations: [],
  fanSize: null,
  misfit: null,
  currency: 'EUR',
}
const told = (changes: Partial<HeadlineFacts>) =>
  headlineOf({ ...facts, ...changes }).headline.replaceAll('\u00a0', ' ')
const breaking = (...limits: [string, string][]) => ({
  broken: limits.map(([limit, words]) => ({ limit, words, used: 1.05 })),
})

describe('a no that blames the airframe', () => {
  const no = 'Not with this airframe: no setup of this catalogue does 500 km/h in the Vintra 90.'
  const nothing = `${no} No setup of this catalogue flies within the limits given.`

  it('says what holds the fastest back, where anything holds the limits', () => {
    const fastest = { speed_km_h: 420, flight_time_s: 250, cost: 0, margin: 0.12 }
    const heldBack = 'fan tip speed stops the throttle at 93 %'
    expect(told({ outcome: 'short', fastest, heldBack, nearest: breaking(['budget', 'budget']) })).toBe(
      `${no} Within the limits given the fastest setup does 420 km/h, 4:10 min, nothing to pay, 12 % below the design load. What holds it back: ${heldBack}.`,
    )
  })

  it('says what stops the setup that comes nearest where nothing does, and never how many', () => {
    const nearest = breaking(['speed-floor', 'speed floor'], ['motor-current', 'motor current'])
    expect(told({ nearest })).toBe(`${nothing} The setup that comes nearest is stopped by: motor current.`)
  })

  it.each([
    ['comes near', null],
    ['that comes near lacks anything but speed', breaking(['speed-floor', 'speed floor'])],
  ])('says no more where nothing %s', (_what, nearest) => {
    expect(told({ nearest })).toBe(nothing)
  })
})

describe('the headline of an answer', () => {
  let headline: string
  let relaxed: readonly string[]
  beforeAll(async () => {
    const none = answered(prepared(await workshop(), { target: { speed_km_h: 600 } }))
    headline = none.headline
    relaxed = none.relaxations.map(({ relax }) => relax)
  })

  it('works out what holds the fastest back when it is too slow to be listed', () => {
    expect(relaxed).toContain('target')
    expect(headline).toMatch(/^Not with this airframe: /)
    expect(headline).toMatch(
      /Within the limits given the fastest setup does \d+\skm\/h, .+\. What holds it back: speed controller current stops the throttle at \d+\s%\.$/,
    )
  })
})
