// The front filter against its definition, by comparing every pair: ties, duplicates, any scale, any order of arrival.
import { Front } from '@ductwright/models/sweep/front'
import { compareAs, DIMENSIONS, type Objectives } from '@ductwright/models/sweep/objectives'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { authorityTable, relativeError } from '../models/authority-table.js'

interface Point {
  readonly cells: readonly number[]
  readonly raw: Objectives
  readonly number: number
}

function filtered(points: readonly Point[]): number[] {
  const front = new Front()
  for (const { cells, raw, number } of points) front.offer(Float64Array.from(cells), raw, number)
  return front.members().map(({ number }) => number)
}

/** The definition: nothing dominates it, and of equal cells it comes first by cost, speed, time, margin, number. */
function defined(points: readonly Point[]): number[] {
  const beats = (a: Point, b: Point): boolean => {
    const pairs = a.cells.map((cell, i) => [cell, b.cells[i] as number] as const)
    if (pairs.some(([x, y]) => x > y)) return false
    if (pairs.some(([x, y]) => x < y)) return true
    const order = [
      [a.raw.cost, b.raw.cost],
      [b.raw.speed, a.raw.speed],
      [b.raw.time, a.raw.time],
      [b.raw.margin, a.raw.margin],
      [a.number, b.number],
    ] as const
    const first = order.find(([x, y]) => x !== y)
    return first !== undefined && first[0] < first[1]
  }
  return points
    .filter((point) => !points.some((other) => beats(other, point)))
    .map(({ number }) => number)
    .sort((a, b) => a - b)
}

/** Few distinct levels make ties; a scale from 1e−9 to 1e9 for each value. */
const pointSets = fc
  .record({
    levels: fc.constantFrom(2, 3, 6, 40),
    scales: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: DIMENSIONS, maxLength: DIMENSIONS }),
    draws: fc.array(fc.array(fc.nat({ max: 1_000_000 }), { minLength: 8, maxLength: 8 }), { maxLength: 60 }),
  })
  .map(({ levels, scales, draws }): Point[] =>
    draws.map((draw, number) => {
      const level = (i: number) => (draw[i] as number) % levels
      return {
        number,
        cells: scales.map((scale, i) => level(i) * 10 ** scale - 3 * 10 ** scale),
        raw: { speed: level(4), time: level(5), cost: level(6), margin: level(7) },
      }
    }),
  )

describe('front filter', () => {
  it('keeps exactly what its definition keeps (1,200 random sets)', () => {
    fc.assert(
      fc.property(pointSets, (points) => {
        expect(filtered(points)).toEqual(defined(points))
      }),
      { numRuns: 1200 },
    )
  })

  it('does not depend on the order of arrival', () => {
    fc.assert(
      fc.property(
        pointSets.chain((points) =>
          fc.tuple(fc.constant(points), fc.shuffledSubarray(points, { minLength: points.length })),
        ),
        ([points, shuffled]) => {
          expect(filtered(shuffled)).toEqual(filtered(points))
        },
      ),
      { numRuns: 300 },
    )
  })

  it('filtering what was kept changes nothing', () => {
    fc.assert(
      fc.property(pointSets, (points) => {
        const kept = new Set(filtered(points))
        expect(filtered(points.filter(({ number }) => kept.has(number)))).toEqual([...kept])
      }),
      { numRuns: 200 },
    )
  })

  it('grows past its first columns', () => {
    const points = Array.from({ length: 500 }, (_, i): Point => {
      return { number: i, cells: [i, -i, 0, 0], raw: { speed: 0, time: 0, cost: 0, margin: 0 } }
    })
    expect(filtered(points)).toHaveLength(500)
  })
})

/** Hypervolume by slicing along the last value; all values are minimised. */
function hypervolume(points: readonly (readonly number[])[], reference: number): number {
  const [first] = points
  if (first === undefined) return 0
  if (first.length === 1) return Math.max(0, reference - Math.min(...points.map(([value]) => value as number)))
  const last = first.length - 1
  const sorted = [...points].sort((a, b) => (a[last] as number) - (b[last] as number))
  return sorted.reduce((sum, point, i) => {
    const next = sorted[i + 1]?.[last] ?? reference
    const depth = Math.min(next, reference) - (point[last] as number)
    return depth > 0
      ? sum +
          depth *
            hypervolume(
              sorted.slice(0, i + 1).map((p) => p.slice(0, last)),
              reference,
            )
      : sum
  }, 0)
}

/** Das–Dennis directions with `divisions` steps on the unit sphere. */
function sphere(divisions: number): number[][] {
  const points: number[][] = []
  const place = (left: number, weights: readonly number[]): void => {
    if (weights.length === DIMENSIONS - 1) {
      const all = [...weights, left]
      const norm = Math.hypot(...all)
      points.push(all.map((weight) => weight / norm))
      return
    }
    for (let step = 0; step <= left; step++) place(left - step, [...weights, step])
  }
  place(divisions, [])
  return points
}

const SETS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  'two-dimensional': [
    [5, 5],
    [4, 6],
    [2, 7],
    [7, 4],
  ],
  'unit vectors': [
    [1, 0, 0, 0],
    [0, 1, 0, 0],
    [0, 0, 1, 0],
    [0, 0, 0, 1],
  ],
  'crossed pair': [
    [0, 1, 0, 1],
    [1, 0, 1, 0],
  ],
  'three points': [
    [1, 2, 3, 4],
    [4, 3, 2, 1],
    [2, 2, 2, 2],
  ],
  'four points': [
    [0.2, 0.8, 0.5, 0.6],
    [0.6, 0.3, 0.7, 0.4],
    [0.9, 0.6, 0.1, 0.5],
    [0.4, 0.5, 0.6, 0.2],
  ],
  'sphere 3': sphere(3),
  'sphere 5': sphere(5),
  'sphere 7': sphere(7),
}

describe('known fronts (hypervolume 38 printed; others computed; DTLZ2 sphere with Das–Dennis directions)', () => {
  const table = authorityTable('fronts')
  for (const row of table.rows) {
    it(`${row.text('case')}, reference ${row.text('reference')}, among points they dominate`, () => {
      const members = SETS[row.text('case')] ?? []
      const padded = members.map((cells) => [...cells, 0, 0].slice(0, DIMENSIONS))
      const dominated = padded.map((cells) => cells.map((cell) => cell + 0.01))
      const raw = { speed: 0, time: 0, cost: 0, margin: 0 }
      const points = [...dominated, ...padded].map((cells, number) => ({ cells, raw, number }))
      const kept = filtered(points)
      expect(kept).toEqual(padded.map((_, i) => dominated.length + i))
      const left = kept.map((number) => points[number]?.cells.slice(0, members[0]?.length) ?? [])
      const volume = hypervolume(left, row.number('reference'))
      // The four-point value has four digits.
      const tolerance = row.text('case') === 'four points' ? 5e-4 : table.tolerance
      expect(relativeError(volume, row.number('hypervolume'))).toBeLessThan(tolerance)
    })
  }
})

describe('comparison', () => {
  const comparison = {
    resolution: { speed: 2 / 3.6, time: 5, cost: 5, margin: 0.02 },
    wantedTime: 270,
    wantedMargin: 0.25,
    targetSpeed: 100,
  }
  const cellsOf = (raw: Objectives, changes: Partial<typeof comparison> = {}) => {
    const cells = new Float64Array(DIMENSIONS)
    compareAs(raw, { ...comparison, ...changes }, cells, 0)
    return [...cells]
  }

  it('rounds to the declared resolution and counts time and margin only up to what is wanted', () => {
    const [speed = 0, time, cost, margin = 0] = cellsOf({ speed: 100.2, time: 400, cost: 847.4, margin: 0.6 })
    expect(-speed * 3.6).toBeCloseTo(360, 9)
    expect([time, cost]).toEqual([-270, 845])
    expect(-margin).toBeCloseTo(0.26, 9)
    const whole = cellsOf(
      { speed: 100.2, time: 400, cost: 847.4, margin: 0.6 },
      { wantedTime: Number.POSITIVE_INFINITY },
    )
    expect(whole[1]).toBe(-400)
  })

  it('rounding keeps order: no worse before means no worse after', () => {
    const value = fc.double({ min: 0, max: 1000, noNaN: true })
    fc.assert(
      fc.property(value, value, value, value, value, (speed, time, cost, margin, more) => {
        const a = cellsOf({ speed: speed + more, time: time + more, cost, margin: margin + more })
        const b = cellsOf({ speed, time, cost: cost + more, margin })
        a.forEach((cell, i) => {
          expect(cell).toBeLessThanOrEqual(b[i] as number)
        })
      }),
    )
  })

  it('refuses a value that is not finite, by name', () => {
    expect(() => cellsOf({ speed: 1, time: Number.NaN, cost: 0, margin: 0 })).toThrow(RangeError)
    expect(() => cellsOf({ speed: 1, time: Number.NaN, cost: 0, margin: 0 })).toThrow('time must be finite, got NaN')
  })
})
