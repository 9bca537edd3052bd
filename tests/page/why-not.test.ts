// Why not this one: the verdict against the definition the list itself is made by, at random, and its words.
import type { Objectives } from '@ductwright/contract/result'
import { compareAs } from '@ductwright/models/sweep/objectives'
import { type Comparison, comparisonOf, type Listed, whyNot } from '@ductwright/report/page/why-not'
import { whyNotWords } from '@ductwright/report/page/why-not-words'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { answer } from '../report/fixture.js'

const exact: Comparison = {
  resolution: { speed_km_h: 0, flight_time_s: 0, cost: 0, margin: 0 },
  wanted: null,
}
const narrowed: Comparison = {
  resolution: { speed_km_h: 2, flight_time_s: 5, cost: 5, margin: 0.02 },
  wanted: { flight_time_s: 270, margin: 0.25 },
}

const of = (speed_km_h: number, flight_time_s: number, cost: number, margin: number): Objectives => ({
  speed_km_h,
  flight_time_s,
  cost,
  margin,
})

const list: readonly Listed[] = [
  { rank: 2, raw: of(340, 300, 500, 0.2) },
  { rank: 1, raw: of(360, 260, 800, 0.25) },
]

/** Few values each, so that ties and dominance are common. */
const objectives = fc.record({
  speed_km_h: fc.integer({ min: 300, max: 312 }),
  flight_time_s: fc.integer({ min: 255, max: 280 }),
  cost: fc.integer({ min: 500, max: 520 }),
  margin: fc.integer({ min: 15, max: 30 }).map((percent) => percent / 100),
})

/** Compared values as the sweep writes them, less is better. */
function cells(raw: Objectives, { resolution, wanted }: Comparison): number[] {
  const compared = new Float64Array(4)
  const plain = { speed: raw.speed_km_h, time: raw.flight_time_s, cost: raw.cost, margin: raw.margin }
  const { speed_km_h: speed, flight_time_s: time, cost, margin } = resolution
  compareAs(
    plain,
    {
      resolution: { speed, time, cost, margin },
      wantedTime: wanted?.flight_time_s ?? Number.POSITIVE_INFINITY,
      wantedMargin: wanted?.margin ?? Number.POSITIVE_INFINITY,
      targetSpeed: 0,
    },
    compared,
    0,
  )
  return [...compared].map((value) => Math.round(value * 1e6) / 1e6)
}

describe('a candidate against the list', () => {
  it.each([
    ['exactly', exact],
    ['rounded and up to what is wanted', narrowed],
  ] as const)('is judged as the sweep judges, %s', (_how, comparison) => {
    fc.assert(
      fc.property(fc.array(objectives, { minLength: 1, maxLength: 8 }), objectives, (raws, candidate) => {
        const front = raws.map((raw, at) => ({ rank: at + 1, raw }))
        const own = cells(candidate, comparison)
        const theirs = raws.map((raw) => cells(raw, comparison))
        const noWorse = theirs.map((one) => one.every((value, at) => value <= own[at]!))
        const better = theirs.map((one, row) => noWorse[row]! && one.some((value, at) => value < own[at]!))
        const { verdict, rank } = whyNot(front, candidate, comparison)!
        if (better.includes(true)) expect([verdict, rank]).toEqual(['beaten', better.indexOf(true) + 1])
        else if (noWorse.includes(true)) expect([verdict, rank]).toEqual(['equalled', noWorse.indexOf(true) + 1])
        else expect([verdict, rank]).toEqual(['unbeaten', 1])
      }),
    )
  })

  it('is told the best ranked of those that beat it, and by how much', () => {
    expect(whyNot(list, of(330, 250, 900, 0.2), exact)).toEqual({
      verdict: 'beaten',
      rank: 1,
      ahead: of(30, 10, 100, 0.04999999999999999),
    })
  })

  it('is held against the first when nothing beats it', () => {
    expect(whyNot(list, of(361, 100, 900, 0.1), exact)).toMatchObject({ verdict: 'unbeaten', rank: 1 })
  })

  it('has nothing to be held against in an empty list', () => {
    expect(whyNot([], of(361, 100, 900, 0.1), exact)).toBeNull()
  })

  it('counts as the request asked: no end to time and margin when the whole front is wanted', () => {
    const result = answer()
    expect(comparisonOf(result)).toEqual(narrowed)
    const whole = { ...result, rules: { ...result.rules, narrowed: false } }
    expect(comparisonOf(whole).wanted).toBeNull()
  })
})

describe('the words', () => {
  const told = (candidate: Objectives, comparison = exact) =>
    whyNotWords(whyNot(list, candidate, comparison)!, 'EUR').replaceAll('\u00a0', ' ')

  it('say which one beats it and by how much', () => {
    expect(told(of(330, 250, 900, 0.2))).toBe(
      'Beaten by number 1, which is no worse in anything that counts and 30 km/h faster, 10 s longer in the air, 100 EUR cheaper and 5 % of the design load safer.',
    )
  })

  it('say what is gained and given up against the first when nothing beats it', () => {
    expect(told(of(345, 255, 560.5, 0.3))).toBe(
      'Nothing in the list beats it in everything. Against number 1 it is 15 km/h slower and 5 s shorter in the air, but 240 EUR cheaper and 5 % of the design load safer.',
    )
  })

  it('say so when a gain is beyond what counts', () => {
    expect(told(of(350, 400, 900, 0.2), { ...narrowed, wanted: { flight_time_s: 250, margin: 0.25 } })).toBe(
      'Beaten by number 1, which is no worse in anything that counts and 10 km/h faster, 100 EUR cheaper and 5 % of the design load safer. That it is 140 s longer in the air than that does not count: it is within the rounding or beyond what is wanted.',
    )
  })

  it('say so when they are the same', () => {
    expect(told(of(360, 260, 800, 0.25))).toBe('Number 1 equals it in everything that counts.')
  })
})
