// Where the samples of a study sit and how their bounds are read off: seeded numbers against exact integers, evenly spread
// points and normal deviates against tables made with SciPy, and bounds of a sample with what cannot be worked out in it.
import { haltonCoordinate, haltonPoints, MOST_DIMENSIONS } from '@ductwright/models/uncertainty/halton'
import { normalQuantile } from '@ductwright/models/uncertainty/normal-quantile'
import { band, quantile } from '@ductwright/models/uncertainty/quantile'
import { rankShares } from '@ductwright/models/uncertainty/rank-shares'
import { permutation, seededGenerator } from '@ductwright/models/uncertainty/seeded-generator'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from './authority-table.js'

const seeds = fc.integer({ min: 0, max: 2 ** 32 - 1 })

describe('seeded numbers', () => {
  /** The same rule in exact whole numbers. */
  function exact(seed: number, count: number): number[] {
    const mask = (1n << 32n) - 1n
    const scramble = (word: bigint, shift: bigint, factor: bigint) => ((word ^ (word >> shift)) * factor) & mask
    return Array.from({ length: count }, (_, i) => {
      const counter = (BigInt(seed) + 0x9e3779b9n * BigInt(i + 1)) & mask
      const word = scramble(scramble(counter, 16n, 0x21f0aaadn), 15n, 0x735a2d97n)
      return Number(word ^ (word >> 15n))
    })
  }

  it('equal the same rule in whole numbers without end', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const generator = seededGenerator(seed)
        expect(Array.from({ length: 50 }, () => generator.next())).toEqual(exact(seed, 50))
      }),
    )
  })

  it('shuffle into every order equally often', () => {
    const generator = seededGenerator(11)
    const counts = new Map<string, number>()
    for (let i = 0; i < 24_000; i++) {
      const order = permutation(generator, 4).join('')
      counts.set(order, (counts.get(order) ?? 0) + 1)
    }
    expect(counts.size).toBe(24)
    // Chi squared with 23 degrees of freedom stays below 49.7 in 999 of 1000 cases.
    const chiSquared = [...counts.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0)
    expect(chiSquared).toBeLessThan(49.7)
  })

  it('refuse a seed that is not a whole number of 32 bits', () => {
    for (const seed of [-1, 0.5, 2 ** 32, Number.NaN]) {
      expect(() => seededGenerator(seed)).toThrow(/^seed must be a whole number from 0 to 4294967295, got /)
    }
  })
})

describe('evenly spread points', () => {
  it('without scrambling agree with SciPy', () => {
    const { rows, tolerance } = authorityTable('low-discrepancy')
    const dimensions = new Set(rows.map((row) => row.number('dimension')))
    expect(dimensions.size).toBe(MOST_DIMENSIONS)
    for (const row of rows) {
      const coordinate = haltonCoordinate(row.number('index'), row.number('dimension'))
      expect(relativeError(coordinate, row.number('coordinate'))).toBeLessThan(tolerance)
    }
    expect(haltonCoordinate(0, 5)).toBe(0)
  })

  it('scrambled put one point into every equal part when there are as many points as parts', () => {
    const bases = [2, 3, 5, 7, 11, 13, 17, 19]
    fc.assert(
      fc.property(seeds, (seed) => {
        const cube = haltonPoints(1024, bases.length, seed)
        for (const [dimension, base] of bases.entries()) {
          const parts = base ** Math.floor(Math.log(1024) / Math.log(base) + 1e-9)
          const met = new Set<number>()
          for (let i = 0; i < parts; i++) met.add(Math.floor((cube[i * bases.length + dimension] as number) * parts))
          expect(met.size).toBe(parts)
        }
      }),
      { numRuns: 20 },
    )
  })

  it('lie strictly inside, depend on the seed alone, and stay when more are drawn', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: MOST_DIMENSIONS }), (seed, dimensions) => {
        const few = haltonPoints(40, dimensions, seed)
        expect(few.every((coordinate) => coordinate > 0 && coordinate < 1)).toBe(true)
        expect(haltonPoints(90, dimensions, seed).subarray(0, few.length)).toEqual(few)
        expect(haltonPoints(40, dimensions, seed === 0 ? 1 : seed - 1)).not.toEqual(few)
      }),
      { numRuns: 30 },
    )
  })

  it('find the mean of a smooth function of 25 inputs with half the error of random points, or less', () => {
    const dimensions = 25
    const samples = 256
    const meanOf = (coordinate: (at: number) => number): number => {
      let sum = 0
      for (let i = 0; i < samples; i++) {
        let product = 1
        for (let j = 0; j < dimensions; j++) product *= 1 + 0.2 * (coordinate(i * dimensions + j) - 0.5)
        sum += product
      }
      return sum / samples
    }
    const rms = (mean: (seed: number) => number): number =>
      Math.sqrt(Array.from({ length: 40 }, (_, seed) => (mean(seed) - 1) ** 2).reduce((a, b) => a + b) / 40)
    const even = rms((seed) => {
      const cube = haltonPoints(samples, dimensions, seed)
      return meanOf((at) => cube[at] as number)
    })
    const random = rms((seed) => {
      const generator = seededGenerator(seed)
      return meanOf(() => generator.next() / 2 ** 32)
    })
    expect(random).toBeGreaterThan(1e-3)
    expect(even).toBeLessThan(random / 2)
  })

  it('refuse counts, dimensions and indices out of range', () => {
    expect(() => haltonPoints(0, 3, 1)).toThrow(/^points must be a whole number from 1 to 16777216, got 0$/)
    expect(() => haltonPoints(4, 33, 1)).toThrow(/^dimensions must be a whole number from 1 to 32, got 33$/)
    expect(() => haltonPoints(4, 3, -1)).toThrow(/^seed must be/)
    expect(() => haltonCoordinate(-1, 0)).toThrow(/^index must be a whole number/)
    expect(() => haltonCoordinate(1, 32)).toThrow(/^dimension must be a whole number from 0 to 31, got 32$/)
  })
})

describe('normal deviates', () => {
  it('agree with SciPy from 1e-300 to 1 − 1e-9', () => {
    const { rows, tolerance } = authorityTable('normal-quantile')
    expect(rows.length).toBeGreaterThan(30)
    for (const row of rows) {
      expect(relativeError(normalQuantile(row.number('probability')), row.number('deviate'))).toBeLessThan(tolerance)
    }
  })

  it('are symmetric about ½ and rise with the probability', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 0.5, noNaN: true }),
        fc.double({ min: 1e-9, max: 0.4, noNaN: true }),
        (p, step) => {
          // 1 − p rounds, which the slope at the tail magnifies.
          expect(normalQuantile(1 - p) + normalQuantile(p)).toBeCloseTo(0, 10)
          expect(normalQuantile(p + step)).toBeGreaterThan(normalQuantile(p))
        },
      ),
    )
    expect(normalQuantile(0.5)).toBe(0)
  })

  it('refuse what is no probability between 0 and 1', () => {
    for (const probability of [0, 1, -0.1, Number.NaN]) {
      expect(() => normalQuantile(probability)).toThrow(/^probability must lie between 0 and 1, both excluded, got /)
    }
  })
})

describe('the bounds of a sample', () => {
  it('lie on straight lines between the sorted values', () => {
    expect(quantile([10, 20, 30, 50, 90], 0.25)).toBe(20)
    expect(quantile([10, 20, 30, 50, 90], 0.95)).toBeCloseTo(82, 12)
    expect(quantile([10, 20, 30, 50, 90], 0)).toBe(10)
    expect(quantile([7], 0.95)).toBe(7)
    const hundredAndOne = Array.from({ length: 101 }, (_, i) => 100 - i)
    expect(band(hundredAndOne)).toEqual({ low: 5, high: 95, missing: 0 })
  })

  it('leave out and count what could not be worked out, and are infinite where values are', () => {
    const values = Array.from({ length: 21 }, (_, i) => i)
    expect(band([...values, Number.NaN, Number.NaN])).toEqual({ low: 1, high: 19, missing: 2 })
    const endless = [...values.slice(0, 18), ...Array.from({ length: 3 }, () => Number.POSITIVE_INFINITY)]
    expect(band(endless)).toEqual({ low: 1, high: Number.POSITIVE_INFINITY, missing: 0 })
    expect(band([Number.NaN])).toBeNull()
    expect(band([])).toBeNull()
  })

  it('refuse an empty sample and a share that is none', () => {
    expect(() => quantile([], 0.5)).toThrow(/^sample must hold at least one value/)
    expect(() => quantile([1], 1.5)).toThrow(/^share must lie between 0 and 1, got 1.5$/)
  })
})

describe('the inputs a quantity follows', () => {
  const cube = haltonPoints(512, 6, 5)
  const inputs = Array.from({ length: 6 }, (_, j) =>
    Float64Array.from({ length: 512 }, (_, i) => cube[i * 6 + j] as number),
  )
  const of = (rule: (x: (j: number) => number) => number): Float64Array =>
    Float64Array.from({ length: 512 }, (_, i) => rule((j) => inputs[j]?.[i] as number))

  it('get the shares of the variance of a sum', () => {
    const shares = rankShares(
      inputs,
      of((x) => 4 * x(2) - 2 * x(0) + x(5)),
    )
    expect(shares.slice(0, 3).map(({ index, rises }) => ({ index, rises }))).toEqual([
      { index: 2, rises: true },
      { index: 0, rises: false },
      { index: 5, rises: true },
    ])
    // 16, 4 and 1 parts of 21; ranks bend the sum of three uniforms a little.
    expect(shares[0]?.share).toBeCloseTo(16 / 21, 1)
    expect(shares[1]?.share).toBeCloseTo(4 / 21, 1)
    expect(shares[2]?.share).toBeCloseTo(1 / 21, 1)
  })

  it('add up to 1 at most, and to 1 for any rising function of one input, endless values included', () => {
    const [only, ...rest] = rankShares(
      inputs,
      of((x) => (x(3) > 0.9 ? Number.POSITIVE_INFINITY : -1 / x(3) ** 3)),
    )
    expect(only?.index).toBe(3)
    expect(only?.share).toBeGreaterThan(0.98)
    expect(rest.reduce((sum, { share }) => sum + share, only?.share ?? 0)).toBeLessThanOrEqual(1)
    // A product of two centred inputs rises with neither: nothing is explained.
    const none = rankShares(
      inputs,
      of((x) => (x(0) - 0.5) * (x(1) - 0.5)),
    )
    expect(none.reduce((sum, { share }) => sum + share, 0)).toBeLessThan(0.05)
  })

  it('are none for a quantity that does not vary or too few samples, and never one that does not vary', () => {
    expect(
      rankShares(
        inputs,
        of(() => 3),
      ),
    ).toEqual([])
    expect(
      rankShares(
        inputs.map((column) => column.slice(0, 17)),
        of((x) => x(0)).slice(0, 17),
      ),
    ).toEqual([])
    const fixed = [new Float64Array(512).fill(1), ...inputs.slice(1)]
    expect(
      rankShares(
        fixed,
        of((x) => x(1)),
      ).map(({ index }) => index),
    ).not.toContain(0)
  })
})
