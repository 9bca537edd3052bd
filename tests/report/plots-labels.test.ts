// Labels at line ends: apart, in order, as close as the others allow, and lines cut where they leave the area.
import { spread } from '@ductwright/report/charts/label-spread'
import { PlotArea } from '@ductwright/report/charts/plot-area'
import { LINES, WIDE } from '@ductwright/report/charts/theme'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

describe('labels at line ends', () => {
  it('stay where they are when nothing is in the way', () => {
    expect(spread([200, 40, 100], 16, 0, 300)).toEqual([200, 40, 100])
  })

  it('move apart by no more than is needed', () => {
    expect(spread([100, 100, 104], 16, 0, 300)).toEqual([100, 116, 132])
    expect(spread([296, 299], 16, 0, 300)).toEqual([284, 300])
  })

  it('keep their gap, their order and the edges whenever there is room', () => {
    const places = fc.array(fc.integer({ min: -50, max: 350 }), { minLength: 1, maxLength: 15 })
    fc.assert(
      fc.property(places, (ends) => {
        const moved = spread(ends, 16, 0, 300)
        const order = ends.map((_, i) => i).sort((a, b) => (ends[a] ?? 0) - (ends[b] ?? 0))
        const sorted = order.map((i) => moved[i] ?? Number.NaN)
        for (const [i, place] of sorted.entries()) {
          expect(place).toBeGreaterThanOrEqual(i === 0 ? 0 : (sorted[i - 1] ?? 0) + 16)
        }
        expect(sorted.at(-1)).toBeLessThanOrEqual(300)
      }),
    )
  })
})

describe('a line that leaves its area', () => {
  const axis = { title: 'x, m', from: 0, to: 10, ticks: 5 }
  const drawn = (spots: { x: number; y: number }[]): unknown => {
    const { layer } = new PlotArea(WIDE, axis, axis).line(spots, LINES.main).spec() as {
      layer: { data: { values: { x: number; y: number }[] } }[]
    }
    return layer.at(-1)?.data.values.map(({ x, y }) => ({ x, y }))
  }

  it('is cut at the edge it crosses', () => {
    const spots = [
      { x: 0, y: 2 },
      { x: 4, y: 8 },
      { x: 8, y: 16 },
    ]
    expect(drawn(spots)).toEqual([...spots.slice(0, 2), { x: 5, y: 10 }])
    expect(
      drawn([
        { x: 0, y: -5 },
        { x: 10, y: 15 },
      ]),
    ).toEqual([
      { x: 2.5, y: 0 },
      { x: 7.5, y: 10 },
    ])
  })
})
