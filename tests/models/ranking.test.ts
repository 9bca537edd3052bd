// Desirability and ranking: every score decomposes, and the order follows the wishes.
import { DESIRABILITY_FLOOR, desirability, overallDesirability } from '@ductwright/models/ranking/desirability'
import { namedPicks, rankSetups } from '@ductwright/models/ranking/rank'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const wishes = {
  targetSpeed: 100,
  worstSpeed: 85,
  wantedTime: 270,
  worstCost: 1200,
  leastMargin: 0,
  wantedMargin: 0.25,
  weights: { speed: 2, time: 1, cost: 1, margin: 1 },
}
const setup = (number: number, speed: number, time: number, cost: number, margin: number) => ({
  number,
  raw: { speed, time, cost, margin },
})

describe('desirability (Derringer & Suich, Journal of Quality Technology 12, 1980; formula from memory)', () => {
  it('0 to 1 linear between the ends, floored, for either sense', () => {
    expect(desirability(92.5, 85, 100)).toBeCloseTo(0.5, 12)
    expect(desirability(110, 85, 100)).toBe(1)
    expect(desirability(80, 85, 100)).toBe(DESIRABILITY_FLOOR)
    expect(desirability(300, 1200, 0)).toBeCloseTo(0.75, 12)
    expect(desirability(5, 5, 5)).toBe(1)
    expect(desirability(4, 5, 5)).toBe(DESIRABILITY_FLOOR)
  })

  it('the worked example of a tyre tread: 0.189, 1, 0.656, 0.932 and 0.583 together (figures from memory)', () => {
    // Abrasion at least 120, best from 170; modulus at least 1000, best from 1300; elongation best at 500, not under 400;
    // hardness best at 67.5, not above 75.
    const parts = [
      desirability(129.5, 120, 170),
      desirability(1300, 1000, 1300),
      desirability(465.7, 400, 500),
      desirability(68, 75, 67.5),
    ]
    const published = [0.189, 1, 0.656, 0.932]
    for (const [i, part] of parts.entries()) expect(Math.abs(part - (published[i] ?? 9))).toBeLessThan(0.002)
    expect(Math.abs(overallDesirability(parts, [1, 1, 1, 1]) - 0.583)).toBeLessThan(0.002)
  })

  it('weighted geometric mean: (1² · 0.5 · 0.5 · 1)^(1/5) = 0.757858 (computed)', () => {
    expect(overallDesirability([1, 0.5, 0.5, 1], [2, 1, 1, 1])).toBeCloseTo(0.757858, 6)
  })

  it('lies between the least and the largest part and does not fall when a part rises', () => {
    const parts = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 })
    fc.assert(
      fc.property(parts, fc.nat({ max: 3 }), (values, index) => {
        const score = overallDesirability(values, [2, 1, 1, 1])
        expect(score).toBeGreaterThanOrEqual(Math.min(...values) - 1e-12)
        expect(score).toBeLessThanOrEqual(Math.max(...values) + 1e-12)
        const better = values.map((value, i) => (i === index ? Math.min(1, value + 0.1) : value))
        expect(overallDesirability(better, [2, 1, 1, 1])).toBeGreaterThanOrEqual(score)
      }),
    )
  })

  it('refuses weights that do not match, by value', () => {
    expect(() => overallDesirability([1, 1], [1])).toThrow(RangeError)
    expect(() => overallDesirability([1, 1], [0, 0])).toThrow(/weights must match the 2 values .* got 0, 0/)
  })
})

describe('ranking', () => {
  const fast = setup(1, 101, 270, 900, 0.3)
  const cheap = setup(2, 100, 200, 300, 0.26)
  const slow = setup(3, 95, 400, 100, 0.5)
  const risky = setup(4, 110, 270, 100, 0.1)

  it('puts those that reach the target with the margin wanted first, whatever the order of arrival', () => {
    const order = rankSetups([slow, risky, fast, cheap], wishes).map(({ number }) => number)
    expect(order.slice(0, 2).sort()).toEqual([1, 2])
    expect(rankSetups([cheap, fast, risky, slow], wishes).map(({ number }) => number)).toEqual(order)
  })

  it('breaks ties by cost, then by number', () => {
    const free = { ...wishes, worstCost: 1e12 }
    const pair = [setup(9, 100, 270, 5, 0.25), setup(8, 100, 270, 5, 0.25)]
    expect(rankSetups(pair, free).map(({ number }) => number)).toEqual([8, 9])
  })

  it('an unrelated member does not change the order of the others', () => {
    const before = rankSetups([slow, fast, cheap], wishes).map(({ number }) => number)
    const after = rankSetups([slow, risky, fast, cheap], wishes).map(({ number }) => number)
    expect(after.filter((number) => number !== risky.number)).toEqual(before)
  })

  it('picks the first, the least money and the largest margin among those that reach the target, and the fastest', () => {
    const ranking = rankSetups([slow, risky, fast, cheap], wishes)
    const picked = Object.fromEntries(namedPicks(ranking, 100).map(({ pick, index }) => [pick, ranking[index]?.number]))
    expect(picked).toEqual({ 'best-all-round': ranking[0]?.number, 'best-for-the-money': 4, safest: 1, fastest: 4 })
    expect(namedPicks(ranking, 100)[0]).toEqual({ pick: 'best-all-round', index: 0 })
    expect(namedPicks(ranking, 120)[0]).toEqual({ pick: 'best-all-round', index: 0 })
    expect(namedPicks([], 100)).toEqual([])
  })

  it('when nothing reaches the target the money pick is speed cubed for the money', () => {
    const ranking = rankSetups([setup(1, 90, 100, 1000, 0.2), setup(2, 80, 100, 200, 0.2)], wishes)
    const money = namedPicks(ranking, 100).find(({ pick }) => pick === 'best-for-the-money')
    expect(ranking[money?.index ?? -1]?.number).toBe(2)
  })

  const someMembers = fc.uniqueArray(
    fc.record({
      number: fc.nat({ max: 1e6 }),
      raw: fc.record({
        speed: fc.double({ min: 70, max: 130, noNaN: true }),
        time: fc.double({ min: 60, max: 500, noNaN: true }),
        cost: fc.integer({ min: 0, max: 2000 }),
        margin: fc.double({ min: -0.1, max: 0.6, noNaN: true }),
      }),
    }),
    { selector: ({ number }) => number, minLength: 1, maxLength: 12 },
  )
  const someWeights = fc.record({
    speed: fc.integer({ min: 1, max: 20 }),
    time: fc.nat({ max: 20 }),
    cost: fc.nat({ max: 20 }),
    margin: fc.nat({ max: 20 }),
  })

  it('is the same for weights in the same proportion, and for any order of arrival', () => {
    fc.assert(
      fc.property(someMembers, someWeights, fc.constantFrom(2, 4, 0.5), (members, weights, factor) => {
        const scaled = {
          speed: factor * weights.speed,
          time: factor * weights.time,
          cost: factor * weights.cost,
          margin: factor * weights.margin,
        }
        const order = rankSetups(members, { ...wishes, weights })
        expect(rankSetups(members.toReversed(), { ...wishes, weights })).toEqual(order)
        const again = rankSetups(members, { ...wishes, weights: scaled })
        expect(again.map(({ number }) => number)).toEqual(order.map(({ number }) => number))
      }),
    )
  })

  it('every score is the weighted geometric mean of its parts', () => {
    fc.assert(
      fc.property(someMembers, someWeights, (members, weights) => {
        const sum = weights.speed + weights.time + weights.cost + weights.margin
        for (const { desirability: score, parts } of rankSetups(members, { ...wishes, weights })) {
          const { speed, time, cost, margin } = parts
          const product =
            speed ** weights.speed * time ** weights.time * cost ** weights.cost * margin ** weights.margin
          expect(Math.abs(score - product ** (1 / sum))).toBeLessThan(1e-9)
        }
      }),
    )
  })

  it('only what counts counts: by cost alone the cheapest that reaches comes first', () => {
    const weights = { speed: 0, time: 0, cost: 1, margin: 0 }
    expect(rankSetups([slow, fast, cheap], { ...wishes, weights }).map(({ number }) => number)).toEqual([2, 1, 3])
  })

  it("follows the owner's own value behind what reaches, ties by cost; what has none comes last", () => {
    const values = new Map([
      [1, 5],
      [2, 7],
      [3, 99],
      [4, Number.NaN],
    ])
    const ranking = rankSetups([risky, slow, fast, cheap], wishes, (number) => values.get(number) ?? 0)
    expect(ranking.map(({ number }) => number)).toEqual([2, 1, 3, 4])
    expect(ranking.map(({ value }) => value)).toEqual([7, 5, 99, null])
    const tied = rankSetups([fast, cheap], wishes, () => 1)
    expect(tied.map(({ number }) => number)).toEqual([2, 1])
    const infinite = rankSetups([fast, cheap], wishes, (number) => (number === 2 ? Number.POSITIVE_INFINITY : 0))
    expect(infinite.map(({ number }) => number)).toEqual([1, 2])
    expect(rankSetups([fast], wishes)[0]?.value).toBeNull()
  })
})
