// The front filter against its definition, by comparing every pair: two to six values, ties, duplicates, any scale, any
// order of arrival; what it says of points that are not offered; what it refuses. Then how compared values are made.
import { Front } from '@ductwright/models/sweep/front'
import { compareAs, DIMENSIONS, type Objectives } from '@ductwright/models/sweep/objectives'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defined, dominates, filtered, frontOf, type Point, randomSet, shuffled } from './front-definition.js'

const RAW = { speed: 0, time: 0, cost: 0, margin: 0 }
const SETS = 10_000

function point(number: number, ...cells: number[]): Point {
  return { number, cells: Float64Array.from(cells), raw: RAW }
}

describe('front filter', () => {
  it(`keeps exactly what its definition keeps (${SETS} random sets)`, () => {
    let looked = 0
    for (let seed = 0; seed < SETS; seed++) {
      const points = randomSet(seed)
      const kept = defined(points).map(({ number }) => number)
      if (kept.length > 100) looked++
      expect(filtered(points), `set ${seed}`).toEqual(kept)
    }
    // Small sets alone would not reach the table and the tree.
    expect(looked).toBeGreaterThan(100)
  })

  it('keeps cells and objectives of its members', () => {
    for (let seed = 0; seed < 1050; seed += 21) {
      const points = randomSet(seed)
      const members = frontOf(points).members()
      expect(members).toEqual(
        defined(points).map(({ number, raw, cells }) => ({ number, raw, cells: Array.from(cells) })),
      )
    }
  })

  it('does not depend on the order of arrival', () => {
    for (let seed = 0; seed < 1200; seed++) {
      const points = randomSet(seed)
      expect(filtered(shuffled(points, seed)), `set ${seed}`).toEqual(filtered(points))
    }
  })

  it('filtering what was kept, or offering it again, changes nothing', () => {
    for (let seed = 0; seed < 600; seed++) {
      const points = randomSet(seed)
      const front = frontOf(points)
      const kept = new Set(filtered(points))
      const members = points.filter(({ number }) => kept.has(number))
      expect(filtered(members), `set ${seed}`).toEqual([...kept])
      expect(members.some(({ cells, raw, number }) => front.offer(cells, raw, number))).toBe(false)
      expect(front.size).toBe(kept.size)
    }
  })

  it('says of every offer whether it stays, and how many are left', () => {
    for (let seed = 0; seed < 120; seed++) {
      const points = randomSet(seed)
      const front = new Front(points[0]?.cells.length)
      points.forEach(({ cells, raw, number }, i) => {
        const soFar = i < 60 || i % 20 === 0 ? defined(points.slice(0, i + 1)) : undefined
        const stays = front.offer(cells, raw, number)
        if (soFar === undefined) return
        expect(stays, `set ${seed}, point ${i}`).toBe(soFar.some((member) => member.number === number))
        expect(front.size).toBe(soFar.length)
      })
    }
  })

  it('keeps thousands of members, in order along a line or mixed', () => {
    const line = Array.from({ length: 6000 }, (_, i) => point(i, i, -i, 0, 0))
    expect(filtered(line)).toHaveLength(6000)
    expect(filtered(shuffled(line, 1))).toHaveLength(6000)
    const plane = Array.from({ length: 6000 }, (_, i) => point(i, i % 80, Math.floor(i / 80), 200 - (i % 80), -i))
    expect(filtered(shuffled(plane, 2))).toHaveLength(6000)
  })

  it('lets thousands of members go when one comes that dominates them', () => {
    const line = Array.from({ length: 6000 }, (_, i) => point(i, i, -i, 0, 0))
    const front = frontOf(line)
    expect(front.offer(Float64Array.of(1000, -5000, 0, -1), RAW, 6000)).toBe(true)
    expect(front.size).toBe(6000 - 4001 + 1)
    expect(front.offer(Float64Array.of(3000, -3000, 0, 0), RAW, 6001)).toBe(false)
    expect(front.dominatorOf(Float64Array.of(3000, -3000, 0, 0))).toBe(6000)
    expect(front.offer(Float64Array.of(0, -6000, -1, -2), RAW, 6002)).toBe(true)
    expect(front.members().map(({ number }) => number)).toEqual([6002])
  })

  it('tells values apart whose range overflows, or is as narrow as numbers allow', () => {
    const wide = Array.from({ length: 400 }, (_, i) => {
      const share = (i - 200) / 200
      return point(i, 1.7e308 * share, -1.7e308 * share, Number.MIN_VALUE * (i % 7), Number.MIN_VALUE * (6 - (i % 7)))
    })
    expect(filtered(shuffled(wide, 3))).toEqual(defined(wide).map(({ number }) => number))
  })
})

describe('what a front says of points that are not offered', () => {
  it('is what comparing them with every member says', () => {
    for (let seed = 0; seed < 3000; seed++) {
      const points = randomSet(seed)
      if (points.length === 0) continue
      const front = frontOf(points.filter((_, i) => i % 2 === 0))
      const members = front.members().map(({ number, cells }) => ({ number, cells: Float64Array.from(cells) }))
      const wrong = points.filter(({ cells }) => {
        const better = members.filter((member) => dominates(member.cells, cells)).map(({ number }) => number)
        const named = front.dominatorOf(cells)
        if (front.dominates(cells) !== better.length > 0) return true
        return better.length > 0 ? !better.includes(named) : named !== -1
      })
      expect(wrong, `set ${seed}`).toEqual([])
    }
  })

  it('reads from the offset on', () => {
    for (const dimensions of [2, 4, 6]) {
      const front = new Front(dimensions)
      front.offer(new Float64Array(dimensions).fill(1), RAW, 7)
      const column = new Float64Array(3 * dimensions)
        .fill(0, 0, dimensions)
        .fill(1, dimensions)
        .fill(2, 2 * dimensions)
      const asked = [0, dimensions, 2 * dimensions]
      expect(asked.map((offset) => front.dominates(column, offset))).toEqual([false, false, true])
      expect(asked.map((offset) => front.dominatorOf(column, offset))).toEqual([-1, -1, 7])
    }
  })

  it('takes bounds that are infinite', () => {
    const front = frontOf(Array.from({ length: 500 }, (_, i) => point(i, i, -i, 0, 0)))
    const { POSITIVE_INFINITY: more, NEGATIVE_INFINITY: less } = Number
    expect(front.dominates(Float64Array.of(less, less, less, less))).toBe(false)
    expect(front.dominates(Float64Array.of(more, less, 0, 0))).toBe(false)
    expect(front.dominates(Float64Array.of(more, more, more, more))).toBe(true)
  })

  it('is nothing when the front is empty', () => {
    expect(new Front().dominates(new Float64Array(4))).toBe(false)
    expect(new Front().dominatorOf(new Float64Array(4))).toBe(-1)
  })
})

describe('a front refuses', () => {
  it('values that are not finite, by their place, and keeps what it had', () => {
    const front = frontOf([point(0, 1, 1, 1, 1)])
    const offer = (...cells: number[]) => front.offer(Float64Array.from(cells), RAW, 1)
    expect(() => offer(0, Number.NaN, 0, 0)).toThrow(new RangeError('compared value 1 must be finite, got NaN'))
    expect(() => offer(0, 0, 0, Number.NEGATIVE_INFINITY)).toThrow('compared value 3 must be finite, got -Infinity')
    expect(front.members().map(({ number }) => number)).toEqual([0])
    expect(() => new Front(6).offer(Float64Array.of(0, 0, 0, 0, 0, 1 / 0), RAW, 0)).toThrow('compared value 5')
  })

  it('fewer than two values or more than six', () => {
    for (const dimensions of [1, 7, 2.5])
      expect(() => new Front(dimensions)).toThrow(`dimensions must be a whole number from 2 to 6, got ${dimensions}`)
  })
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
