// Speed against money: what no cheaper setup outruns, and the knee of it.
import { kneePlace, speedCostFront } from '@ductwright/models/ranking/speed-cost'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const points = fc.array(fc.record({ speed: fc.integer({ min: 1, max: 40 }), cost: fc.integer({ min: 0, max: 40 }) }), {
  minLength: 1,
  maxLength: 30,
})

describe('speed against money', () => {
  it('keeps exactly those that none beats in both, by rising cost and speed', () => {
    fc.assert(
      fc.property(points, (all) => {
        const kept = speedCostFront(all).map((index) => all[index] ?? { speed: 0, cost: 0 })
        for (const [i, point] of kept.entries()) {
          const before = kept[i - 1]
          if (before === undefined) continue
          expect(point.cost).toBeGreaterThan(before.cost)
          expect(point.speed).toBeGreaterThan(before.speed)
        }
        for (const { speed, cost } of all) {
          const beaten = all.some(
            (other) => other.cost <= cost && other.speed >= speed && (other.cost < cost || other.speed > speed),
          )
          expect(kept.some((point) => point.speed === speed && point.cost === cost)).toBe(!beaten)
        }
      }),
    )
  })

  it('of equals keeps the first', () => {
    const twins = [
      { speed: 1, cost: 9 },
      { speed: 5, cost: 2 },
      { speed: 5, cost: 2 },
    ]
    expect(speedCostFront(twins)).toEqual([1])
  })
})

describe('the knee (Das 1999: farthest from the line through the ends)', () => {
  it('of a corner is the corner', () => {
    const corner = [
      { speed: 100, cost: 0 },
      { speed: 180, cost: 100 },
      { speed: 190, cost: 500 },
      { speed: 200, cost: 1000 },
    ]
    expect(kneePlace(corner)).toBe(1)
  })

  it('of a quarter circle is where its tangent is the line through the ends, at 45°', () => {
    const circle = Array.from({ length: 91 }, (_, degree) => {
      const angle = (degree * Math.PI) / 180
      return { speed: 300 + 60 * Math.sin(angle), cost: 200 + 800 * (1 - Math.cos(angle)) }
    })
    expect(kneePlace(circle)).toBe(45)
  })

  it('is the same in any unit, and beyond it more speed costs more than before it', () => {
    fc.assert(
      fc.property(points, (all) => {
        const front = speedCostFront(all).map((index) => all[index] ?? { speed: 0, cost: 0 })
        const place = kneePlace(front)
        expect(kneePlace(front.map(({ speed, cost }) => ({ speed: 0.5 * speed, cost: 4 * cost + 64 })))).toBe(place)
        const [first, knee, last] = [front[0], front[place ?? -1], front.at(-1)]
        if (first === undefined || last === undefined || knee === undefined) return
        const before = (knee.cost - first.cost) / (knee.speed - first.speed)
        expect((last.cost - knee.cost) / (last.speed - knee.speed)).toBeGreaterThan(before)
      }),
    )
  })

  it('is none for one setup, for two, on a straight line and where dear speed comes first', () => {
    expect(kneePlace([])).toBeNull()
    expect(kneePlace([{ speed: 1, cost: 1 }])).toBeNull()
    expect(
      kneePlace([
        { speed: 1, cost: 1 },
        { speed: 2, cost: 2 },
      ]),
    ).toBeNull()
    expect(kneePlace([0, 1, 2, 3].map((i) => ({ speed: 100 + 10 * i, cost: 50 * i })))).toBeNull()
    expect(
      kneePlace([
        { speed: 1, cost: 0 },
        { speed: 2, cost: 90 },
        { speed: 10, cost: 100 },
      ]),
    ).toBeNull()
  })
})
