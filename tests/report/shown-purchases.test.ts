// Which purchases stand for a long list: those with a name, the extremes, and the widest spread of the rest.
import type { Member, Objectives, Result } from '@ductwright/contract/result'
import { mostPurchases, purchasesOf, shownPurchases } from '@ductwright/report/shown-purchases'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'

const plain = answer({ members: 1 })

/** A list with these compared figures, one setup a purchase, in the order of rank. */
function listOf(compared: readonly Partial<Objectives>[], changes: Partial<Result> = {}): Result {
  const front = compared.map((own, at): Member => {
    const like = plain.front[0]!
    const base = { speed_km_h: 300, flight_time_s: 240, cost: 500, margin: 0.2 }
    return { ...like, rank: at + 1, purchase: at + 1, compared: { ...base, ...own } }
  })
  return { ...plain, front, picks: [], knee: null, ...changes }
}

const ranksOf = (result: Result, most?: number) => shownPurchases(result, most).map(({ best }) => best.rank)

const even = Array.from({ length: 60 }, (_, at) => ({ cost: 400 + at }))

describe('purchases shown', () => {
  it('are all of a short list, in the order of rank', () => {
    expect(ranksOf(listOf(even.slice(0, mostPurchases)))).toEqual(
      Array.from({ length: mostPurchases }, (_, at) => at + 1),
    )
  })

  it('hold the first, the picks, the knee and the best in every objective', () => {
    const compared = even.map((one, at) => ({
      ...one,
      speed_km_h: at === 20 ? 390 : 300,
      flight_time_s: at === 30 ? 400 : 240,
      margin: at === 40 ? 0.5 : 0.2,
    }))
    const picks = [{ ...plain.picks[0]!, rank: 50 }]
    const shown = ranksOf(listOf(compared, { picks, knee: { rank: 11, why: 'beyond it speed gets dear' } }))
    expect(shown).toHaveLength(mostPurchases)
    for (const rank of [1, 11, 21, 31, 41, 50]) expect(shown).toContain(rank)
  })

  it('then take the one farthest from all that are shown: halves, quarters, eighths of an even row', () => {
    const row = Array.from({ length: 9 }, (_, at) => ({ cost: 400 + 10 * at }))
    expect(ranksOf(listOf(row, { picks: [{ ...plain.picks[0]!, rank: 9 }] }), 3)).toEqual([1, 5, 9])
    expect(ranksOf(listOf(row, { picks: [{ ...plain.picks[0]!, rank: 9 }] }), 5)).toEqual([1, 3, 5, 7, 9])
  })

  it('measure each objective by its own range, so that units do not matter', () => {
    const compared = even.map(({ cost }, at) => ({ cost, speed_km_h: 300 + ((at * 37) % 60) }))
    const cents = compared.map((one) => ({ ...one, cost: one.cost * 100 }))
    expect(ranksOf(listOf(cents))).toEqual(ranksOf(listOf(compared)))
  })

  it('hold a purchase once, by its best-ranked setting, with all settings in it', () => {
    const front = answer({ members: 24 }).front
    const grouped = purchasesOf([...front].reverse())
    expect(grouped.map(({ best }) => best.rank)).toEqual([1, 4, 7, 10, 13, 16, 19, 22])
    expect(grouped.every(({ settings }) => settings.length === 3)).toBe(true)
  })

  it('do not depend on the order the list comes in, are never more than asked for, and are different ones', () => {
    const figure = fc.integer({ min: 0, max: 6 })
    const compared = fc.record({ speed_km_h: figure, flight_time_s: figure, cost: figure, margin: figure })
    fc.assert(
      fc.property(fc.array(compared, { minLength: 1, maxLength: 40 }), (figures) => {
        const result = listOf(figures)
        const shown = ranksOf(result)
        expect(ranksOf({ ...result, front: [...result.front].reverse() })).toEqual(shown)
        expect(shown).toHaveLength(Math.min(figures.length, mostPurchases))
        expect(new Set(shown).size).toBe(shown.length)
        expect(shown[0]).toBe(1)
      }),
    )
  })

  it('are none of an empty list', () => {
    expect(shownPurchases(answer({ outcome: 'none' }))).toEqual([])
  })
})
