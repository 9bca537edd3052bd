// What charts rest on: where labels find room, steps of shade that hold every value, crowds that keep their shape.
import { onePerCell } from '@ductwright/report/charts/crowd'
import { LabelRoom } from '@ductwright/report/charts/label-room'
import { holds, stepsOf } from '@ductwright/report/charts/shades'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const frame = { left: 0, right: 200, top: 0, bottom: 100 }
const label = (x: number, y: number) => ({ text: 'name', x, y, align: 'left', colour: 'ink' }) as const

describe('room for labels', () => {
  it('is the first place that is free, inside and covers nothing', () => {
    const room = new LabelRoom(frame)
    expect(room.best([label(-5, 50), label(190, 50), label(50, 2), label(50, 50)])?.label).toEqual(label(50, 50))
    room.take(label(50, 50))
    expect(room.best([label(60, 55)])).toBeUndefined()
    room.keep({ x: 120, y: 20 }, 8)
    expect(room.best([label(110, 22)])).toBeUndefined()
  })

  it('weighs what a label covers against how far off it is', () => {
    const room = new LabelRoom(frame)
    room.avoid({ x: 60, y: 50 }, 4, 8)
    const [over, off] = [label(50, 50), { ...label(50, 80), cost: 3 }]
    expect(room.best([over, off])).toEqual({ label: label(50, 80), cost: 3 })
    expect(room.best([over, { ...off, cost: 9 }])?.label).toEqual(over)
  })

  it('takes no place whose hairline would pass through a name or a kept mark', () => {
    const room = new LabelRoom(frame)
    room.keep({ x: 40, y: 50 }, 8)
    const [across, around] = [
      { ...label(80, 50), via: [{ x: 42, y: 50 }] },
      { ...label(80, 80), via: [{ x: 42, y: 70 }] },
    ]
    expect(room.best([across])).toBeUndefined()
    expect(room.best([across, around])?.label).toEqual(label(80, 80))
  })

  it('keeps off a line all along', () => {
    const room = new LabelRoom(frame)
    room.avoidLine(
      [
        { x: 0, y: 0 },
        { x: 200, y: 100 },
      ],
      2,
    )
    expect(room.best([label(90, 55), label(20, 80)])?.label).toEqual(label(20, 80))
  })
})

describe('steps of shade', () => {
  it('are at most four, hold every share once, and differ in shape', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -0.5, max: 0.99, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (shares) => {
          const steps = stepsOf(shares)
          expect(steps.length).toBeLessThanOrEqual(4)
          for (const share of shares) expect(steps.filter((step) => holds(step, share)).length).toBe(1)
          expect(new Set(steps.map(({ style }) => style.shape)).size).toBe(steps.length)
          expect(new Set(steps.map(({ style }) => style.fill)).size).toBe(steps.length)
        },
      ),
    )
  })

  it('are round and named by their bounds, the deepest shade farthest from the design load', () => {
    const steps = stepsOf([0.118, 0.3, 0.25])
    expect(steps.map(({ words }) => words.replaceAll('\u00a0', ' '))).toEqual(['10 to 20', '20 to 30', '30 to 40'])
    expect(steps.at(-1)?.style.fill).toBe('shade4')
  })
})

describe('a crowd', () => {
  it('keeps one of each place, the first', () => {
    const items = [1.2, 9.7, 1.4, 5.5, 9.9, -0.2]
    expect(onePerCell(items, (item) => [item], 1)).toEqual([1.2, 9.7, 5.5, -0.2])
    expect(onePerCell(items, (item) => [item, 2 * item], 0.1)).toEqual(items)
  })
})
